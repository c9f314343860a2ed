#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// A lifter's oil band and the hole in its bore that feeds it, along the lifter's axis. Heights in
/// the bore count from where the lifter's foot stands on the heel, mm.
struct OilBandReadings {
    Interval lower_edge_mm;                 ///< from the foot to the band's lower edge, 0 to 200
    Interval upper_edge_mm;                 ///< to its upper edge
    Interval feed_height_mm;                ///< of the hole's middle, 0 to 200
    Interval feed_diameter_mm;              ///< where it enters the bore, 0.2 to 30
    Interval lobe_lift_mm;                  ///< full, 0 to 30
    std::optional<Interval> bore_bottom_mm; ///< lower end of the lifter's bore, -100 to 200
    std::optional<Interval> bore_top_mm;
};

enum class FeedStanding {
    all_on_band, ///< the whole hole opens into the band
    part_on_band,
    off_band,  ///< nothing of it does
    undecided, ///< the readings' doubt leaves it open
};

/// Band and feed at one lift.
struct OilBandAt {
    Interval on_band_mm; ///< how much of the hole's height opens into the band, not below 0
    FeedStanding feed = FeedStanding::undecided;
    /// How much of the band stands out of the bore above and below: there it leaks. Not below 0;
    /// empty where that end of the bore isn't known.
    std::optional<Interval> out_above_mm;
    std::optional<Interval> out_below_mm;
};

struct OilBand {
    OilBandAt on_heel;
    OilBandAt at_full_lift;
    /// Lobe lifts from which the hole opens into the band, and beyond which it no longer does;
    /// below 0 or above full lift if it is so all the way.
    Interval opens_at_lift_mm;
    Interval shuts_at_lift_mm;
};

/// Errors: out_of_range, not_a_number, order_wrong ("lower_edge", "upper_edge": surely above it,
/// "feed_height", "feed_diameter", "lobe_lift", "bore_bottom", "bore_top").
Result<OilBand> lifter_oil_band(const OilBandReadings& readings);

} // namespace rodway
