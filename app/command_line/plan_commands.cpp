#include <QCoreApplication>
#include <QFileInfo>
#include <QJsonArray>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/edit_stack/shop_session.h"
#include "app/words/plan_words.h"
#include "app/work/file_bytes.h"
#include "app/work/output_file.h"
#include "app/work/stage_plans.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

struct PlanCommands {
    Q_DECLARE_TR_FUNCTIONS(PlanCommands)
};

struct PlanOptions {
    BuildOptions build;
    std::string word;
    std::string file;
    std::vector<std::string> take;
    std::string who = qEnvironmentVariable("USER", "shop").toStdString();
    bool replace = false;
};

constexpr const char* everything = "all";

QString text(const std::string& word) {
    return QString::fromStdString(word);
}

QJsonValue text_or_null(const std::optional<std::string>& value) {
    return value ? QJsonValue(text(*value)) : QJsonValue();
}

ExitCode list_plans(const PlanOptions& options) {
    const QString path = text(options.build.shop);
    auto shop = ShopFile::open_to_look(options.build.shop);
    if (!shop) {
        return refuse(shop.error(), path);
    }
    ShopFile file = std::move(shop).value();
    const auto known = known_plans(file);
    if (!known) {
        return refuse(known.error(), path);
    }
    QJsonArray rows;
    for (const KnownPlan& plan : *known) {
        rows.append(QJsonObject{{"word", text(plan.word)},
                                {"title", text(plan.title)},
                                {"about", text(plan.about)},
                                {"own", plan.own},
                                {"built_in", plan.built_in}});
        if (!options.build.json) {
            const QString whose = !plan.own       ? QString()
                                  : plan.built_in ? PlanCommands::tr(
                                                        " (the shop's, in place of "
                                                        "the one that came with "
                                                        "the program)")
                                                  : PlanCommands::tr(" (the shop's own)");
            print(PlanCommands::tr("%1  %2%3. %4")
                      .arg(text(plan.word), -20)
                      .arg(text(plan.title), whose, text(plan.about)));
        }
    }
    if (options.build.json) {
        print_json({{"format", "rodway-plans"}, {"version", 1}, {"plans", rows}});
    }
    return ExitCode::done;
}

ExitCode export_plan(const PlanOptions& options) {
    const QString target = text(options.file);
    if (QFileInfo::exists(target) && !options.replace) {
        return refuse(Error{ErrorCode::cannot_write, options.file, "exists", {}, {}, {}});
    }
    auto shop = ShopFile::open_to_look(options.build.shop);
    if (!shop) {
        return refuse(shop.error(), text(options.build.shop));
    }
    ShopFile file = std::move(shop).value();
    const auto plan = plan_text(file, options.word);
    const auto written = plan ? write_output(target, *plan) : Result<Done>(plan.error());
    if (!written) {
        return refuse(written.error());
    }
    if (options.build.json) {
        print_json({{"format", "rodway-export-plan"}, {"version", 1}, {"file", target}});
    } else {
        print(PlanCommands::tr("Wrote %1.").arg(target));
    }
    return ExitCode::done;
}

ExitCode import_plan(const PlanOptions& options) {
    const auto bytes = read_file(text(options.file));
    if (!bytes) {
        return refuse(bytes.error());
    }
    auto shop = ShopFile::open(options.build.shop);
    if (!shop) {
        return refuse(shop.error(), text(options.build.shop));
    }
    ShopSession session(std::move(shop).value(), text(options.who));
    const auto word = keep_plan(session, *bytes);
    if (!word) {
        return refuse(word.error(), text(options.file));
    }
    if (options.build.json) {
        print_json({{"format", "rodway-import-plan"}, {"version", 1}, {"word", text(*word)}});
    } else {
        print(PlanCommands::tr("The plan %1 is now the shop's own. New builds begin with it; for a "
                               "build that runs, see: rodway plan-changes")
                  .arg(text(*word)));
    }
    return ExitCode::done;
}

ExitCode drop_plan(const PlanOptions& options) {
    auto shop = ShopFile::open(options.build.shop);
    if (!shop) {
        return refuse(shop.error(), text(options.build.shop));
    }
    ShopSession session(std::move(shop).value(), text(options.who));
    const auto gone = let_plan_go(session, options.word);
    if (!gone) {
        return refuse(gone.error());
    }
    if (options.build.json) {
        print_json({{"format", "rodway-drop-plan"}, {"version", 1}, {"word", text(options.word)}});
    } else {
        print(PlanCommands::tr("The shop's own plan %1 is gone. Builds that began with it keep "
                               "their steps.")
                  .arg(text(options.word)));
    }
    return ExitCode::done;
}

QJsonObject change_json(const PlanChange& change) {
    QJsonArray fields;
    for (const PlanFieldChange& field : change.fields) {
        fields.append(QJsonObject{{"field", text(field.field)},
                                  {"before", text_or_null(field.before)},
                                  {"now", text_or_null(field.now)}});
    }
    return {{"change", words::token(change.kind)},
            {"item", text(std::string(table_of(change.item).word))},
            {"id", text(change.id)},
            {"stage", text(change.stage)},
            {"title", text(change.title)},
            {"fields", fields}};
}

