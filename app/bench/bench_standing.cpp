#include "app/bench/bench_standing.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/words/hold_words.h"
#include "app/words/next_words.h"
#include "app/work/shop_day.h"
#include "core/build/cure_state.h"

namespace rodway {
namespace {

struct Standing {
    Q_DECLARE_TR_FUNCTIONS(Standing)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

/// Work that hasn't been done yet is no trouble of the stage.
bool is_work(HoldKind kind) {
    return kind == HoldKind::step_open || kind == HoldKind::sheet_missing ||
           kind == HoldKind::sheet_incomplete;
}

QString next_words(const BuildState& state) {
    const NextThing& next = state.next;
    const auto of_hold = [&] { return words::hold(*next.hold, state.own_titles); };
    switch (next.kind) {
        case NextKind::step:
            return text(state.step(*next.step_id)->title);
        case NextKind::wait:
        case NextKind::hold:
            return (words::only_time_helps(*next.hold) ? Standing::tr("Wait. %1")
                                                       : Standing::tr("Clear. %1"))
                .arg(of_hold());
        case NextKind::sign_off:
            return Standing::tr("Sign the stage off");
        case NextKind::nothing:
            return state.stages.empty() ? Standing::tr("It has no stages")
                                        : Standing::tr("Every stage is passed");
    }
    return {};
}

Rail rail_of(const BuildState& state) {
    Rail rail;
    for (const StageState& stage : state.stages) {
        const auto holds = [&](const Hold& hold) {
            return hold.stage_id == stage.stage_id && hold.stands() && !is_work(hold.kind);
        };
        RailStage mark;
        mark.title = text(state.stage(stage.stage_id)->title);
        mark.steps = stage.steps;
        mark.done = stage.steps_done;
        mark.passed = stage.passed;
        mark.open_again = stage.overtaken;
        mark.held = std::any_of(state.holds.holds.begin(), state.holds.holds.end(), holds);
        mark.in_hand = state.next.stage_id == stage.stage_id;
        rail << mark;
    }
    return rail;
}

} // namespace

std::string next_change(const std::vector<Cure>& cures, const std::string& now_utc) {
    // UTC texts stand in the order of time.
    std::string next = shop_day(now_utc).ends_utc;
    for (const Cure& cure : cures) {
        const CureState state = cure_state(cure, now_utc);
        if (state.stage == CureStage::ended) {
            continue;
        }
        for (const auto& at : {state.handling_at, state.full_at}) {
            if (at && *at > now_utc) {
                next = std::min(next, *at);
            }
        }
    }
    return next;
}

BenchStanding bench_standing(const BuildState& state) {
    BenchStanding standing;
    for (const Hold& hold : state.holds.holds) {
        if (!hold.stands()) {
            ++standing.waived;
        } else if (hold.kind != HoldKind::step_open) {
            standing.held_by.push_back(
                {hold.kind, words::hold(hold, state.own_titles), place_of(hold)});
        }
    }
    std::stable_sort(standing.held_by.begin(), standing.held_by.end(),
                     [](const HeldBy& a, const HeldBy& b) { return a.kind < b.kind; });
    standing.next = next_words(state);
    if (state.next.stage_id) {
        standing.next_stage = text(state.stage(*state.next.stage_id)->title);
    }
    standing.rail = rail_of(state);
    standing.until = next_change(state.facts.records.cures, state.facts.now_utc);
    return standing;
}

} // namespace rodway
