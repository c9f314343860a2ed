#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// Where a roller rocker's tip touched the valve's dyed tip, measured square to the valve, along
/// the rocker: from the middle of the tip, mm, above zero away from the pivot; within 30.
struct StripeReadings {
    Interval on_heel_mm;
    Interval half_lift_mm; ///< at half of net lift
    Interval full_lift_mm;
    Interval tip_diameter_mm; ///< of the valve's stem at its tip, 2 to 30
    Interval net_lift_mm;     ///< at full lift, 1 to 50
    /// Pivot to the middle of the roller, 10 to 150 mm. Without it the pivot's error is told as an
    /// angle alone.
    std::optional<Interval> tip_arm_mm;
    RockerMount mount = RockerMount::shaft;
    std::optional<double> rocker_ratio; ///< 0.5 to 4; for a rod's change on a stud
};

enum class StripeCause {
    stand_low, ///< shaft: the stand is too low for the valve's tip; a rod can't cure it
    stand_high,
    rod_short, ///< stud or ball pivot: the rod sets the pivot's height
    rod_long,
    valve_tip_high,   ///< the same stripe from the other side: seat sunk, or a longer valve
    valve_tip_low,    ///< tip ground, or a shorter valve
    pivot_near_valve, ///< stripe beyond the middle: shaft, stud or arm reaches too far
    pivot_far_from_valve,
};

enum class PivotStanding {
    right, ///< contact on the heel and at full lift differ by no more than the tolerance
    low,   ///< against the valve's tip
    high,
    undecided, ///< the readings' doubt leaves it open
};

enum class StripeReach {
    centred,
    towards_pivot,
    beyond_middle,
    undecided, ///< the readings' doubt leaves it open, or the pivot is off and the arm isn't known
};

struct SweepStripe {
    Interval width_mm;  ///< greatest less least of the three; in between it may go a little further
    Interval middle_mm; ///< of the stripe, from the middle of the valve's tip
    /// From the stripe to the nearest edge of the tip; negative: it runs off.
    Interval to_edge_mm;
    /// The tip arm's angle, halfway through the lift, to a square with the valve: 0 is right.
    /// Positive: the arm still points up, the pivot is low.
    Interval half_lift_arm_rad;
    std::optional<Interval> raise_pivot_mm; ///< against the valve's tip, for the arm to be square
    /// Stud and ball pivot: by how much a longer rod raises the pivot so (rule of thumb, see
    /// lash_setting.h); negative: shorter. Empty for a shaft, whatever was asked.
    std::optional<Interval> rod_longer_mm;
    /// The stripe's middle once the pivot is right: what is left is reach.
    std::optional<Interval> middle_once_square_mm;
    PivotStanding pivot = PivotStanding::right;
    StripeReach reach = StripeReach::centred;
    std::vector<StripeCause> likely; ///< those of the pivot first; empty: nothing is off, or open
};

/// The roller's middle runs on a circle about the pivot. With d the contact's gain from heel to
/// full lift and L the net lift, the chord c = √(d² + L²) leans by atan(d/L) to the valve, which is
/// half_lift_arm_rad whatever the arm's length q; and the pivot stands d·√(q²/c² - 1/4) too low,
/// and L·√(q²/c² - 1/4) inward of the chord's middle. Derived here. What hangs on several readings
/// is taken at the ends and middles of their doubts, all with all. For a pad that isn't a roller
/// the contact wanders on the pad, too: none of this holds.
/// `tolerance_mm`: 0 to 5, for d and for the middle. Errors: out_of_range, not_a_number,
/// order_wrong ("on_heel", "half_lift", "full_lift", "tip_diameter", "net_lift", "tip_arm",
/// "ratio", "tolerance").
Result<SweepStripe> sweep_stripe(const StripeReadings& readings, double tolerance_mm);

/// How far off a stripe may be: .020 in either way (common practice, from memory).
[[nodiscard]] FigureBand usual_stripe_offset_mm();

} // namespace rodway
