#include "core/intake/end_gap.h"

#include "core/units/length.h"

namespace rodway {
namespace {

const Limits gaps_allowed{0.0, 25.0, "mm"};
const Limits shares{0.0, 0.9, {}};

} // namespace

Result<EndBeads> end_beads(const EndGaps& gaps, const Interval& crush_share) {
    if (const auto bad = first_outside({{"front", gaps.front_mm, gaps_allowed},
                                        {"rear", gaps.rear_mm, gaps_allowed},
                                        {"crush_share", crush_share, shares}})) {
        return *bad;
    }
    const Interval left = Interval::exactly(1.0) - crush_share;
    return EndBeads{*quotient(gaps.front_mm, left), *quotient(gaps.rear_mm, left),
                    gaps.front_mm - gaps.rear_mm};
}

Result<EndSealFit> end_seal_fit(const Interval& gap_mm, const EndSeal& seal) {
    if (const auto bad = first_outside(
            {{"gap", gap_mm, gaps_allowed},
             {"thickness", seal.thickness_mm, {0.5, 30.0, "mm"}},
             {"least_crush", Interval::exactly(seal.least_crush), shares},
             {"most_crush", Interval::exactly(seal.most_crush), {seal.least_crush, 0.9, {}}}})) {
        return *bad;
    }
    const Interval share = *quotient(gap_mm, seal.thickness_mm);
    switch (standing(share, {1.0 - seal.most_crush, 1.0 - seal.least_crush, FigureSource::shop})) {
        case BandStanding::inside:
            return EndSealFit::fits;
        case BandStanding::below:
            return EndSealFit::gap_too_small;
        case BandStanding::above:
            return EndSealFit::gap_too_wide;
        default:
            return EndSealFit::undecided;
    }
}

FigureBand usual_bead_gap_mm() {
    return {{}, Length::inches(0.125).in_mm(), FigureSource::common_practice};
}

} // namespace rodway
