#include "core/engine/dynamic_compression.h"

#include "core/engine/crank_slider.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double mm3_per_cc = 1000.0;
constexpr double bottom_deg = 180.0;

/// The slider at every corner of stroke and rod, or what is wrong with one.
std::optional<Error> wrong_slider(const Bounded& stroke_mm, const Bounded& rod_mm,
                                  double pin_offset_mm) {
    for (const double stroke : {stroke_mm.low, stroke_mm.high, stroke_mm.value}) {
        for (const double rod : {rod_mm.low, rod_mm.high, rod_mm.value}) {
            const auto slider = CrankSlider::make(stroke, rod, pin_offset_mm);
            if (!slider) {
                return slider.error();
            }
        }
    }
    return std::nullopt;
}

/// Of one crank and rod, over all closing angles.
Bounded left_mm(const CrankSlider& slider, const Bounded& closes_crank_deg) {
    const auto from_top = [&](double after_bottom_deg) {
        return slider.piston(CrankAngle::deg(bottom_deg + after_bottom_deg)).from_top_mm;
    };
    const double one_end = from_top(closes_crank_deg.low);
    const double other_end = from_top(closes_crank_deg.high);
    Bounded left{from_top(closes_crank_deg.value), std::min(one_end, other_end),
                 std::max(one_end, other_end)};
    const double lowest_deg = slider.bottom().in_deg() - bottom_deg;
    if (closes_crank_deg.low < lowest_deg && lowest_deg < closes_crank_deg.high) {
        left.high = slider.travel_mm();
    }
    return left;
}

/// The worst of what is left by the worst of stroke and rod.
Bounded stroke_left(const Bounded& stroke_mm, const Bounded& rod_mm,
                    const Bounded& closes_crank_deg, double pin_offset_mm) {
    const auto side = [&](double Bounded::*which) {
        return worst_case<2>({stroke_mm, rod_mm}, [&](const std::array<double, 2>& at) {
            return left_mm(*CrankSlider::make(at[0], at[1], pin_offset_mm), closes_crank_deg).*
                   which;
        });
    };
    return {side(&Bounded::value).value, side(&Bounded::low).low, side(&Bounded::high).high};
}

} // namespace

Result<DynamicCompression> dynamic_compression(const CylinderAtTop& cylinder,
                                               const Bounded& connecting_rod_mm,
                                               const Bounded& closes_crank_deg,
                                               double pin_offset_mm) {
    if (const auto bad = wrong_size(cylinder.size)) {
        return *bad;
    }
    if (const auto bad = outside("connecting_rod", connecting_rod_mm, {0.0, 3000.0, "mm"})) {
        return *bad;
    }
    if (const auto bad = outside("intake_closes", closes_crank_deg, {-60.0, 150.0, "crank_deg"})) {
        return *bad;
    }
    if (const auto bad = wrong_slider(cylinder.size.stroke_mm, connecting_rod_mm, pin_offset_mm)) {
        return *bad;
    }
    DynamicCompression found;
    found.stroke_left_mm =
        stroke_left(cylinder.size.stroke_mm, connecting_rod_mm, closes_crank_deg, pin_offset_mm);
    found.swept_left_cc = worst_case<2>(
        {cylinder.size.bore_mm, found.stroke_left_mm},
        [](const std::array<double, 2>& at) { return circle_mm2(at[0]) * at[1] / mm3_per_cc; });
    const auto ratio = ratio_from(cylinder, found.stroke_left_mm);
    if (!ratio) {
        return ratio.error();
    }
    found.ratio = *ratio;
    return found;
}

} // namespace rodway
