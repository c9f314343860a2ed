#include "core/heads/valve_gaps.h"

#include <cmath>

namespace rodway {
namespace {

const Limits lifts_allowed{0.0, 50.0, "mm"};

CheckedInterval lean_input(const char* field, double lean_rad) {
    return {field, Interval::exactly(lean_rad), {radians(-60.0), radians(60.0), "rad"}};
}

/// How much nearer a head has come, of its own.
Interval nearer_by(const Interval& lift_mm, const Interval& measured_at_mm, double lean_rad) {
    return (lift_mm - measured_at_mm) * std::sin(lean_rad);
}

} // namespace

Result<ValveToValve> valve_to_valve(const ValvePairGap& measured,
                                    const std::vector<ValveLifts>& overlap) {
    if (overlap.empty()) {
        return Error{ErrorCode::too_few_rows, "lifts", "0", "1", {}, {}};
    }
    if (const auto bad = first_outside({{"gap", measured.gap_mm, {-5.0, 50.0, "mm"}},
                                        {"intake_lift", measured.intake_lift_mm, lifts_allowed},
                                        {"exhaust_lift", measured.exhaust_lift_mm, lifts_allowed},
                                        lean_input("intake_lean", measured.intake_lean_rad),
                                        lean_input("exhaust_lean", measured.exhaust_lean_rad)})) {
        return *bad;
    }
    ValveToValve found;
    int line = 0;
    for (const ValveLifts& lifts : overlap) {
        ++line;
        if (const auto bad =
                first_outside({{"intake_lift", lifts.intake_mm, lifts_allowed, line},
                               {"exhaust_lift", lifts.exhaust_mm, lifts_allowed, line}})) {
            return *bad;
        }
        const Interval gap_mm =
            measured.gap_mm -
            nearer_by(lifts.intake_mm, measured.intake_lift_mm, measured.intake_lean_rad) -
            nearer_by(lifts.exhaust_mm, measured.exhaust_lift_mm, measured.exhaust_lean_rad);
        found.gaps.push_back({lifts.at, gap_mm});
        if (gap_mm.low < found.gaps[found.tightest].gap_mm.low) {
            found.tightest = found.gaps.size() - 1;
        }
    }
    return found;
}

Result<Interval> valve_to_wall(const ValveWallGap& measured, const Interval& lift_mm) {
    if (const auto bad = first_outside({{"gap", measured.gap_mm, {-5.0, 100.0, "mm"}},
                                        {"lift", measured.lift_mm, lifts_allowed},
                                        {"lift", lift_mm, lifts_allowed},
                                        lean_input("lean", measured.lean_rad)})) {
        return *bad;
    }
    return measured.gap_mm - nearer_by(lift_mm, measured.lift_mm, measured.lean_rad);
}

Result<Interval> valve_to_wall_by_sizes(const Interval& bore_mm, const Interval& off_axis_mm,
                                        const Interval& head_mm) {
    if (const auto bad = first_outside({{"bore", bore_mm, {20.0, 500.0, "mm"}},
                                        {"off_axis", off_axis_mm, {0.0, 250.0, "mm"}},
                                        {"head", head_mm, {5.0, 200.0, "mm"}}})) {
        return *bad;
    }
    return bore_mm / 2.0 - off_axis_mm - head_mm / 2.0;
}

} // namespace rodway
