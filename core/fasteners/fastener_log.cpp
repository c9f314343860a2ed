#include "core/fasteners/fastener_log.h"

#include <algorithm>
#include <string>

#include "core/base/assert.h"
#include "core/units/within.h"

namespace rodway {
namespace {

using Log = std::vector<TighteningEntry>;

std::optional<Error> wrong_plan(const JointPlan& plan) {
    if (plan.order.empty()) {
        return Error{ErrorCode::too_few_rows, "order", "0", "1", {}, {}};
    }
    if (plan.steps.empty()) {
        return Error{ErrorCode::too_few_rows, "steps", "0", "1", {}, {}};
    }
    for (auto bolt = plan.order.begin(); bolt != plan.order.end(); ++bolt) {
        if (std::find(plan.order.begin(), bolt, *bolt) != bolt) {
            return Error{ErrorCode::duplicate_field, "order", std::to_string(*bolt), {}, {}, {}};
        }
    }
    const TighteningTolerance& may_differ = plan.tolerance;
    if (auto bad = outside("tolerance", may_differ.torque_share, {0.0, 0.3, {}})) {
        return bad;
    }
    if (auto bad = outside("tolerance", may_differ.angle_deg, {0.0, 90.0, "deg"})) {
        return bad;
    }
    if (auto bad = outside("tolerance", may_differ.stretch_mm, {0.0, 1.0, "mm"})) {
        return bad;
    }
    return plan.least_end_torque_Nm
               ? outside("least_end_torque", *plan.least_end_torque_Nm, {0.0, 2000.0, "Nm"})
               : std::nullopt;
}

std::optional<Error> wrong_log(const Log& log) {
    for (std::size_t at = 0; at < log.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        // Half a step below nothing is what a reading of 0 may be.
        if (log[at].reached) {
            if (auto bad = wrong_interval("reached", *log[at].reached, {-10.0, 5000.0, {}}, line)) {
                return bad;
            }
        }
        if (log[at].end_torque_Nm) {
            if (auto bad = wrong_interval("end_torque", *log[at].end_torque_Nm,
                                          {-10.0, 5000.0, "Nm"}, line)) {
                return bad;
            }
        }
    }
    return std::nullopt;
}

/// What a step allows, tolerance counted.
Interval allowed(const TighteningStep& step, const TighteningTolerance& tolerance) {
    constexpr double rounding = 1e-6; // numbers typed in other units don't come out even
    switch (step.kind) {
        case TighteningKind::torque:
            return {step.low * (1.0 - tolerance.torque_share) - rounding,
                    step.high * (1.0 + tolerance.torque_share) + rounding};
        case TighteningKind::angle:
            return {step.low - tolerance.angle_deg - rounding,
                    step.high + tolerance.angle_deg + rounding};
        case TighteningKind::stretch:
            return {step.low - tolerance.stretch_mm - rounding,
                    step.high + tolerance.stretch_mm + rounding};
        case TighteningKind::snug:
        case TighteningKind::loosen:
            break;
    }
    RODWAY_ASSERT(false);
    return {};
}

BoltPassState state_of(const TighteningEntry& entry, const JointPlan& plan) {
    const TighteningStep& step = plan.step_of(entry.pass);
    const bool number = step.has_number() && entry.reached;
    if (number) {
        const Interval band = allowed(step, plan.tolerance);
        if (entry.reached->low > band.high || entry.reached->high < band.low) {
            return BoltPassState::differs;
        }
    }
    if (step.kind == TighteningKind::angle && plan.least_end_torque_Nm && entry.end_torque_Nm &&
        entry.end_torque_Nm->high < *plan.least_end_torque_Nm) {
        return BoltPassState::easy;
    }
    return number || !step.has_number() ? BoltPassState::done : BoltPassState::ticked;
}

bool is_done(const BoltPass& pass) {
    return pass.state != BoltPassState::waiting && pass.state != BoltPassState::missed;
}

/// Goes through the log line by line and fills in the table of bolts and passes.
class Reviewer {
  public:
    Reviewer(const JointPlan& plan, const Log& log, const std::vector<BoltStanding>& bolts)
        : plan_(plan), log_(log), bolts_(bolts) {
        for (int pass = 1; pass <= static_cast<int>(plan.passes()); ++pass) {
            for (const int bolt : plan.order) {
                review_.passes.push_back({bolt, pass, BoltPassState::waiting, {}});
            }
        }
    }

    FastenerLogReview review() {
        for (std::size_t at = 0; at < log_.size(); ++at) {
            take(at);
        }
        mark_missed();
        for (const BoltPass& each : review_.passes) {
            if (each.state == BoltPassState::differs || each.state == BoltPassState::easy) {
                find(each.state == BoltPassState::easy ? LogFindingKind::turned_easily
                                                       : LogFindingKind::differs,
                     each.bolt, each.pass, each.entry);
            }
        }
        find_refused();
        say_what_is_next();
        return std::move(review_);
    }

  private:
    void find(LogFindingKind kind, int bolt, int pass, std::optional<std::size_t> entry) {
        review_.findings.push_back({kind, bolt, pass, entry});
    }
    [[nodiscard]] bool after_run(int pass) const {
        return pass > static_cast<int>(plan_.steps.size());
    }

