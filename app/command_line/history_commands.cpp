#include <QCoreApplication>
#include <QJsonArray>
#include <limits>

#include "app/command_line/build_commands.h"
#include "app/command_line/commands.h"
#include "app/command_line/output.h"
#include "app/words/history_words.h"
#include "db/build_records.h"
#include "db/history.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

struct HistoryCommands {
    Q_DECLARE_TR_FUNCTIONS(HistoryCommands)
};

/// What the options of these commands are read into; it lives as long as the program's parser.
struct HistoryOptions {
    BuildOptions build;
    std::string as_of;
    std::string head;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}
QString word_of(RecordKind kind) {
    return text(std::string(table_of(kind).word));
}
QJsonValue or_null(const std::optional<std::string>& value) {
    return value ? QJsonValue(text(*value)) : QJsonValue();
}

ExitCode with_shop(const HistoryOptions& options,
                   const std::function<Shown(ShopFile&, const Build&)>& show) {
    auto opened = ShopFile::open_to_look(options.build.shop);
    if (!opened) return refuse(opened.error(), text(options.build.shop));
    ShopFile shop = std::move(opened).value();
    const auto build = find_build(shop, text(options.build.build));
    if (!build) return refuse(build.error(), text(options.build.shop));
    const auto shown = show(shop, *build);
    return shown ? *shown : refuse(shown.error(), text(options.build.shop));
}

QJsonObject act_json(const Act& act) {
    QJsonArray edits;
    for (const Edit& edit : act.edits) {
        edits.append(QJsonObject{{"kind", word_of(edit.record.kind)},
                                 {"id", static_cast<qint64>(edit.record.id)},
                                 {"field", text(edit.field)},
                                 {"before", or_null(edit.before)},
                                 {"after", or_null(edit.after)},
                                 {"erased", edit.erased}});
    }
    return {{"act", static_cast<qint64>(act.number)},
            {"who", text(act.who)},
            {"when_utc", text(act.when_utc)},
            {"undoes", act.undoes ? QJsonValue(static_cast<qint64>(*act.undoes)) : QJsonValue()},
            {"edits", edits}};
}

ExitCode print_history(const std::vector<Act>& acts, const RecordTexts& now,
                       const std::string& head) {
    for (const Act& act : acts) {
        for (const QString& line : words::act_lines(act, now)) print(line);
    }
    print(HistoryCommands::tr("Head of its chain of digests: %1").arg(text(head)));
    return ExitCode::done;
}

Shown show_history(ShopFile& shop, const Build& build, bool json) {
    const auto acts = history_of_build(shop, build.id);
    if (!acts) return acts.error();
    const auto head = history_head(shop, build.id);
    if (!head) return head.error();
    if (!json) {
        const auto now = records_of_build(shop, build.id);
        return now ? Shown(print_history(*acts, *now, *head)) : Shown(now.error());
    }
    QJsonArray rows;
    for (const Act& act : *acts) rows.append(act_json(act));
    print_json({{"format", "rodway-history"},
                {"version", 1},
                {"build", text(build.name)},
                {"head", text(*head)},
                {"acts", rows}});
    return ExitCode::done;
}

/// A date alone means its end.
Result<std::string> time_of(const std::string& typed) {
    const std::string time = typed.size() == 10 ? typed + "T23:59:59Z" : typed;
    if (is_utc_time(time)) return time;
    return Error{ErrorCode::wrong_type, "--as-of", typed, "YYYY-MM-DD", {}, {}};
}

Shown show_record(ShopFile& shop, const Build& build, const HistoryOptions& options) {
    std::int64_t act = std::numeric_limits<std::int64_t>::max();
    if (!options.as_of.empty()) {
        const auto time = time_of(options.as_of);
        if (!time) return time.error();
        const auto found = act_as_of(shop, build.id, *time);
        if (!found) return found.error();
        act = *found;
    }
    const auto records = options.as_of.empty() ? records_of_build(shop, build.id)
                                               : records_as_of_act(shop, build.id, act);
    if (!records) return records.error();
    QJsonArray rows;
    for (const auto& [record, fields] : *records) {
        QJsonObject values;
        for (const auto& [field, value] : fields) {
            if (field != "exists") values.insert(text(field), text(value));
        }
        rows.append(QJsonObject{{"kind", word_of(record.kind)},
                                {"id", static_cast<qint64>(record.id)},
                                {"fields", values}});
        if (options.build.json) continue;
        print(QStringLiteral("%1 %2").arg(word_of(record.kind).replace('_', ' '),
                                          QString::number(record.id)));
        for (auto value = values.begin(); value != values.end(); ++value) {
            print(QStringLiteral("   %1: %2")
                      .arg(QString(value.key()).replace('_', ' '), value.value().toString()));
        }
    }
    if (options.build.json) {
        print_json(
            {{"format", "rodway-build-record"},
             {"version", 1},
             {"build", text(build.name)},
             {"as_of", options.as_of.empty() ? QJsonValue() : QJsonValue(text(options.as_of))},
             {"records", rows}});
    } else if (rows.isEmpty()) {
        print(HistoryCommands::tr("There was nothing of this build yet."));
    }
    return ExitCode::done;
}

Shown check_head(ShopFile& shop, const Build& build, const HistoryOptions& options) {
    const auto act = act_of_head(shop, build.id, options.head);
    if (!act) return act.error();
    if (options.build.json) {
        print_json({{"format", "rodway-check-head"},
                    {"version", 1},
                    {"build", text(build.name)},
                    {"act", *act ? QJsonValue(static_cast<qint64>(**act)) : QJsonValue()}});
    } else if (*act) {
        print(HistoryCommands::tr("The history had this head after act %1, and goes on from there.")
                  .arg(**act));
    } else {
        print(
            HistoryCommands::tr("The history never had this head: it is of another build, or the "
                                "history was changed outside the program."));
    }
    return *act ? ExitCode::done : ExitCode::damaged_file;
}

} // namespace

void add_history_commands(CLI::App& program, CommandOutcome& outcome) {
    auto options = std::make_shared<HistoryOptions>();
    const auto word = [](const QString& of) { return of.toStdString(); };

    auto* acts = program.add_subcommand(
        "history",
        word(HistoryCommands::tr("What was done to a build's record, by whom and when")));
    add_build_options(*acts, options->build);
    acts->callback([=, &outcome] {
        outcome.code = with_shop(*options, [&](ShopFile& shop, const Build& build) {
            return show_history(shop, build, options->build.json);
        });
    });

    auto* record = program.add_subcommand(
        "build-record",
        word(HistoryCommands::tr("All that is recorded of a build, now or as it stood")));
    add_build_options(*record, options->build);
    record->add_option("--as-of", options->as_of,
                       word(HistoryCommands::tr("Date, 2026-03-01, or UTC time of the state")));
    record->callback([=, &outcome] {
        outcome.code = with_shop(*options, [&](ShopFile& shop, const Build& build) {
            return show_record(shop, build, *options);
        });
    });

    auto* head = program.add_subcommand(
        "check-head",
        word(HistoryCommands::tr("Whether a build's history is the one a book was made from")));
    add_build_options(*head, options->build);
    head->add_option("head", options->head, word(HistoryCommands::tr("Digest from the book")))
        ->required();
    head->callback([=, &outcome] {
        outcome.code = with_shop(*options, [&](ShopFile& shop, const Build& build) {
            return check_head(shop, build, *options);
        });
    });
}

} // namespace rodway
