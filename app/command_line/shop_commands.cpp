#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/first_run/demo_shop.h"
#include "app/first_run/new_build.h"
#include "app/words/check_words.h"
#include "app/words/rescue_words.h"
#include "app/work/file_bytes.h"
#include "core/build/stage_plan.h"
#include "core/files/set_up_file.h"
#include "db/build_store.h"
#include "db/record_tables.h"
#include "db/rescue.h"
#include "db/stage_store.h"

namespace rodway {
namespace {

struct ShopCommands {
    Q_DECLARE_TR_FUNCTIONS(ShopCommands)
};

ExitCode make_demo(const QString& path) {
    const auto made = write_demo_shop(path);
    if (!made) {
        return refuse(made.error(), path);
    }
    print(ShopCommands::tr("Made %1 with three invented builds.").arg(path));
    return ExitCode::done;
}

struct Progress {
    int ticked = 0;
    int steps = 0;
    QString next;
};

Result<Progress> progress_of(ShopFile& shop, std::int64_t build_id) {
    const auto stages = stages_with_steps(shop, build_id);
    if (!stages) {
        return stages.error();
    }
    Progress progress;
    for (const StageWithSteps& stage : *stages) {
        for (const Step& step : stage.steps) {
            ++progress.steps;
            if (step.ticked_at) {
                ++progress.ticked;
            } else if (progress.next.isEmpty()) {
                progress.next = QString::fromStdString(stage.stage.title + ": " + step.title);
            }
        }
    }
    return progress;
}

ExitCode list_builds(const QString& path, bool json) {
    auto shop = ShopFile::open_to_look(path.toStdString());
    if (!shop) {
        return refuse(shop.error(), path);
    }
    ShopFile file = std::move(shop).value();
    const auto builds = load_builds(file);
    if (!builds) {
        return refuse(builds.error(), path);
    }
    QJsonArray rows;
    for (const Build& build : *builds) {
        const auto progress = progress_of(file, build.id);
        if (!progress) {
            return refuse(progress.error(), path);
        }
        const QString promised = QString::fromStdString(build.promised.value_or(""));
        if (json) {
            rows.append(
                QJsonObject{{"id", static_cast<qint64>(build.id)},
                            {"name", QString::fromStdString(build.name)},
                            {"customer", QString::fromStdString(build.customer)},
                            {"engine", QString::fromStdString(build.engine)},
                            {"promised", build.promised ? QJsonValue(promised) : QJsonValue()},
                            {"steps_ticked", progress->ticked},
                            {"steps", progress->steps},
                            {"next_step", progress->next}});
        } else {
            print(ShopCommands::tr("%1  %2  for %3  (%4 of %5 steps ticked, promised %6)")
                      .arg(QString::number(build.id), QString::fromStdString(build.name),
                           QString::fromStdString(build.customer),
                           QString::number(progress->ticked), QString::number(progress->steps),
                           promised.isEmpty() ? ShopCommands::tr("no date") : promised));
            print(
                ShopCommands::tr("   next: %1")
                    .arg(progress->next.isEmpty() ? ShopCommands::tr("nothing") : progress->next));
        }
    }
    if (json) {
        print_json({{"format", "rodway-builds"}, {"version", 1}, {"builds", rows}});
    } else if (builds->empty()) {
        print(ShopCommands::tr("No builds yet. Add one with: rodway add-build"));
    }
    return ExitCode::done;
}

ExitCode add_build(const QString& path, Build build, const QString& set_up_file,
                   const std::string& plan, const QString& who) {
    SetUpFields fields;
    if (!set_up_file.isEmpty()) {
        const auto bytes = read_file(set_up_file);
        const auto read = bytes ? read_set_up_file(*bytes) : Result<SetUpFields>(bytes.error());
        if (!read) {
            return refuse(read.error(), set_up_file);
        }
        fields = *read;
    }
    auto shop = ShopFile::open(path.toStdString());
    if (!shop) {
        return refuse(shop.error(), path);
    }
    ShopSession session(std::move(shop).value(), who);
    const auto id = create_build(session, std::move(build), fields, plan);
    if (!id) {
        return id.error().field == "plan" ? refuse(id.error()) : refuse(id.error(), path);
    }
    print(ShopCommands::tr("Added build %1.").arg(*id));
    return ExitCode::done;
}

ExitCode check_shop(const QString& path, bool json) {
    auto shop = ShopFile::open_to_look(path.toStdString());
    if (!shop) {
        return refuse(shop.error(), path);
    }
    ShopFile file = std::move(shop).value();
    const auto report = file.check();
    if (!report) {
        return refuse(report.error(), path);
    }
    QJsonArray findings;
    for (const Finding& finding : report->findings) {
        if (json) {
            findings.append(words::check_finding(finding));
        } else {
            print(words::check_finding(finding));
        }
    }
    if (json) {
        print_json({{"format", "rodway-check"},
                    {"version", 1},
                    {"sound", report->findings.empty()},
                    {"findings", findings}});
    } else if (report->findings.empty()) {
        print(ShopCommands::tr(
                  "%1 is sound: pages, references, photos, history and search index agree.")
                  .arg(path));
    }
    return report->findings.empty() ? ExitCode::done : ExitCode::damaged_file;
}

const char* code_word(RescueCode code) {
    switch (code) {
        case RescueCode::replayed:
            return "replayed";
        case RescueCode::differs:
            return "differs";
        case RescueCode::unlinked:
            return "unlinked";
        case RescueCode::left_out:
            return "left_out";
        case RescueCode::without_history:
            return "without_history";
        case RescueCode::no_row:
            return "no_row";
        case RescueCode::lost:
            return "lost";
    }
    return "";
}

QString kind_word(RecordKind kind) {
    return QString::fromStdString(std::string(table_of(kind).word));
}

QJsonObject rescue_json(const RescueReport& report, const QString& target) {
    QJsonObject records;
    for (const auto& [kind, count] : report.records) {
        records.insert(kind_word(kind), QJsonObject{{"as_stored", count.as_stored},
                                                    {"replayed", count.replayed},
                                                    {"lost", count.lost}});
    }
    QJsonArray notes;
    for (const RescueNote& note : report.notes) {
        notes.append(QJsonObject{{"code", code_word(note.code)},
                                 {"kind", kind_word(note.record.kind)},
                                 {"id", static_cast<qint64>(note.record.id)},
                                 {"field", QString::fromStdString(note.field)}});
    }
    QJsonArray lost_acts;
    for (const std::int64_t act : report.lost_acts) {
        lost_acts.append(static_cast<qint64>(act));
    }
    QJsonArray altered;
    for (const std::string& path : report.photos_altered) {
        altered.append(QString::fromStdString(path));
    }
    QJsonArray findings;
    for (const Finding& finding : report.check.findings) {
        findings.append(words::check_finding(finding));
    }
    return {{"format", "rodway-rescue"},
            {"version", 1},
            {"rescued_to", target},
            {"records", records},
            {"notes", notes},
            {"acts", static_cast<qint64>(report.acts)},
            {"lost_acts", lost_acts},
            {"acts_missing_at_end", static_cast<qint64>(report.acts_missing_at_end)},
            {"photos_copied", report.photos_copied},
            {"photos_altered", altered},
            {"sound", report.check.findings.empty()},
            {"findings", findings}};
}

ExitCode rescue_shop(const QString& path, const QString& target, bool json) {
    const auto report = rescue(path.toStdString(), target.toStdString());
    if (!report) {
        return refuse(report.error(), path);
    }
    if (json) {
        print_json(rescue_json(*report, target));
    } else {
        print(ShopCommands::tr("Made %1 of what can be read from %2.").arg(target, path));
        for (const QString& line : words::rescue_summary(*report)) {
            print(line);
        }
        for (const RescueNote& note : report->notes) {
            print(words::rescue_note_text(note));
        }
        for (const Finding& finding : report->check.findings) {
            print(words::check_finding(finding));
        }
    }
    return report->check.findings.empty() && report->notes.empty() ? ExitCode::done
                                                                   : ExitCode::damaged_file;
}

/// What the options of these commands are read into; it lives as long as the program's parser.
struct Options {
    std::string shop;
    std::string set_up;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    std::string promised;
    std::string rescue_to;
    std::string plan = std::string(usual_stage_plan);
    Build build;
    bool json = false;
};

} // namespace

void add_shop_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<Options>();
    const auto word = [](const QString& text) { return text.toStdString(); };
    const auto shop_of = [options] { return QString::fromStdString(options->shop); };

