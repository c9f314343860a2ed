#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/cam/degreeing.h"
#include "core/sheets/taken_readings.h"

namespace rodway {

/// The wheel's zero as the positive stop shows it, with the doubt of its two readings.
struct WheelZero {
    TrueTopDeadCentre tdc;
    double doubt_crank_deg = 0.0; ///< either side

    /// True crank angle of a mark, its middle in (-180, 180].
    [[nodiscard]] Interval true_deg(const Interval& mark_deg) const;
};
/// From both readings at the stop; nothing if one is missing or they make no top dead centre.
[[nodiscard]] std::optional<WheelZero> wheel_zero(const TakenReadings& readings);

/// Two marks of one lobe at one lifter rise.
struct DegreedLobe {
    std::string lobe; ///< as kept ("3I")
    std::string rise; ///< as kept ("0.05in")
    double rise_mm = 0.0;
    std::optional<Interval> opening_mark_deg;
    std::optional<Interval> closing_mark_deg;
};
/// Lobes as read by their openings and closings, in the order written.
[[nodiscard]] std::vector<DegreedLobe> degreed_lobes(const TakenReadings& readings);

/// The same from a lobe's lift table, where it stands a lift above its first row's flank: between
/// two rows in a straight line, which with rows every five crank degrees is good to a few tenths of
/// one. Nothing unless both flanks pass that lift.
[[nodiscard]] std::optional<DegreedLobe> by_lift_table(const TakenReadings& readings,
                                                       const std::string& lobe,
                                                       CentrelineMethod method,
                                                       double checking_lift_mm);

/// A centreline with its doubt.
struct DoubtedCentreline {
    FoundCentreline found;
    double doubt_crank_deg = 0.0; ///< either side

    /// As sheets keep it: an exhaust's, before top dead centre, is minus.
    [[nodiscard]] Interval as_kept_deg() const;
};
[[nodiscard]] std::optional<DoubtedCentreline> centreline_of(const DegreedLobe& lobe,
                                                             CentrelineMethod method,
                                                             const WheelZero& zero);

} // namespace rodway
