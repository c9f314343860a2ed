#include <QCoreApplication>
#include <QJsonArray>
#include <map>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/hold_words.h"
#include "app/work/shop_day.h"
#include "core/build/arrival.h"
#include "db/build_store.h"
#include "db/parts_to_come.h"
#include "db/record_tables.h"
#include "db/today.h"

namespace rodway {
namespace {

struct TodayCommands {
    Q_DECLARE_TR_FUNCTIONS(TodayCommands)
};

struct TodayOptions {
    WorkOptions work;
    int near_days = TodayRequest().near_days;
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

template <typename Record>
const Record* with_id(const std::vector<Record>& records, std::int64_t id) {
    for (const Record& record : records) {
        if (record.id == id) {
            return &record;
        }
    }
    return nullptr;
}

/// What the record of a line is called.
QString title_of(const Due& due, const TodayFacts& facts) {
    switch (due.record.kind) {
        case RecordKind::cure: {
            const Cure* cure = with_id(facts.cures, due.record.id);
            return text(cure->place);
        }
        case RecordKind::part: {
            const PartRecord* part =
                with_id(due.kind == DueKind::keep_ended ? facts.kept : facts.parts, due.record.id);
            return part->supplier ? TodayCommands::tr("%1 from %2")
                                        .arg(text(part->item), text(*part->supplier))
                                  : text(part->item);
        }
        case RecordKind::open_item:
            return text(with_id(facts.open_items, due.record.id)->title);
        case RecordKind::visit:
            return text(with_id(facts.visits, due.record.id)->reason);
        case RecordKind::hand_off:
            return text(with_id(facts.hand_offs, due.record.id)->service_dates.value_or(""));
        default:
            return {};
    }
}

QString when_of(const Due& due) {
    if (due.at.empty()) {
        return TodayCommands::tr("not known");
    }
    if (!due.days) {
        return words::time_of(due.at);
    }
    if (*due.days == 0) {
        return TodayCommands::tr("today");
    }
    return *due.days > 0 ? TodayCommands::tr("in %1 days").arg(*due.days)
                         : TodayCommands::tr("%1 days ago").arg(-*due.days);
}

using BuildNames = std::map<std::int64_t, QString>;

Result<BuildNames> names_of_builds(ShopFile& shop, const std::vector<Due>& list) {
    BuildNames names;
    for (const Due& due : list) {
        if (names.contains(due.build_id)) {
            continue;
        }
        const auto build = load_build(shop, due.build_id);
        if (!build) {
            return build.error();
        }
        names[due.build_id] = text(build->name);
    }
    return names;
}

QJsonObject due_json(const Due& due, const BuildNames& names, const TodayFacts& facts) {
    const std::string_view word = table_of(due.record.kind).word;
    return {{"kind", words::token(due.kind)},
            {"build", names.at(due.build_id)},
            {"build_id", static_cast<qint64>(due.build_id)},
            {"record", QJsonObject{{"kind", QString::fromUtf8(word.data(), int(word.size()))},
                                   {"id", static_cast<qint64>(due.record.id)}}},
            {"title", title_of(due, facts)},
            {"at", text_or_null(given(due.at))},
            {"days", number_or_null(due.days)}};
}

Shown list_today(ShopFile& shop, const TodayOptions& options) {
    const auto moment = moment_of(options.work.now);
    if (!moment) {
        return moment.error();
    }
    TodayRequest request;
    request.day = shop_day(moment->now_utc);
    request.now_utc = moment->now_utc;
    request.near_days = options.near_days;
    const auto facts = load_today_facts(shop, request);
    if (!facts) {
        return facts.error();
    }
    const std::vector<Due> list = due_today(*facts, request);
    const auto names = names_of_builds(shop, list);
    if (!names) {
        return names.error();
    }
    QJsonArray rows;
    for (const Due& due : list) {
        rows.append(due_json(due, *names, *facts));
        if (!options.work.build.json) {
            const QString title = title_of(due, *facts);
            print(TodayCommands::tr("%1  %2%3: %4")
                      .arg(names->at(due.build_id), words::due(due.kind),
                           title.isEmpty() ? QString() : QStringLiteral(", ") + title,
                           when_of(due)));
        }
    }
    if (options.work.build.json) {
        print_json({{"format", "rodway-today"},
                    {"version", 1},
                    {"day", text(request.day.day)},
                    {"due", rows}});
    } else if (list.empty()) {
        print(TodayCommands::tr("Nothing is due today."));
    }
    return ExitCode::done;
}

/// A part to come, and where it goes.
struct ToBuy {
    const BuildWaiting* build;
    const PartRecord* part;
};

/// "sets free: Rods in through the tubes".
QString set_free_by(const ToBuy& line, const Arrival& arrival) {
    const Step* step =
        arrival.step_id ? with_id(line.build->plan.steps, *arrival.step_id) : nullptr;
    const Gate* gate =
        arrival.gate_id ? with_id(line.build->plan.gates, *arrival.gate_id) : nullptr;
    const QString what = text(step != nullptr ? step->title : gate->title);
    return arrival.sets_free()
               ? TodayCommands::tr("sets free: %1").arg(what)
               : TodayCommands::tr("%1 still waits for %2 more").arg(what).arg(arrival.others);
}

QJsonObject part_json(const ToBuy& line, const std::string& today) {
    const PartRecord& part = *line.part;
    QJsonArray arrivals;
    for (const Arrival& arrival : what_arrives_for(line.build->plan, part, today)) {
        arrivals.append(QJsonObject{{"stage", static_cast<qint64>(arrival.stage_id)},
                                    {"step", number_or_null(arrival.step_id)},
                                    {"gate", number_or_null(arrival.gate_id)},
                                    {"sets_free", arrival.sets_free()},
                                    {"others", arrival.others}});
    }
    return {{"part", static_cast<qint64>(part.id)},
            {"item", text(part.item)},
            {"role", text_or_null(part.role)},
            {"size", text_or_null(part.size)},
            {"length", text_or_null(part.length)},
            {"thread", text_or_null(part.thread)},
            {"count", part.count ? QJsonValue(*part.count) : QJsonValue()},
            {"build", text(line.build->build.name)},
            {"build_id", static_cast<qint64>(line.build->build.id)},
            {"state", words::token(*part_wait(part, today))},
            {"needed", text_or_null(part.needed)},
            {"ordered", text_or_null(part.ordered)},
            {"promised", text_or_null(part.promised)},
            {"order_number", text_or_null(part.order_number)},
            {"unblocks", arrivals}};
}

void print_part(const ToBuy& line, const std::string& today) {
    const PartRecord& part = *line.part;
    QString what = text(part.item);
    for (const auto& size : {part.size, part.length, part.thread}) {
        what += size ? QStringLiteral(", ") + text(*size) : QString();
    }
    print(TodayCommands::tr("   %1  %2 for %3: %4")
              .arg(part.id)
              .arg(what, text(line.build->build.name),
                   words::part_wait(*part_wait(part, today), part.promised)));
    for (const Arrival& arrival : what_arrives_for(line.build->plan, part, today)) {
        print(QStringLiteral("      ") + set_free_by(line, arrival));
    }
}

Shown list_to_buy(ShopFile& shop, const WorkOptions& options) {
    const auto moment = moment_of(options.now);
    if (!moment) {
        return moment.error();
    }
    const auto builds = builds_waiting_for_parts(shop);
    if (!builds) {
        return builds.error();
    }
    std::map<std::string, std::vector<ToBuy>> by_supplier; // without one first
    for (const BuildWaiting& build : *builds) {
        for (const PartRecord& part : build.to_come) {
            by_supplier[part.supplier.value_or(std::string())].push_back({&build, &part});
        }
    }
    QJsonArray suppliers;
    for (const auto& [supplier, lines] : by_supplier) {
        QJsonArray parts;
        if (!options.build.json) {
            print(supplier.empty() ? TodayCommands::tr("No supplier named") : text(supplier));
        }
        for (const ToBuy& line : lines) {
            parts.append(part_json(line, moment->today));
            if (!options.build.json) {
                print_part(line, moment->today);
            }
        }
        suppliers.append(
            QJsonObject{{"supplier", text_or_null(given(supplier))}, {"parts", parts}});
    }
    if (options.build.json) {
        print_json({{"format", "rodway-buy-list"}, {"version", 1}, {"suppliers", suppliers}});
    } else if (by_supplier.empty()) {
        print(TodayCommands::tr("No build in hand waits for a part."));
    }
    return ExitCode::done;
}

template <typename Options, typename List>
ExitCode with_shop(const Options& options, const std::string& path, const List& list) {
    auto opened = ShopFile::open(path);
    if (!opened) {
        return refuse(opened.error(), text(path));
    }
    ShopFile shop = std::move(opened).value();
    const auto shown = list(shop, options);
    return shown ? *shown : refuse(shown.error());
}

} // namespace

void add_today_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<TodayOptions>();
    const auto add = [&](const char* name, const QString& about) {
        auto* command = program.add_subcommand(name, about.toStdString());
        command
            ->add_option("shop", options->work.build.shop,
                         TodayCommands::tr("Shop file").toStdString())
            ->required();
        add_json_option(*command, options->work.build.json);
        add_now_option(*command, options->work.now);
        return command;
    };
    auto* today = add("today", TodayCommands::tr("List what is due today across all builds: "
                                                 "cures, parts, promises, open items, services"));
    today
        ->add_option("--near", options->near_days,
                     TodayCommands::tr("Days ahead for which promises are shown").toStdString())
        ->check(CLI::NonNegativeNumber);
    today->callback([=, &outcome] {
        outcome.code = with_shop(*options, options->work.build.shop, list_today);
    });

    auto* buy = add("buy-list", TodayCommands::tr("List the parts that builds in hand wait for, by "
                                                  "supplier, and what each sets free"));
    buy->callback([=, &outcome] {
        outcome.code = with_shop(options->work, options->work.build.shop, list_to_buy);
    });
}

} // namespace rodway
