#include "core/bottom_end/size_band.h"

namespace rodway {

SizeStanding stand_in(const Interval& size_mm, const SizeBand& band) {
    constexpr double rounding_mm = 1e-6; // a limit met to this is met
    const bool low_enough = size_mm.high <= band.high_mm + rounding_mm;
    const bool high_enough = size_mm.low >= band.low_mm - rounding_mm;
    if (low_enough && high_enough) {
        return SizeStanding::within;
    }
    if (size_mm.high < band.low_mm - rounding_mm) {
        return SizeStanding::below;
    }
    return size_mm.low > band.high_mm + rounding_mm ? SizeStanding::above
                                                    : SizeStanding::too_close_to_call;
}

} // namespace rodway
