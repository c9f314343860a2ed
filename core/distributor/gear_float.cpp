#include "core/distributor/gear_float.h"

#include "core/units/length.h"

namespace rodway {
namespace {

std::optional<Error> wrong_band(const FigureBand& wanted) {
    const char* missing = !wanted.low ? "wanted/low" : !wanted.high ? "wanted/high" : nullptr;
    if (missing != nullptr) {
        return Error{ErrorCode::missing_field, missing, {}, {}, {}, {}};
    }
    return first_outside(
        {{"wanted/low", Interval::exactly(*wanted.low), {-10.0, 10.0, "mm"}},
         {"wanted/high", Interval::exactly(*wanted.high), {*wanted.low, 10.0, "mm"}}});
}

} // namespace

Result<GearFloat> gear_float(const GearFloatReadings& readings, const FigureBand& wanted,
                             ShimPlace place) {
    const Limits sizes{0.0, 20.0, "mm"};
    if (const auto bad = first_outside(
            {{"washer", readings.washer_mm, sizes}, {"gap", readings.gap_mm, sizes}})) {
        return *bad;
    }
    if (const auto bad = wrong_band(wanted)) {
        return *bad;
    }
    GearFloat found;
    found.float_mm = readings.washer_mm - readings.gap_mm;
    found.standing = standing(found.float_mm, wanted);
    const double sign = place == ShimPlace::under_housing ? 1.0 : -1.0;
    const double target_mm = (*wanted.low + *wanted.high) / 2.0;
    found.to_target_mm = (Interval::exactly(target_mm) - found.float_mm) * sign;
    // The least float must still reach the band's low end, the most must not pass its high end.
    const double least_mm = *wanted.low - found.float_mm.low;
    const double most_mm = *wanted.high - found.float_mm.high;
    if (least_mm <= most_mm) {
        found.may_add_mm = Interval{least_mm, most_mm} * sign;
    }
    return found;
}

FigureBand usual_gear_float_mm() {
    return {Length::inches(0.003).in_mm(), Length::inches(0.007).in_mm(),
            FigureSource::common_practice};
}

} // namespace rodway
