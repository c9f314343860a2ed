#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/valve_position.h"
#include "core/units/interval.h"

namespace rodway {

/// Dry clearance: the gap at the valve with the hydraulic plunger at its bottom. Which rod brings
/// it within its maker's limits, and what is wrong where none does. Millimetres at the valve.

struct DryReading {
    ValvePosition valve;
    Interval dry_mm; ///< within 50; negative: the valve is held open
};

struct DryRequest {
    double low_mm = 0.0; ///< limits, within 50
    double high_mm = 0.0;
    /// Rods to be had, by how much longer than the one fitted (negative: shorter), within 50 mm.
    /// The one fitted is always among them.
    std::vector<double> rods_longer_mm;
    double rocker_ratio = 1.0; ///< 0.5 to 4
};

enum class DryFinding {
    good_as_is,
    good_with_rod,          ///< with the rod named
    too_tight_for_shortest, ///< no rod is short enough: the tip stands too high
    too_wide_for_longest,   ///< no rod is long enough: the tip stands too low
    between_rods,           ///< one rod is too short for it and the next too long
    too_close_to_call,      ///< a rod may do; the reading's doubt reaches over a limit
};

struct DryAnswer {
    ValvePosition valve;
    DryFinding finding = DryFinding::good_as_is;
    double rod_longer_mm = 0.0; ///< of the rod meant: that which does, else the nearest
    Interval dry_then_mm;       ///< with it
    /// What the valve's tip stands too high by, even for the shortest rod; too low for the longest.
    /// Only with those two findings.
    std::optional<Interval> tip_too_high_mm;
    std::optional<Interval> tip_too_low_mm;
};

/// Question 24. One rod longer by x takes x·ratio off (`dry_clearance_with_rod_mm`). The rod fitted
/// stays if it surely does; else, of those that surely do, the one that comes nearest to the middle
/// of the limits.
/// Errors: out_of_range, not_a_number, order_wrong ("dry", `line` the valve's place; "low"; "high",
/// not below "low"; "rods", `line` the rod's; "ratio"); too_few_rows ("dry").
Result<std::vector<DryAnswer>> choose_rods_for_dry_clearance(
    const std::vector<DryReading>& readings, const DryRequest& request);

/// What moves a valve's tip from where the maker's drawing has it, up (away from the seat) counting
/// positive at the tip. What wasn't looked at stays empty.
struct TipStack {
    std::optional<Interval> seat_cut_mm;     ///< seat and valve face cut: the valve stands higher
    std::optional<Interval> tip_ground_mm;   ///< off the tip: it stands lower
    std::optional<Interval> valve_longer_mm; ///< than the drawing's
    std::optional<Interval> pivot_raised_mm; ///< stand or pedestal: the tip is lower against it
};

struct TipAccount {
    Interval stands_higher_mm;  ///< by what was looked at
    Interval unexplained_mm;    ///< of what it is too high by
    bool accounted_for = false; ///< nothing need be left unexplained
};

/// Sets what a tip is too high by (negative: too low) beside what was found in the stack, each
/// within 50 mm. Errors: out_of_range, not_a_number, order_wrong ("too_high", "seat_cut",
/// "tip_ground", "valve_longer", "pivot_raised"); missing_field ("stack": nothing was looked at).
Result<TipAccount> account_for_tip(const Interval& too_high_mm, const TipStack& stack);

} // namespace rodway
