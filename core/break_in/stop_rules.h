#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// What stops a first start.
enum class StopRule {
    oil_pressure_in_time, ///< seconds from firing to oil pressure
    oil_pressure_held,    ///< least pressure while running, kPa
    coolant_temperature,  ///< hottest, °C
    oil_at_every_rocker,  ///< no later than the end of priming
    pushrods_turn,        ///< with flat tappets: one that stands still is eating its lobe
    no_knock,
    no_leak, ///< of oil, coolant or fuel
};

/// One rule and who says so. A band is in the rule's own unit; what is answered by yes or no has
/// none.
struct StopRuleLimit {
    StopRule rule = StopRule::oil_pressure_in_time;
    std::optional<FigureBand> band;
    FigureSource source = FigureSource::common_practice;
};

/// Oil pressure within 10 s; then at least 138 kPa (20 psi, from memory); coolant no hotter than
/// 104.4 °C (220 °F, from memory); oil at every rocker; rods turning; no knock; no leak. All common
/// practice, no source.
[[nodiscard]] std::vector<StopRuleLimit> usual_stop_rules();

/// The usual rules with the maker's in their place, rule by rule; what only the maker has comes
/// behind. Each of the maker's has the source makers_instructions afterwards, whatever it had.
[[nodiscard]] std::vector<StopRuleLimit> with_makers(const std::vector<StopRuleLimit>& usual,
                                                     const std::vector<StopRuleLimit>& makers);

/// What was seen; what nobody looked at stays empty, and is not good.
struct FirstStart {
    std::optional<Interval> oil_pressure_after_s;   ///< 0 to 3600
    std::optional<Interval> least_oil_pressure_kPa; ///< 0 to 2000
    std::optional<Interval> hottest_coolant_degC;   ///< -50 to 200
    std::optional<bool> oil_at_every_rocker;
    std::optional<bool> pushrods_turn;
    std::optional<bool> knock;
    std::optional<bool> leak;
};

enum class StopRuleState {
    kept,
    stop,      ///< broken
    undecided, ///< the reading's doubt reaches over the limit
    not_looked_at,
};

struct StopRuleStanding {
    StopRuleLimit limit;
    StopRuleState state = StopRuleState::not_looked_at;
    std::optional<Interval> seen; ///< in the rule's own unit
};

/// One standing for each rule, in the order given. Errors: out_of_range, not_a_number, order_wrong
/// ("oil_pressure_after", "least_oil_pressure", "hottest_coolant"); missing_field ("band", a rule
/// of numbers without one; `line` is its place); duplicate_field ("rule", twice).
Result<std::vector<StopRuleStanding>> stop_rules(const FirstStart& start,
                                                 const std::vector<StopRuleLimit>& rules);

} // namespace rodway
