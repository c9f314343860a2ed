#include "core/tubes/tube_seal.h"

#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const TubeSealReadings& readings) {
    const Limits sizes{3.0, 100.0, "mm"};
    if (auto bad = first_outside({{"tube_outside", readings.tube_outside_mm, sizes},
                                  {"housing_bore", readings.housing_bore_mm, sizes},
                                  {"seal_inside", readings.seal_inside_mm, sizes},
                                  {"seal_outside", readings.seal_outside_mm, sizes}})) {
        return bad;
    }
    const auto not_larger = [](const char* field, const Interval& value) {
        return Error{ErrorCode::order_wrong, field, exact_text(value.middle()), {}, {}, {}};
    };
    if (!(readings.housing_bore_mm.low > readings.tube_outside_mm.high)) {
        return not_larger("housing_bore", readings.housing_bore_mm);
    }
    if (!(readings.seal_outside_mm.low > readings.seal_inside_mm.high)) {
        return not_larger("seal_outside", readings.seal_outside_mm);
    }
    return std::nullopt;
}

/// Squeeze over section is 1 less gland over section, where each reading stands once.
Interval squeeze_share(const TubeSealReadings& readings) {
    const Interval gland_mm = readings.housing_bore_mm - readings.tube_outside_mm;
    const Interval section_mm = readings.seal_outside_mm - readings.seal_inside_mm;
    return Interval::exactly(1.0) - *quotient(gland_mm, section_mm);
}

} // namespace

Result<TubeSeal> tube_seal(const TubeSealReadings& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    TubeSeal seal;
    seal.on_tube_mm = readings.tube_outside_mm - readings.seal_inside_mm;
    seal.in_housing_mm = readings.seal_outside_mm - readings.housing_bore_mm;
    seal.squeeze_mm = (seal.on_tube_mm + seal.in_housing_mm) / 2.0;
    seal.squeeze_share = squeeze_share(readings);
    if (seal.squeeze_mm.low > 0.0) {
        seal.fit = SealFit::tight;
    } else if (seal.squeeze_mm.high < 0.0) {
        seal.fit = SealFit::loose;
    }
    return seal;
}

} // namespace rodway
