#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/units/angle.h"

namespace rodway {

/// Degrees from one crank angle on to another, the way the engine turns: 0 to under 720. Angles
/// apart by less than 1e-9° (rounding of sums of angles) count as the same.
[[nodiscard]] double degrees_ahead(CrankAngle from, CrankAngle to);

/// A piece of the cycle: from one crank angle on, the way the engine turns. Both ends belong to it.
struct CrankArc {
    CrankAngle from;       ///< in [0, 720)
    double span_deg = 0.0; ///< 0 to 720, which is the whole cycle

    [[nodiscard]] CrankAngle to() const { return (from + CrankAngle::deg(span_deg)).in_cycle(); }
    [[nodiscard]] CrankAngle middle() const {
        return (from + CrankAngle::deg(span_deg / 2.0)).in_cycle();
    }
    [[nodiscard]] bool holds(CrankAngle crank) const;
};

/// Refuses a crank angle that isn't a finite number. Error: not_an_angle.
Result<Done> check_crank_angle(CrankAngle crank, std::string_view field);

} // namespace rodway
