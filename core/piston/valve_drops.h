#pragma once

#include <optional>
#include <vector>

#include "core/units/angle.h"

namespace rodway {

/// How far one valve could be pushed off its seat, along its own axis, before it touched the
/// piston.
struct ValveDrop {
    CrankAngle after_overlap; ///< crank, from top dead centre of the valve overlap; before it: < 0
    double from_seat_mm = 0.0;
};

/// What a builder measured of one valve and its piston: drops at several angles, and the gap beside
/// the valve's head.
struct ValveDrops {
    std::vector<ValveDrop> drops; ///< two or more, angles rising
    std::optional<double> radial_gap_mm;
};

} // namespace rodway
