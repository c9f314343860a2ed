#pragma once

#include "render/check_state.h"

namespace rodway {

/// Lines round a rod, so that states are told apart without colour too.
struct Hatching {
    float lines_mm = 0.0f; ///< from one line to the next along the rod; 0: none
    float lead_mm = 0.0f;  ///< how far a line climbs in one turn round the rod; 0: rings
    float share = 0.0f;    ///< of the rod that is inked, 0 to 1
    bool crossed = false;  ///< the same lines once more, the other way round
};

/// Passed is plain: what has lines wants looking at, the more of them the more so. The lead is a
/// whole number of lines, or they would not meet behind the rod.
[[nodiscard]] Hatching hatching_of(CheckState state);

} // namespace rodway
