#include "core/cam/lobe_extremes.h"

#include <cmath>

namespace rodway {

AtCamAngle least_over_lobe(const Lobe& lobe,
                           const std::function<double(const LobeMotion&)>& value) {
    constexpr double look_deg = 0.05;
    constexpr double golden = 0.6180339887498949;
    const auto of = [&](double deg) { return value(lobe.at(CamAngle::deg(deg))); };
    const double first = lobe.span().opening.in_deg();
    const double last = lobe.span().closing.in_deg();
    const int looks = static_cast<int>(std::ceil((last - first) / look_deg));
    const double step = (last - first) / looks;
    double best = first;
    double least = of(first);
    for (int look = 1; look <= looks; ++look) {
        const double x = first + look * step;
        if (const double here = of(x); here < least) {
            least = here;
            best = x;
        }
    }
    double low = best - step;
    double high = best + step;
    while (high - low > 1e-7) {
        const double a = high - golden * (high - low);
        const double b = low + golden * (high - low);
        if (of(a) < of(b)) {
            high = b;
        } else {
            low = a;
        }
    }
    const double middle = (low + high) / 2.0;
    if (const double refined = of(middle); refined < least) {
        return {refined, CamAngle::deg(middle)};
    }
    return {least, CamAngle::deg(best)};
}

} // namespace rodway
