#include <QCoreApplication>
#include <QDate>
#include <QFileInfo>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/describe_words.h"
#include "app/words/lengths.h"
#include "app/work/file_bytes.h"
#include "app/work/known_engines.h"
#include "app/work/output_file.h"
#include "core/describe/dimension_worth.h"
#include "core/files/known_engine_file.h"
#include "core/units/typed_text.h"
#include "db/set_up_store.h"

namespace rodway {
namespace {

struct KnownEngineCommands {
    Q_DECLARE_TR_FUNCTIONS(KnownEngineCommands)
};

struct Options {
    std::string shop;
    std::string build;
    std::string engine;
    std::string file;
    std::string name;
    std::string measured_by;
    std::string measured_on;
    std::string note;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    int version = 0; ///< 0: the newest
    bool replace = false;
    bool json = false;
};

std::optional<std::string> said(const std::string& text) {
    return text.empty() ? std::nullopt : std::optional(text);
}

ExitCode list_known(const Options& options) {
    auto shop = ShopFile::open_to_look(options.shop);
    if (!shop) {
        return refuse(shop.error(), QString::fromStdString(options.shop));
    }
    ShopFile file = std::move(shop).value();
    const auto engines = known_engines(file);
    if (!engines) {
        return refuse(engines.error());
    }
    QJsonArray rows;
    for (const KnownEngine& engine : *engines) {
        rows.append(QJsonObject{{"name", QString::fromStdString(engine.name)},
                                {"version", engine.version},
                                {"measured_by", text_or_null(engine.measured_by)},
                                {"measured_on", text_or_null(engine.measured_on)},
                                {"note", text_or_null(engine.note)},
                                {"fields", static_cast<int>(engine.fields.size())}});
        if (!options.json) {
            print(KnownEngineCommands::tr("%1, version %2: measured by %3, %4")
                      .arg(QString::fromStdString(engine.name))
                      .arg(engine.version)
                      .arg(QString::fromStdString(engine.measured_by.value_or("–")),
                           QString::fromStdString(engine.measured_on.value_or("–"))));
        }
    }
    if (options.json) {
        print_json({{"format", "rodway-known-engines"}, {"version", 1}, {"engines", rows}});
    } else if (engines->empty()) {
        print(KnownEngineCommands::tr(
            "No engine is known yet. Keep one with: rodway keep-known-engine"));
    }
    return ExitCode::done;
}

/// Opens the shop to write in it.
ExitCode with_session(const Options& options, const std::function<Shown(ShopSession&)>& work) {
    auto shop = ShopFile::open(options.shop);
    if (!shop) {
        return refuse(shop.error(), QString::fromStdString(options.shop));
    }
    ShopSession session(std::move(shop).value(), QString::fromStdString(options.who));
    const auto done = work(session);
    return done ? *done : refuse(done.error());
}

Shown keep_known(ShopSession& session, const Options& options) {
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    if (!build) {
        return build.error();
    }
    const auto set_up = newest_set_up(session.shop(), build->id);
    if (!set_up || !*set_up) {
        return set_up ? Error{ErrorCode::missing_field, "set_up", {}, {}, {}, {}} : set_up.error();
    }
    const SetUpFields& fields = (*set_up)->fields;
    const auto own = fields.find("engine/name");
    const std::string name = !options.name.empty() ? options.name
                             : own != fields.end() ? own->second.text
                                                   : build->engine;
    const auto id = keep_known_engine(
        session, {name, said(options.measured_by), said(options.measured_on), said(options.note)},
        fields);
    if (!id) {
        return id.error();
    }
    const auto kept = find_known_engine(session.shop(), name);
    if (!kept) {
        return kept.error();
    }
    print(KnownEngineCommands::tr("Kept %1 as version %2.")
              .arg(QString::fromStdString(kept->name))
              .arg(kept->version));
    return ExitCode::done;
}

ExitCode export_known(const Options& options) {
    auto opened = ShopFile::open_to_look(options.shop);
    if (!opened) {
        return refuse(opened.error(), QString::fromStdString(options.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto engine = find_known_engine(
        shop, options.engine, options.version > 0 ? std::optional(options.version) : std::nullopt);
    if (!engine) {
        return refuse(engine.error());
    }
    const QString file = QString::fromStdString(options.file);
    if (!options.replace && QFileInfo::exists(file)) {
        complain(KnownEngineCommands::tr(
                     "rodway: %1 stands there already. Say --replace to write over it.")
                     .arg(file));
        return ExitCode::cannot_read_or_write;
    }
    if (const auto written = write_output(file, write_known_engine_file(*engine)); !written) {
        return refuse(written.error(), file);
    }
    print(KnownEngineCommands::tr("Wrote %1.").arg(file));
    return ExitCode::done;
}

ExitCode import_known(const Options& options) {
    const QString file = QString::fromStdString(options.file);
    const auto bytes = read_file(file);
    const auto engine = bytes ? read_known_engine_file(*bytes) : Result<KnownEngine>(bytes.error());
    if (!engine) {
        return refuse(engine.error(), file);
    }
    return with_session(options, [&](ShopSession& session) -> Shown {
        const std::string name = options.name.empty() ? engine->name : options.name;
        const auto id = keep_known_engine(
            session, {name, engine->measured_by, engine->measured_on, engine->note},
            engine->fields);
        if (!id) {
            return id.error();
        }
        print(KnownEngineCommands::tr("%1 is known now.").arg(QString::fromStdString(name)));
        return ExitCode::done;
    });
}

Shown begin_build_from(ShopSession& session, const Options& options) {
    const auto engine =
        find_known_engine(session.shop(), options.engine,
                          options.version > 0 ? std::optional(options.version) : std::nullopt);
    const auto build = find_build(session.shop(), QString::fromStdString(options.build));
    if (!engine || !build) {
        return !engine ? engine.error() : build.error();
    }
    if (const auto begun = begin_from(session, build->id, *engine); !begun) {
        return begun.error();
    }
    print(KnownEngineCommands::tr("The set-up in hand of %1 now begins from %2, version %3; its "
                                  "sizes count as guesses until they are measured.")
              .arg(QString::fromStdString(build->name), QString::fromStdString(engine->name))
              .arg(engine->version));
    return ExitCode::done;
}

const char* stand_word(SizeStand stand) {
    switch (stand) {
        case SizeStand::given:
            return "given";
        case SizeStand::mate:
            return "mate";
        case SizeStand::assumed:
            return "assumed";
        case SizeStand::missing:
            return "missing";
    }
    return "";
}

const char* source_word(DoubtSource source) {
    switch (source) {
        case DoubtSource::measured:
            return "measured";
        case DoubtSource::from_the_box:
            return "from_the_box";
        case DoubtSource::assumed:
            return "assumed";
        case DoubtSource::common_practice:
            return "common_practice";
    }
    return "";
}

QJsonObject size_json(const SizeWorth& one) {
    const bool angle = one.dimension->angle;
    const auto in_unit = [angle](double value) { return angle ? value : inches_of(value); };
    return {{"name", QString::fromStdString(std::string(one.dimension->name))},
            {"owner", QString::fromStdString(one.size.owner)},
            {"value", in_unit(one.size.value)},
            {"doubt", in_unit(one.size.doubt)},
            {"unit", angle ? "deg" : "in"},
            {"stand", stand_word(one.size.stand)},
            {"source", source_word(one.size.source)},
            {"worth_in", inches_or_null(one.worth_mm)},
            {"valve", QString::fromStdString(position_name(one.valve))}};
}

ExitCode open_sizes(const BuildOptions& options) {
    return with_build(options, [&](const BuildInHand& hand) -> Shown {
        if (!is_described(hand.set_up.fields)) {
            return Error{ErrorCode::missing_field, "described", {}, {}, {}, {}};
        }
        LobesMade made;
        const auto worth = description_worth(hand.set_up.fields, made);
        if (!worth) {
            return worth.error();
        }
        QJsonArray sizes;
        QJsonArray valves;
        for (const SizeWorth& one : worth->sizes) {
            sizes.append(size_json(one));
        }
        for (const DescribedClearance& line : worth->valves) {
            valves.append(QJsonObject{{"valve", QString::fromStdString(position_name(line.valve))},
                                      {"minimum_in", inches_or_null(line.clearance_mm)},
                                      {"doubt_in", inches_or_null(line.doubt_mm)}});
        }
        if (options.json) {
            QJsonObject answer = head_json("rodway-open-sizes", hand);
            answer["sizes"] = sizes;
            answer["valves"] = valves;
            print_json(answer);
            return ExitCode::done;
        }
        print_head(hand);
        for (const SizeWorth& one : worth->sizes) {
            print(KnownEngineCommands::tr("%1: %2; %3")
                      .arg(words::dimension_of(*one.dimension, one.size.owner),
                           words::size_stand(*one.dimension, one.size),
                           words::worth(one.worth_mm, one.valve)));
        }
        return ExitCode::done;
    });
}

} // namespace

void add_known_engine_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto begin = [&](const char* name, const QString& what) {
        auto* command = program.add_subcommand(name, what.toStdString());
        command->add_option("shop", options->shop, word(KnownEngineCommands::tr("Shop file")))
            ->required();
        return command;
    };
    const auto add_engine = [&](CLI::App* command) {
        command
            ->add_option("engine", options->engine,
                         word(KnownEngineCommands::tr("Known engine's name")))
            ->required();
        command->add_option("--version", options->version,
                            word(KnownEngineCommands::tr("Which version (else the newest)")));
    };
    const auto add_build = [&](CLI::App* command) {
        command
            ->add_option("build", options->build,
                         word(KnownEngineCommands::tr("Build's number or name")))
            ->required();
    };
    const auto add_file = [&](CLI::App* command, const QString& what) {
        command->add_option("file", options->file, word(what))->required();
    };

    auto* list = begin("known-engines",
                       KnownEngineCommands::tr("List the engines whose geometry the shop keeps"));
    add_json_option(*list, options->json);
    list->callback([=, &outcome] { outcome.code = list_known(*options); });

    auto* keep =
        begin("keep-known-engine", KnownEngineCommands::tr("Keep a build's engine for next time"));
    add_build(keep);
    keep->add_option("--name", options->name,
                     word(KnownEngineCommands::tr("What it is called (else as its set-up says)")));
    keep->add_option("--measured-by", options->measured_by,
                     word(KnownEngineCommands::tr("Who measured it")));
    keep->add_option("--measured-on", options->measured_on,
                     word(KnownEngineCommands::tr("When, such as 2026-11-30")));
    keep->add_option("--note", options->note, word(KnownEngineCommands::tr("A note")));
    add_who_option(*keep, options->who);
    keep->callback([=, &outcome] {
        outcome.code = with_session(
            *options, [&](ShopSession& session) { return keep_known(session, *options); });
    });

    auto* out = begin("export-known-engine",
                      KnownEngineCommands::tr("Write a known engine to a file, to be shared"));
    add_engine(out);
    add_file(out, KnownEngineCommands::tr("File to write"));
    out->add_flag("--replace", options->replace,
                  word(KnownEngineCommands::tr("Write over a file that stands there")));
    out->callback([=, &outcome] { outcome.code = export_known(*options); });

    auto* in = begin("import-known-engine",
                     KnownEngineCommands::tr("Keep an engine from a file, or from a set-up file"));
    add_file(in, KnownEngineCommands::tr("Known engine's file, or a set-up file"));
    in->add_option("--name", options->name, word(KnownEngineCommands::tr("What it is called")));
    add_who_option(*in, options->who);
    in->callback([=, &outcome] { outcome.code = import_known(*options); });

    auto* from = begin("begin-from-known-engine",
                       KnownEngineCommands::tr("Begin a build's set-up from a known engine"));
    add_engine(from);
    add_build(from);
    add_who_option(*from, options->who);
    from->callback([=, &outcome] {
        outcome.code = with_session(
            *options, [&](ShopSession& session) { return begin_build_from(session, *options); });
    });

    auto build = std::make_shared<BuildOptions>();
    auto* open = program.add_subcommand(
        "open-sizes", word(KnownEngineCommands::tr("Of a described engine, how each size is known, "
                                                   "and what that is worth in clearance")));
    add_build_options(*open, *build);
    open->callback([=, &outcome] { outcome.code = open_sizes(*build); });
}

} // namespace rodway
