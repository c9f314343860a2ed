#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// One stretch of a first run, as logged. The speed went to and fro between the two.
struct SpeedStretch {
    Interval rpm;     ///< lowest and highest speed run, 0 to 20 000
    Interval minutes; ///< 0 to 1440
};

/// What a first run is to be.
struct BreakInPlan {
    double low_rpm = 0.0; ///< the band in which the speed is varied, 0 to 20 000
    double high_rpm = 0.0;
    double minutes = 0.0;        ///< in the band, 0 to 1440
    double idle_below_rpm = 0.0; ///< slower than this is idling, up to `low_rpm`
    FigureSource source = FigureSource::common_practice;
};

/// 2000 to 3000 rpm, varied, 20 minutes (20 to 30 being seen), for flat tappets; idling below 1200
/// rpm. Common practice, no source; the idling speed from memory. The maker's instructions for
/// camshaft and oil go before it.
[[nodiscard]] BreakInPlan usual_break_in_plan();

enum class BreakInStanding { done, not_done, undecided };

struct MinutesBySpeed {
    Interval total_min;
    /// Low: of stretches that were all in the band; high: of those that touched it, too.
    Interval in_band_min;
    /// Longest idling without a break. Low: of stretches surely at idle; high: of those that fell
    /// to it, too.
    Interval longest_idle_min;
    Interval missing_min; ///< of the plan's minutes in the band; not below 0
    BreakInStanding standing = BreakInStanding::undecided;
    /// Lowest and highest speed of the stretches that were all in the band: whether it was varied.
    /// Empty without one.
    std::optional<Interval> speeds_in_band_rpm;
};

/// `log` in the order in which it was run. Errors: too_few_rows ("log"); out_of_range,
/// not_a_number, order_wrong ("rpm", "minutes", `line` the stretch's place; "plan/low",
/// "plan/high", "plan/minutes", "plan/idle_below").
Result<MinutesBySpeed> minutes_by_speed(const std::vector<SpeedStretch>& log,
                                        const BreakInPlan& plan);

} // namespace rodway
