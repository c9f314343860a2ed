#pragma once

#include <optional>

#include "core/clearance/gap_at.h"

namespace rodway {

/// Four gaps taken with pins or feelers between a rod on the heel and its tube, mm: at 12
/// o'clock (front) and at 3 or 9 o'clock (outboard), at the tube's upper and lower mouth.
struct TubeGaps {
    double front_top = 0.0;
    double outboard_top = 0.0;
    double front_bottom = 0.0;
    double outboard_bottom = 0.0;
};

/// A tube by its sizes and by where it sits along the rod.
struct TubeOnRod {
    double length_mm = 0.0;
    double bore_mm = 0.0;
    /// From the rod's upper ball, down the rod, to the tube's upper mouth.
    double below_ball_mm = 0.0;
    double outboard_y_sign = 1.0;            ///< as `Engine::outboard_y_sign`
    std::optional<double> long_bore_mm = {}; ///< of an obround tube, not below `bore_mm`
    bool long_along_crank = true;            ///< its long way; else across the crank
};

/// Where the tube stands so that `gap_at` reads these gaps: its middle is placed along the rod by
/// `below_ball_mm`, its two ways across and its two tilts by the four gaps (Newton's method from
/// the tube that stands parallel round the rod). Empty if no tube does: gaps that
/// together are larger than the room there is, by more than 0.25 mm of slips.
[[nodiscard]] std::optional<Bore> tube_from_gaps(const RodPlace& rod, const TubeOnRod& tube,
                                                 const TubeGaps& gaps);

} // namespace rodway