    auto* demo = program.add_subcommand(
        "demo", word(ShopCommands::tr("Make a shop file with three invented builds")));
    demo->add_option("shop", options->shop, word(ShopCommands::tr("Shop file to make")))
        ->required();
    demo->callback([=, &outcome] { outcome.code = make_demo(shop_of()); });

    auto* builds = program.add_subcommand("builds", word(ShopCommands::tr("List a shop's builds")));
    builds->add_option("shop", options->shop, word(ShopCommands::tr("Shop file")))->required();
    builds->add_flag("--json", options->json, word(ShopCommands::tr("Answer as JSON")));
    builds->callback([=, &outcome] { outcome.code = list_builds(shop_of(), options->json); });

    auto* add = program.add_subcommand(
        "add-build", word(ShopCommands::tr("Add a build, with its set-up if there is one")));
    add->add_option("shop", options->shop, word(ShopCommands::tr("Shop file")))->required();
    add->add_option("name", options->build.name, word(ShopCommands::tr("What the shop calls it")))
        ->required();
    add->add_option("--customer", options->build.customer, word(ShopCommands::tr("Customer")))
        ->required();
    add->add_option("--engine", options->build.engine, word(ShopCommands::tr("Engine")))
        ->required();
    add->add_option("--promised", options->promised,
                    word(ShopCommands::tr("Promised date, like 2027-03-12")));
    add->add_option("--set-up", options->set_up, word(ShopCommands::tr("Set-up file")));
    add->add_option("--plan", options->plan,
                    word(ShopCommands::tr("Stage plan it begins with, as plans lists it")))
        ->capture_default_str();
    add->add_option("--by", options->who, word(ShopCommands::tr("Who does this (initials)")));
    add->callback([=, &outcome] {
        Build build = options->build;
        if (!options->promised.empty()) {
            build.promised = options->promised;
        }
        outcome.code = add_build(shop_of(), build, QString::fromStdString(options->set_up),
                                 options->plan, QString::fromStdString(options->who));
    });

    auto* check = program.add_subcommand(
        "check", word(ShopCommands::tr("Check that a shop file holds together")));
    check->add_option("shop", options->shop, word(ShopCommands::tr("Shop file")))->required();
    check->add_flag("--json", options->json, word(ShopCommands::tr("Answer as JSON")));
    check->add_option("--rescue", options->rescue_to,
                      word(ShopCommands::tr("Make this new shop file of what can be read")));
    check->callback([=, &outcome] {
        outcome.code =
            options->rescue_to.empty()
                ? check_shop(shop_of(), options->json)
                : rescue_shop(shop_of(), QString::fromStdString(options->rescue_to), options->json);
    });
}

} // namespace rodway