void print_change(const PlanChange& change) {
    print(QStringLiteral("%1  %2").arg(text(change.id), -24).arg(words::plan_change(change)));
    for (const QString& line : words::plan_field_changes(change)) {
        print("    " + line);
    }
}

/// What `--take` names: "all" stands for every change.
std::set<std::string> chosen(const PlanOptions& options, const std::vector<PlanChange>& changes) {
    std::set<std::string> ids(options.take.begin(), options.take.end());
    if (ids.erase(everything) > 0) {
        for (const PlanChange& change : changes) {
            ids.insert(change.id);
        }
    }
    return ids;
}

ExitCode show_changes(const PlanOptions& options) {
    auto opened = ShopFile::open(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopSession session(std::move(opened).value(), text(options.who));
    const auto build = find_build(session.shop(), text(options.build.build));
    if (!build) {
        return refuse(build.error());
    }
    const auto changes = changes_of_plan(session.shop(), *build);
    if (!changes) {
        return refuse(changes.error());
    }
    const std::set<std::string> ids = chosen(options, *changes);
    const auto kept = take_over(session, *build, ids);
    if (!kept) {
        return refuse(kept.error());
    }
    QJsonArray rows;
    QJsonArray stays;
    for (const PlanChange& change : *changes) {
        rows.append(change_json(change));
    }
    for (const std::string& id : *kept) {
        stays.append(text(id));
    }
    if (options.build.json) {
        print_json({{"format", "rodway-plan-changes"},
                    {"version", 1},
                    {"build", text(build->name)},
                    {"plan", text_or_null(build->plan)},
                    {"taken", !ids.empty()},
                    {"changes", rows},
                    {"stays", stays}});
        return ExitCode::done;
    }
    for (const PlanChange& change : *changes) {
        if (ids.empty() || ids.count(change.id) > 0) {
            print_change(change);
        }
    }
    if (changes->empty()) {
        print(PlanCommands::tr("%1 follows its plan as it is now.").arg(text(build->name)));
    } else if (ids.empty()) {
        print(PlanCommands::tr("Nothing was taken over: name what to take with --take, or all."));
    } else {
        print(PlanCommands::tr("Taken over."));
    }
    for (const std::string& id : *kept) {
        print(PlanCommands::tr("%1 stays: something in the build refers to it.").arg(text(id)));
    }
    return ExitCode::done;
}

std::string word(const QString& text) {
    return text.toStdString();
}

} // namespace

void add_plan_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<PlanOptions>();
    const auto add_shop = [=](CLI::App* command) {
        command->add_option("shop", options->build.shop, word(PlanCommands::tr("Shop file")))
            ->required();
        add_json_option(*command, options->build.json);
    };
    const auto add_word = [=](CLI::App* command) {
        command
            ->add_option("plan", options->word,
                         word(PlanCommands::tr("The plan's word, as plans lists it")))
            ->required();
    };
    const auto add_who = [=](CLI::App* command) {
        command->add_option("--who", options->who, word(PlanCommands::tr("Initials")));
    };

    auto* list = program.add_subcommand(
        "plans", word(PlanCommands::tr("List the stage plans that builds may begin with")));
    add_shop(list);
    list->callback([=, &outcome] { outcome.code = list_plans(*options); });

    auto* out = program.add_subcommand(
        "export-plan", word(PlanCommands::tr("Write a stage plan as a file, to be edited")));
    add_shop(out);
    add_word(out);
    out->add_option("file", options->file, word(PlanCommands::tr("File to write")))->required();
    out->add_flag("--replace", options->replace,
                  word(PlanCommands::tr("Write over a file that is there")));
    out->callback([=, &outcome] { outcome.code = export_plan(*options); });

    auto* in = program.add_subcommand(
        "import-plan", word(PlanCommands::tr("Keep a stage plan's file as the shop's own plan")));
    add_shop(in);
    in->add_option("file", options->file, word(PlanCommands::tr("Stage plan file")))->required();
    add_who(in);
    in->callback([=, &outcome] { outcome.code = import_plan(*options); });

    auto* drop = program.add_subcommand(
        "drop-plan", word(PlanCommands::tr("Let one of the shop's own plans go")));
    add_shop(drop);
    add_word(drop);
    add_who(drop);
    drop->callback([=, &outcome] { outcome.code = drop_plan(*options); });

    auto* changes = program.add_subcommand(
        "plan-changes", word(PlanCommands::tr("Show in what a build differs from its plan as it is "
                                              "now, and take changes over")));
    add_build_options(*changes, options->build);
    changes->add_option("--take", options->take,
                        word(PlanCommands::tr("Ids of changes to take over, or all")));
    add_who(changes);
    changes->callback([=, &outcome] { outcome.code = show_changes(*options); });
}

} // namespace rodway