    void take(std::size_t at) {
        const TighteningEntry& entry = log_[at];
        const auto place = std::find(plan_.order.begin(), plan_.order.end(), entry.bolt);
        if (place == plan_.order.end()) {
            find(LogFindingKind::no_such_bolt, entry.bolt, entry.pass, at);
            return;
        }
        if (entry.pass < 1 || entry.pass > static_cast<int>(plan_.passes())) {
            find(LogFindingKind::no_such_pass, entry.bolt, entry.pass, at);
            return;
        }
        if (after_run(entry.pass) && !plan_.has_run) {
            find(LogFindingKind::retorque_before_run, entry.bolt, entry.pass, at);
        }
        const std::size_t row = static_cast<std::size_t>(entry.pass - 1) * plan_.order.size();
        const std::size_t cell = row + static_cast<std::size_t>(place - plan_.order.begin());
        BoltPass& here = review_.passes[cell];
        if (here.entry) {
            find(LogFindingKind::doubled, entry.bolt, entry.pass, at);
        } else {
            look_at_order(cell, row, at);
        }
        here.entry = at;
        here.state = state_of(entry, plan_);
    }

    void look_at_order(std::size_t cell, std::size_t row, std::size_t at) {
        const auto begin = review_.passes.begin();
        const auto row_begin = begin + static_cast<std::ptrdiff_t>(row);
        const auto row_end = row_begin + static_cast<std::ptrdiff_t>(plan_.order.size());
        const auto here = begin + static_cast<std::ptrdiff_t>(cell);
        if (std::any_of(here + 1, row_end, is_done)) {
            find(LogFindingKind::out_of_order, here->bolt, here->pass, at);
        }
        const bool first_of_pass = std::none_of(row_begin, row_end, is_done);
        if (first_of_pass && !std::all_of(begin, row_begin, is_done)) {
            find(LogFindingKind::pass_begun_early, here->bolt, here->pass, at);
        }
    }

    /// What stands open before something done was left out.
    void mark_missed() {
        const auto last_done =
            std::find_if(review_.passes.rbegin(), review_.passes.rend(), is_done).base();
        for (auto each = review_.passes.begin(); each < last_done; ++each) {
            if (!is_done(*each)) {
                each->state = BoltPassState::missed;
                find(LogFindingKind::missed, each->bolt, each->pass, {});
            }
        }
    }

    void find_refused() {
        for (const BoltStanding& bolt : bolts_) {
            const auto used =
                std::find_if(log_.begin(), log_.end(),
                             [&](const TighteningEntry& entry) { return entry.bolt == bolt.bolt; });
            if (bolt.refused && used != log_.end()) {
                find(LogFindingKind::refused_bolt, bolt.bolt, 0,
                     static_cast<std::size_t>(used - log_.begin()));
            }
        }
    }

    void say_what_is_next() {
        bool all_as_meant = true;
        bool retorque_open = false;
        for (const BoltPass& each : review_.passes) {
            const bool open = !is_done(each);
            if (after_run(each.pass)) {
                retorque_open = retorque_open || open;
            } else {
                all_as_meant = all_as_meant && (each.state == BoltPassState::done ||
                                                each.state == BoltPassState::ticked);
            }
            const bool due = !after_run(each.pass) || plan_.has_run;
            if (open && due && !review_.next) {
                review_.next = NextBolt{each.bolt, each.pass};
            }
        }
        review_.complete = all_as_meant;
        if (plan_.after_run) {
            review_.retorque = !plan_.has_run  ? Retorque::after_the_run
                               : retorque_open ? Retorque::due
                                               : Retorque::done;
        }
    }

    const JointPlan& plan_;
    const Log& log_;
    const std::vector<BoltStanding>& bolts_;
    FastenerLogReview review_;
};

} // namespace

const TighteningStep& JointPlan::step_of(int pass) const {
    RODWAY_ASSERT(pass >= 1 && static_cast<std::size_t>(pass) <= passes());
    const auto index = static_cast<std::size_t>(pass - 1);
    return index < steps.size() ? steps[index] : *after_run;
}

Result<FastenerLogReview> review_log(const JointPlan& plan, const Log& log,
                                     const std::vector<BoltStanding>& bolts) {
    if (const auto bad = wrong_plan(plan)) {
        return *bad;
    }
    if (const auto bad = wrong_log(log)) {
        return *bad;
    }
    return Reviewer(plan, log, bolts).review();
}

BoltAnswer did_we_tighten(const FastenerLogReview& review, int bolt) {
    BoltAnswer answer;
    bool known = false;
    for (const BoltPass& each : review.passes) {
        if (each.bolt != bolt) {
            continue;
        }
        known = true;
        if (each.entry) {
            answer.entries.push_back(*each.entry);
        }
        const bool due =
            review.retorque != Retorque::after_the_run || each.pass != review.passes.back().pass;
        if (!is_done(each) && due) {
            answer.open_passes.push_back(each.pass);
        }
        if (each.state == BoltPassState::differs || each.state == BoltPassState::easy) {
            answer.differing_passes.push_back(each.pass);
        }
    }
    if (known) {
        answer.tightened = answer.entries.empty()             ? Tightened::no
                           : !answer.open_passes.empty()      ? Tightened::partly
                           : !answer.differing_passes.empty() ? Tightened::not_as_meant
                                                              : Tightened::yes;
    }
    return answer;
}

} // namespace rodway
