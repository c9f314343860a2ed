#include "core/units/figure_band.h"

#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

double rounding(double end) {
    return 1e-9 * std::max(1.0, std::abs(end));
}

} // namespace

BandStanding standing(const Interval& figure, const FigureBand& band) {
    const auto under = [&](double value) {
        return band.low && value < *band.low - rounding(*band.low);
    };
    const auto over = [&](double value) {
        return band.high && value > *band.high + rounding(*band.high);
    };
    if (under(figure.high)) {
        return BandStanding::below;
    }
    if (over(figure.low)) {
        return BandStanding::above;
    }
    if (under(figure.low) && over(figure.high)) {
        return BandStanding::may_be_either;
    }
    if (under(figure.low)) {
        return BandStanding::may_be_below;
    }
    return over(figure.high) ? BandStanding::may_be_above : BandStanding::inside;
}

} // namespace rodway
