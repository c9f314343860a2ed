#include <QCoreApplication>
#include <QJsonArray>

#include "app/command_line/commands.h"
#include "app/command_line/work_commands.h"
#include "app/words/hold_words.h"
#include "db/build_store.h"
#include "db/record_tables.h"

namespace rodway {
namespace {

struct HoldCommands {
    Q_DECLARE_TR_FUNCTIONS(HoldCommands)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString kind_word(const RecordRef& record) {
    const std::string_view word = table_of(record.kind).word;
    return QString::fromUtf8(word.data(), static_cast<int>(word.size()));
}

QJsonValue record_json(const std::optional<RecordRef>& record) {
    if (!record) {
        return {};
    }
    return QJsonObject{{"kind", kind_word(*record)}, {"id", static_cast<qint64>(record->id)}};
}

QJsonObject cause_json(const StaleCause& cause, const words::OwnTitles& own) {
    return {{"record", record_json(cause.record)},
            {"field", text(cause.field)},
            {"name", text(cause.name)},
            {"before", text_or_null(cause.before)},
            {"now", text_or_null(cause.now)},
            {"since", text(cause.since)},
            {"who", text(cause.who)},
            {"act", static_cast<qint64>(cause.act)},
            {"reason", words::token(cause.reason)},
            {"words", words::stale_cause(cause, own)}};
}

QJsonValue waived_json(const std::optional<HoldWaiver>& waiver) {
    if (!waiver) {
        return {};
    }
    return QJsonObject{{"waiver", static_cast<qint64>(waiver->waiver_id)},
                       {"by", text(waiver->by)},
                       {"at", text(waiver->at)},
                       {"reason", text(waiver->reason)},
                       {"until", text_or_null(waiver->until)}};
}

QJsonObject hold_json(const Hold& hold, const words::OwnTitles& own) {
    QJsonArray causes;
    for (const StaleCause& cause : hold.causes) {
        causes.append(cause_json(cause, own));
    }
    return {{"kind", words::token(hold.kind)},
            {"hold", text(hold.key)},
            {"record", record_json(hold.record)},
            {"stage", number_or_null(hold.stage_id)},
            {"gate", number_or_null(hold.gate_id)},
            {"step", number_or_null(hold.step_id)},
            {"positions", json_list(hold.positions)},
            {"subject", text(hold.subject)},
            {"quantity", text_or_null(given(hold.quantity))},
            {"value", text_or_null(given(hold.value))},
            {"limit", text_or_null(given(hold.limit))},
            {"part", hold.wait ? QJsonValue(words::token(*hold.wait)) : QJsonValue()},
            {"until", text_or_null(hold.until)},
            {"may_be_waived", hold.may_be_waived()},
            {"waived", waived_json(hold.waived)},
            {"causes", causes},
            {"words", words::hold(hold, own)}};
}

QJsonArray holds_json(const BuildState& state) {
    QJsonArray rows;
    for (const Hold& hold : state.holds.holds) {
        rows.append(hold_json(hold, state.own_titles));
    }
    return rows;
}

QJsonArray neglected_json(const BuildState& state) {
    QJsonArray rows;
    for (const NeglectedWaiver& waiver : state.holds.neglected) {
        rows.append(QJsonObject{{"waiver", static_cast<qint64>(waiver.waiver_id)},
                                {"why", words::token(waiver.why)}});
    }
    return rows;
}

void print_holds(const BuildState& state, const QString& before) {
    for (const Hold& hold : state.holds.holds) {
        print(before + words::hold(hold, state.own_titles));
        if (hold.waived) {
            print(before + QStringLiteral("   ") + words::waived(*hold.waived));
        } else if (hold.may_be_waived()) {
            print(before + HoldCommands::tr("   hold: %1").arg(text(hold.key)));
        }
    }
    for (const NeglectedWaiver& waiver : state.holds.neglected) {
        print(before + HoldCommands::tr("Waiver %1 does nothing: %2.")
                           .arg(waiver.waiver_id)
                           .arg(words::neglect(waiver.why)));
    }
}

QString next_words(const BuildState& state) {
    const NextThing& next = state.next;
    const Step* step = next.step_id ? state.step(*next.step_id) : nullptr;
    const Stage* stage = next.stage_id ? state.stage(*next.stage_id) : nullptr;
    switch (next.kind) {
        case NextKind::step:
            return HoldCommands::tr("%1 %2").arg(step_number(state, *step), text(step->title));
        case NextKind::wait:
            return HoldCommands::tr("wait: %1").arg(words::hold(*next.hold, state.own_titles));
        case NextKind::hold:
            return HoldCommands::tr("clear: %1").arg(words::hold(*next.hold, state.own_titles));
        case NextKind::sign_off:
            return HoldCommands::tr("sign off: %1").arg(text(stage->title));
        case NextKind::nothing:
            return HoldCommands::tr("nothing left to do");
    }
    return {};
}

QJsonObject next_json(const BuildState& state) {
    const NextThing& next = state.next;
    const Step* step = next.step_id ? state.step(*next.step_id) : nullptr;
    return {{"kind", words::token(next.kind)},
            {"stage", number_or_null(next.stage_id)},
            {"step", number_or_null(next.step_id)},
            {"number", step != nullptr ? QJsonValue(step_number(state, *step)) : QJsonValue()},
            {"hold", next.hold ? QJsonValue(text(next.hold->key)) : QJsonValue()},
            {"words", next_words(state)}};
}

QJsonObject step_json(const BuildState& state, const Step& step) {
    return {{"id", static_cast<qint64>(step.id)},
            {"number", step_number(state, step)},
            {"title", text(step.title)},
            {"ticked_by", text_or_null(step.ticked_by)},
            {"ticked_at", text_or_null(step.ticked_at)},
            {"not_needed", text_or_null(step.not_needed)}};
}

QJsonArray stages_json(const BuildState& state) {
    QJsonArray rows;
    for (const StageState& stage : state.stages) {
        QJsonArray steps;
        for (const Step& step : state.facts.records.steps) {
            if (step.stage_id == stage.stage_id) {
                steps.append(step_json(state, step));
            }
        }
        rows.append(QJsonObject{{"id", static_cast<qint64>(stage.stage_id)},
                                {"title", text(state.stage(stage.stage_id)->title)},
                                {"steps_done", stage.steps_done},
                                {"holds", stage.standing},
                                {"waived", stage.waived},
                                {"sign_off", number_or_null(stage.sign_off_id)},
                                {"overtaken", stage.overtaken},
                                {"passed", stage.passed},
                                {"steps", steps}});
    }
    return rows;
}

QJsonArray items_json(const BuildState& state) {
    QJsonArray rows;
    for (const OpenItem& item : state.facts.records.open_items) {
        if (!item.closed_at) {
            rows.append(QJsonObject{{"id", static_cast<qint64>(item.id)},
                                    {"title", text(item.title)},
                                    {"position", text_or_null(item.position)},
                                    {"due", text_or_null(item.due)},
                                    {"gate", number_or_null(item.gate_id)},
                                    {"opened_by", text(item.opened_by)},
                                    {"opened_at", text(item.opened_at)}});
        }
    }
    return rows;
}

QJsonArray cures_json(const BuildState& state) {
    QJsonArray rows;
    for (const Cure& cure : state.facts.records.cures) {
        const CureState now = cure_state(cure, state.facts.now_utc);
        if (now.is_running()) {
            rows.append(
                QJsonObject{{"id", static_cast<qint64>(cure.id)},
                            {"place", text(cure.place)},
                            {"state", words::token(now.stage)},
                            {"handling_at", text_or_null(now.handling_at)},
                            {"full_at", text_or_null(now.full_at)},
                            {"minutes_to_handling", number_or_null(now.minutes_to_handling)},
                            {"minutes_to_full", number_or_null(now.minutes_to_full)}});
        }
    }
    return rows;
}

QString stage_line(const BuildState& state, const StageState& stage, int number) {
    const QString line = HoldCommands::tr("%1  %2: %3 of %4 steps")
                             .arg(number)
                             .arg(text(state.stage(stage.stage_id)->title))
                             .arg(stage.steps_done)
                             .arg(stage.steps);
    if (stage.overtaken) {
        return HoldCommands::tr("%1, signed off, and open again").arg(line);
    }
    if (stage.sign_off_id) {
        return HoldCommands::tr("%1, signed off").arg(line);
    }
    return stage.standing == 0
               ? line
               : HoldCommands::tr("%1, held up by %2").arg(line).arg(stage.standing);
}

ExitCode print_state(const BuildAtWork& at_work) {
    const BuildState& state = at_work.state;
    print(text(at_work.build.name));
    print(HoldCommands::tr("Next: %1").arg(next_words(state)));
    int number = 0;
    for (const StageState& stage : state.stages) {
        print(stage_line(state, stage, ++number));
    }
    print(state.holds.holds.empty() ? HoldCommands::tr("Nothing holds it up.")
                                    : HoldCommands::tr("Held up by:"));
    print_holds(state, QStringLiteral("   "));
    for (const OpenItem& item : state.facts.records.open_items) {
        if (!item.closed_at) {
            print(HoldCommands::tr("Open item %1: %2").arg(item.id).arg(text(item.title)));
        }
    }
    for (const Cure& cure : state.facts.records.cures) {
        const CureState now = cure_state(cure, state.facts.now_utc);
        if (now.is_running()) {
            print(HoldCommands::tr("Cure %1, %2: %3")
                      .arg(cure.id)
                      .arg(text(cure.place), words::cure(now)));
        }
    }
    return ExitCode::done;
}

ExitCode show_state(const WorkOptions& options) {
    return with_build_at_work(options, [&](BuildAtWork& at_work) -> Shown {
        if (!options.build.json) {
            return print_state(at_work);
        }
        const BuildState& state = at_work.state;
        print_json({{"format", "rodway-state"},
                    {"version", 1},
                    {"build", text(at_work.build.name)},
                    {"now", text(state.facts.now_utc)},
                    {"next", next_json(state)},
                    {"stages", stages_json(state)},
                    {"holds", holds_json(state)},
                    {"waivers_without_effect", neglected_json(state)},
                    {"open_items", items_json(state)},
                    {"cures", cures_json(state)}});
        return ExitCode::done;
    });
}

/// Of one build, or of every one in hand.
Result<std::vector<Build>> builds_asked_for(ShopFile& shop, const std::string& named) {
    if (named.empty()) {
        return builds_in_hand(shop);
    }
    const auto build = find_build(shop, text(named));
    if (!build) {
        return build.error();
    }
    return std::vector<Build>{*build};
}

Shown list_holds(ShopFile& shop, const WorkOptions& options) {
    const auto moment = moment_of(options.now);
    const auto builds = moment ? builds_asked_for(shop, options.build.build)
                               : Result<std::vector<Build>>(moment.error());
    if (!builds) {
        return builds.error();
    }
    QJsonArray rows;
    for (const Build& build : *builds) {
        const auto state = load_build_state(shop, build.id, *moment);
        if (!state) {
            return state.error();
        }
        if (options.build.json) {
            rows.append(QJsonObject{{"build", text(build.name)},
                                    {"id", static_cast<qint64>(build.id)},
                                    {"promised", text_or_null(build.promised)},
                                    {"next", next_json(*state)},
                                    {"holds", holds_json(*state)},
                                    {"waivers_without_effect", neglected_json(*state)}});
            continue;
        }
        print(HoldCommands::tr("%1. Next: %2").arg(text(build.name), next_words(*state)));
        print_holds(*state, QStringLiteral("   "));
    }
    if (options.build.json) {
        print_json({{"format", "rodway-holds"}, {"version", 1}, {"builds", rows}});
    } else if (builds->empty()) {
        print(HoldCommands::tr("No builds in hand. Begin one with: rodway new-build"));
    }
    return ExitCode::done;
}

ExitCode show_holds(const WorkOptions& options) {
    auto opened = ShopFile::open(options.build.shop);
    if (!opened) {
        return refuse(opened.error(), text(options.build.shop));
    }
    ShopFile shop = std::move(opened).value();
    const auto shown = list_holds(shop, options);
    return shown ? *shown : refuse(shown.error());
}

} // namespace

void add_hold_commands(CLI::App& program, CommandOutcome& outcome) {
    const auto options = std::make_shared<WorkOptions>();
    auto* holds = program.add_subcommand(
        "holds", HoldCommands::tr("Say what holds each build in hand up, or one build, and what "
                                  "is to do next")
                     .toStdString());
    holds->add_option("shop", options->build.shop, HoldCommands::tr("Shop file").toStdString())
        ->required();
    holds->add_option(
        "build", options->build.build,
        HoldCommands::tr("Build's number or name; all in hand without it").toStdString());
    add_json_option(*holds, options->build.json);
    add_now_option(*holds, options->now);
    holds->callback([=, &outcome] { outcome.code = show_holds(*options); });

    auto* state = program.add_subcommand(
        "state", HoldCommands::tr("Show how one build stands: stages, what is to do next, what "
                                  "holds it up, open items, cures")
                     .toStdString());
    add_build_options(*state, options->build);
    add_now_option(*state, options->now);
    state->callback([=, &outcome] { outcome.code = show_state(*options); });
}

} // namespace rodway
