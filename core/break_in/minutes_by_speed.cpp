#include "core/break_in/minutes_by_speed.h"

#include <algorithm>

namespace rodway {
namespace {

const Limits speeds{0.0, 20000.0, "rpm"};
const Limits durations{0.0, 1440.0, "min"};

std::optional<Error> wrong_plan(const BreakInPlan& plan) {
    return first_outside(
        {{"plan/low", Interval::exactly(plan.low_rpm), speeds},
         {"plan/high", Interval::exactly(plan.high_rpm), {plan.low_rpm, speeds.high, "rpm"}},
         {"plan/minutes", Interval::exactly(plan.minutes), durations},
         {"plan/idle_below", Interval::exactly(plan.idle_below_rpm), {0.0, plan.low_rpm, "rpm"}}});
}

std::optional<Error> wrong_log(const std::vector<SpeedStretch>& log) {
    if (log.empty()) {
        return Error{ErrorCode::too_few_rows, "log", "0", "1", {}, {}};
    }
    int line = 0;
    for (const SpeedStretch& stretch : log) {
        ++line;
        if (auto bad = first_outside({{"rpm", stretch.rpm, speeds, line},
                                      {"minutes", stretch.minutes, durations, line}})) {
            return bad;
        }
    }
    return std::nullopt;
}

/// The longest unbroken run of stretches that are idling in one sense, minutes in one sense.
template <typename Idling, typename Minutes>
double longest_run_min(const std::vector<SpeedStretch>& log, const Idling& idling,
                       const Minutes& minutes) {
    double longest = 0.0;
    double run = 0.0;
    for (const SpeedStretch& stretch : log) {
        run = idling(stretch) ? run + minutes(stretch) : 0.0;
        longest = std::max(longest, run);
    }
    return longest;
}

BreakInStanding standing_of(const Interval& in_band_min, const BreakInPlan& plan) {
    switch (standing(in_band_min, {plan.minutes, {}, plan.source})) {
        case BandStanding::inside:
            return BreakInStanding::done;
        case BandStanding::below:
            return BreakInStanding::not_done;
        default:
            return BreakInStanding::undecided;
    }
}

} // namespace

BreakInPlan usual_break_in_plan() {
    return {2000.0, 3000.0, 20.0, 1200.0, FigureSource::common_practice};
}

Result<MinutesBySpeed> minutes_by_speed(const std::vector<SpeedStretch>& log,
                                        const BreakInPlan& plan) {
    if (const auto bad = wrong_plan(plan)) {
        return *bad;
    }
    if (const auto bad = wrong_log(log)) {
        return *bad;
    }
    const Interval band{plan.low_rpm, plan.high_rpm};
    MinutesBySpeed found;
    for (const SpeedStretch& stretch : log) {
        found.total_min = found.total_min + stretch.minutes;
        const bool all_in_band = band.holds(stretch.rpm.low) && band.holds(stretch.rpm.high);
        if (all_in_band) {
            found.in_band_min.low += stretch.minutes.low;
            found.speeds_in_band_rpm = found.speeds_in_band_rpm
                                           ? hull(*found.speeds_in_band_rpm, stretch.rpm)
                                           : stretch.rpm;
        }
        if (band.meets(stretch.rpm)) {
            found.in_band_min.high += stretch.minutes.high;
        }
    }
    found.longest_idle_min = {
        longest_run_min(
            log, [&](const SpeedStretch& each) { return each.rpm.high < plan.idle_below_rpm; },
            [](const SpeedStretch& each) { return each.minutes.low; }),
        longest_run_min(
            log, [&](const SpeedStretch& each) { return each.rpm.low < plan.idle_below_rpm; },
            [](const SpeedStretch& each) { return each.minutes.high; })};
    found.missing_min = not_below_zero(Interval::exactly(plan.minutes) - found.in_band_min);
    found.standing = standing_of(found.in_band_min, plan);
    return found;
}

} // namespace rodway
