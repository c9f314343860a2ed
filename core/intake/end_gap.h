#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// The gaps between intake and block at the front and rear rail, on final gaskets, mm, 0 to 25.
struct EndGaps {
    Interval front_mm;
    Interval rear_mm;
};

/// A bead of sealer laid so high that the gap presses it down by a share of itself.
struct EndBeads {
    Interval front_mm; ///< before it is pressed: gap / (1 - share)
    Interval rear_mm;
    Interval front_less_rear_mm; ///< of the gaps: above zero, the intake stands up at the front
};

/// `crush_share`: of the bead's height that is pressed away, 0 to 0.9, as its maker states it.
/// Errors: out_of_range, not_a_number, order_wrong ("front", "rear", "crush_share").
Result<EndBeads> end_beads(const EndGaps& gaps, const Interval& crush_share);

/// A moulded or cork end seal as it lies on the bench.
struct EndSeal {
    Interval thickness_mm; ///< 0.5 to 30
    double least_crush =
        0.0;                 ///< share of its thickness that must be pressed away to seal, 0 to 0.9
    double most_crush = 0.0; ///< and that may be
};

enum class EndSealFit {
    fits,
    gap_too_wide,  ///< pressed too little: a thicker one, or a bead
    gap_too_small, ///< pressed too much: it holds the intake off its gaskets, or is squeezed out
    undecided,
};

/// Question 30, one rail. Errors: as above ("gap", "thickness", "least_crush", "most_crush").
Result<EndSealFit> end_seal_fit(const Interval& gap_mm, const EndSeal& seal);

/// A gap that a bead fills: 1/8 in is typical; in large ones silicone fails (common practice, no
/// source).
[[nodiscard]] FigureBand usual_bead_gap_mm();

} // namespace rodway
