#include "core/bottom_end/ring_gap.h"

#include <algorithm>
#include <numbers>

#include "core/bottom_end/size_band.h"
#include "core/units/within.h"

namespace rodway {

RingGapFigure common_ring_gap(PistonRing ring, RingUse use) {
    const bool road = use == RingUse::road;
    if (ring == PistonRing::top) {
        return road ? RingGapFigure{0.0040, 0.0045, FigureSource::common_practice}
                    : RingGapFigure{0.0050, 0.0060, FigureSource::common_practice};
    }
    return road ? RingGapFigure{0.0050, 0.0055, FigureSource::common_practice}
                : RingGapFigure{0.0055, 0.0065, FigureSource::common_practice};
}

Result<RingGap> ring_gap(double bore_mm, const Interval& gap_mm, const RingGapFigure& figure) {
    if (auto bad = outside("bore", bore_mm, {10.0, 1000.0, "mm"})) {
        return *bad;
    }
    if (auto bad = wrong_interval("gap", gap_mm, {-1.0, 50.0, "mm"})) {
        return *bad;
    }
    constexpr double most_share = 0.05;
    if (auto bad = outside("least_per_bore", figure.least_per_bore, {0.0005, most_share, {}})) {
        return *bad;
    }
    if (auto bad = outside("most_per_bore", figure.most_per_bore,
                           {figure.least_per_bore, most_share, {}})) {
        return *bad;
    }
    RingGap gap;
    gap.least_mm = figure.least_per_bore * bore_mm;
    gap.most_mm = figure.most_per_bore * bore_mm;
    gap.file_mm = std::max(0.0, gap.least_mm - gap_mm.low);
    switch (stand_in(gap_mm, {gap.least_mm, gap.most_mm, figure.source})) {
        case SizeStanding::within:
            gap.standing = RingGapStanding::within;
            gap.file_mm = 0.0;
            break;
        case SizeStanding::below:
            gap.standing = RingGapStanding::file;
            break;
        case SizeStanding::above:
            gap.standing = RingGapStanding::too_large;
            break;
        case SizeStanding::too_close_to_call:
            gap.standing = RingGapStanding::too_close_to_call;
            break;
    }
    return gap;
}

Interval gap_in_bore(const Interval& gap_mm, double read_in_bore_mm, double bore_mm) {
    return gap_mm + Interval::exactly(std::numbers::pi * (bore_mm - read_in_bore_mm));
}

} // namespace rodway
