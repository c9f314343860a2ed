#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "core/clearance/gap_reading.h"
#include "core/clearance/interval_posterior.h"
#include "core/clearance/pose_search.h"

namespace rodway {

/// A place where a gauge could be tried next: at either mouth, at a whole hour, on the heel or at
/// full lift.
struct GaugePlace {
    TurnPlace place = TurnPlace::on_heel;
    BoreEnd end = BoreEnd::top;
    double clock_hours = 12.0;
};

/// The one more reading by which poses that fit as yet equally well are told apart best.
struct DecidingReading {
    GaugePlace at;
    std::vector<double> expected_mm; ///< gap there by each pose, in their order; touching is 0
    /// Least difference between two poses' gaps there, in standard deviations of that difference
    /// (both poses' doubt, the gauge, and half a step of the gauges at hand).
    double apart_u = 0.0;
    /// `apart_u` is at least 4: whatever is felt, only one pose is left, 19 times in 20.
    bool decides = false;
};

/// The one more reading that would take most from the doubt of a predicted minimum.
struct HelpfulReading {
    GaugePlace at;
    double expected_mm = 0.0;
    double doubt_after_mm = 0.0; ///< ± at about 95 % that would then be left
};

/// The gauges at hand.
struct Gauges {
    /// Standard deviation of one gap felt: the gauge's own thickness and what 'a light drag' means
    /// to the hand, together 0.0005 in (common practice, no source).
    double u_mm = 0.0127;
    double step_mm = 0.0254; ///< from one gauge of the set to the next: 0.001 in
};
/// Errors: not_a_number, out_of_range ("gauges/u" 0.0001 to 1 mm, "gauges/step" 0 to 5 mm).
Result<Done> check_gauges(const Gauges& gauges);

/// The rod as it would stand at one mouth at a place in the turn.
struct RodAtPlace {
    TurnPlace place = TurnPlace::on_heel;
    BoreEnd end = BoreEnd::top;
    RodPlace rod;
};

/// Poses in stated standard deviations, as `PoseSearch` has them. Nothing with fewer than two
/// poses, or if no place shows any difference.
[[nodiscard]] std::optional<DecidingReading> deciding_reading(const PoseSearch& search,
                                                              const std::vector<Spread>& poses,
                                                              const std::vector<RodAtPlace>& rods,
                                                              const Gauges& gauges);

/// ± of the predicted minimum with the pose's covariance (in stated standard deviations); empty
/// if it can't be worked out.
using DoubtByCovariance = std::function<std::optional<double>(const PoseMatrix& covariance)>;

/// Tries every place: what covariance would be left after a reading there, the gauges' step wide
/// and where the pose expects it, and how much doubt with that. Best first.
[[nodiscard]] std::vector<HelpfulReading> helpful_readings(const PoseSearch& search,
                                                           const Spread& pose,
                                                           const DoubtByCovariance& doubt_mm,
                                                           const std::vector<RodAtPlace>& rods,
                                                           const Gauges& gauges);

} // namespace rodway
