#include "core/valvetrain/lifter_oil_band.h"

#include "core/units/typed_text.h"

namespace rodway {
namespace {

/// Adding typed decimals rounds.
constexpr double rounding_mm = 1e-9;

std::optional<Error> wrong_readings(const OilBandReadings& readings) {
    const Limits heights{0.0, 200.0, "mm"};
    const Limits bore_ends{-100.0, 200.0, "mm"};
    const Interval none = Interval::exactly(0.0);
    if (auto bad =
            first_outside({{"lower_edge", readings.lower_edge_mm, heights},
                           {"upper_edge", readings.upper_edge_mm, heights},
                           {"feed_height", readings.feed_height_mm, heights},
                           {"feed_diameter", readings.feed_diameter_mm, {0.2, 30.0, "mm"}},
                           {"lobe_lift", readings.lobe_lift_mm, {0.0, 30.0, "mm"}},
                           {"bore_bottom", readings.bore_bottom_mm.value_or(none), bore_ends},
                           {"bore_top", readings.bore_top_mm.value_or(none), bore_ends}})) {
        return bad;
    }
    if (!(readings.upper_edge_mm.low > readings.lower_edge_mm.high)) {
        return Error{ErrorCode::order_wrong,
                     "upper_edge",
                     exact_text(readings.upper_edge_mm.middle()),
                     {},
                     {},
                     {}};
    }
    return std::nullopt;
}

/// How far the band reaches beyond the hole's lower and upper edge; negative: not so far.
struct BandBeyondFeed {
    Interval below_mm;
    Interval above_mm;
};

FeedStanding feed_standing(const Interval& on_band_mm, const BandBeyondFeed& beyond) {
    if (on_band_mm.high <= 0.0) {
        return FeedStanding::off_band;
    }
    if (beyond.below_mm.low >= -rounding_mm && beyond.above_mm.low >= -rounding_mm) {
        return FeedStanding::all_on_band;
    }
    const bool cut = beyond.below_mm.high < -rounding_mm || beyond.above_mm.high < -rounding_mm;
    return on_band_mm.low > 0.0 && cut ? FeedStanding::part_on_band : FeedStanding::undecided;
}

OilBandAt band_at(const OilBandReadings& readings, const Interval& lift_mm) {
    const Interval lower_mm = readings.lower_edge_mm + lift_mm;
    const Interval upper_mm = readings.upper_edge_mm + lift_mm;
    const Interval half_mm = readings.feed_diameter_mm / 2.0;
    // The lower of two tops less the higher of two bottoms, written out so that each reading stands
    // once in each difference.
    OilBandAt at;
    const Interval whole_band_mm = readings.upper_edge_mm - readings.lower_edge_mm;
    const Interval below_top_mm = upper_mm - (readings.feed_height_mm - half_mm);
    const Interval above_bottom_mm = readings.feed_height_mm + half_mm - lower_mm;
    at.on_band_mm = not_below_zero(
        least_of({whole_band_mm, readings.feed_diameter_mm, below_top_mm, above_bottom_mm}));
    at.feed = feed_standing(at.on_band_mm, {readings.feed_height_mm - half_mm - lower_mm,
                                            upper_mm - (readings.feed_height_mm + half_mm)});
    if (readings.bore_top_mm) {
        at.out_above_mm = not_below_zero(upper_mm - *readings.bore_top_mm);
    }
    if (readings.bore_bottom_mm) {
        at.out_below_mm = not_below_zero(*readings.bore_bottom_mm - lower_mm);
    }
    return at;
}

} // namespace

Result<OilBand> lifter_oil_band(const OilBandReadings& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    const Interval half_mm = readings.feed_diameter_mm / 2.0;
    OilBand band;
    band.on_heel = band_at(readings, Interval::exactly(0.0));
    band.at_full_lift = band_at(readings, readings.lobe_lift_mm);
    band.opens_at_lift_mm = readings.feed_height_mm - half_mm - readings.upper_edge_mm;
    band.shuts_at_lift_mm = readings.feed_height_mm + half_mm - readings.lower_edge_mm;
    return band;
}

} // namespace rodway
