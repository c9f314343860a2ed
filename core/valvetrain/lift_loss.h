#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// Valve lift as the card has it and as a dial showed it, and what is known of the way between.
/// What wasn't looked at stays empty, and is not taken to be nothing.
struct LiftLossReadings {
    Interval card_lift_mm;   ///< gross, of the valve: lobe lift by the card's ratio, 1 to 50
    double card_ratio = 0.0; ///< 0.5 to 4
    Interval seen_mm;        ///< on the dial at full lift, 0 to 50
    std::optional<Interval> lobe_lift_mm; ///< of this lobe, measured, 0.5 to 30
    std::optional<Interval> ratio;    ///< of this rocker up to full lift, lash included, 0.5 to 4
    std::optional<Interval> lash_mm;  ///< at the valve while it was measured, 0 to 5
    std::optional<Interval> spring_N; ///< of the spring fitted, at full lift, 0 to 20 000
    std::optional<Interval> stiffness_N_per_mm; ///< of the whole train, at the valve, 10 to 1e6
    std::optional<Interval> dial_on_heel_mm;    ///< what the dial showed, valve closed, within 5
};

enum class LiftLossCause { lobe, ratio, lash, deflection, dial_zero };

struct LiftLoss {
    LiftLossCause cause = LiftLossCause::lash;
    Interval lost_mm; ///< negative: gained
};

struct LiftAccount {
    Interval missing_mm;          ///< card less seen
    std::vector<LiftLoss> losses; ///< of what was looked at, each by itself
    std::vector<LiftLossCause> not_looked_at;
    /// What would have been seen from all that was looked at, less what was; above zero: more is
    /// missing than that explains.
    Interval unexplained_mm;
    bool accounted_for = false; ///< nothing need be left unexplained
};

/// Question 15. Seen = lobe·ratio - lash - spring/stiffness + dial on heel; the card's own figures
/// stand in for lobe and ratio not looked at. A lobe's loss counts by the card's ratio, a ratio's
/// by the lobe in hand, so that the losses add up. Errors: out_of_range, not_a_number, order_wrong
/// ("card_lift", "card_ratio", "seen", "lobe_lift", "ratio", "lash", "spring", "stiffness",
/// "dial_on_heel"); missing_field ("stiffness" with a spring, "spring" with a stiffness).
Result<LiftAccount> account_for_lift(const LiftLossReadings& readings);

} // namespace rodway
