#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// The float of a distributor's gear, by washer and feeler: a washer of known thickness laid under
/// the gear lifts it against its housing, and the housing off its seat; the feeler finds that gap,
/// which is less than the washer by the float. mm, 0 to 20.
struct GearFloatReadings {
    Interval washer_mm;
    Interval gap_mm;
};

/// Where a shim goes, and so which way it works.
enum class ShimPlace {
    under_housing, ///< it adds to the float
    on_shaft,      ///< between gear and housing: it takes from the float
};

struct GearFloat {
    Interval float_mm; ///< washer less gap; negative: the gear would bear, and run hard
    BandStanding standing = BandStanding::inside;
    Interval to_target_mm; ///< shim that brings it to the band's middle; negative: take out so much
    /// Shims with which it surely lies in the band, thinnest and thickest; empty if the readings'
    /// doubt is wider than the band. Negative as above.
    std::optional<Interval> may_add_mm;
};

/// `wanted` has both ends, low below high, within 10 mm. Errors: out_of_range, not_a_number,
/// order_wrong ("washer", "gap", "wanted/low", "wanted/high"), missing_field ("wanted/low",
/// "wanted/high").
Result<GearFloat> gear_float(const GearFloatReadings& readings, const FigureBand& wanted,
                             ShimPlace place = ShimPlace::under_housing);

/// .003 to .007 in, as builders pass it on for one make of engine (common practice, no source; the
/// maker goes before it).
[[nodiscard]] FigureBand usual_gear_float_mm();

} // namespace rodway
