#include "core/engine/displacement.h"

#include <numbers>

#include "core/units/volume.h"
#include "core/units/within.h"

namespace rodway {
namespace {

const Limits diameter_limits{10.0, 1000.0, "mm"};
const Limits stroke_limits{10.0, 1000.0, "mm"};
constexpr double mm3_per_cc = 1000.0;

Bounded swept_of(const BoreAndStroke& cylinder) {
    return worst_case<2>({cylinder.bore_mm, cylinder.stroke_mm},
                         [](const std::array<double, 2>& bore_stroke) {
                             return circle_mm2(bore_stroke[0]) * bore_stroke[1] / mm3_per_cc;
                         });
}

} // namespace

double circle_mm2(double diameter_mm) {
    return std::numbers::pi / 4.0 * diameter_mm * diameter_mm;
}

std::optional<Error> wrong_size(const BoreAndStroke& cylinder, std::optional<int> line) {
    if (auto bad = outside("bore", cylinder.bore_mm, diameter_limits, line)) {
        return bad;
    }
    return outside("stroke", cylinder.stroke_mm, stroke_limits, line);
}

Result<Bounded> swept_cc(const BoreAndStroke& cylinder) {
    if (const auto bad = wrong_size(cylinder)) {
        return *bad;
    }
    return swept_of(cylinder);
}

Result<Bounded> displacement_cc(const BoreAndStroke& each, int cylinders) {
    if (const auto bad = outside("cylinders", cylinders, {1.0, 64.0, {}})) {
        return *bad;
    }
    const auto one = swept_cc(each);
    if (!one) {
        return one.error();
    }
    return Bounded{one->value * cylinders, one->low * cylinders, one->high * cylinders};
}

Result<Bounded> displacement_cc(const std::vector<BoreAndStroke>& cylinders) {
    if (cylinders.empty()) {
        return Error{ErrorCode::too_few_rows, "cylinders", "0", "1", {}, {}};
    }
    Bounded sum;
    for (std::size_t at = 0; at < cylinders.size(); ++at) {
        if (const auto bad = wrong_size(cylinders[at], static_cast<int>(at) + 1)) {
            return *bad;
        }
        const Bounded one = swept_of(cylinders[at]);
        sum = {sum.value + one.value, sum.low + one.low, sum.high + one.high};
    }
    return sum;
}

} // namespace rodway
