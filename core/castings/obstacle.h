#pragma once

#include <cstddef>
#include <string>

#include "core/castings/passage.h"
#include "core/geometry/solid.h"

namespace rodway {

enum class ObstacleKind { plane, cylinder, box, bolt_end, rocker_body };

/// Something beside the rods that they, or the lifters' bodies, must not touch. A rocker's body is
/// part of its train (`Rocker::body_K`) and moves with it; all others stand still in a casting.
struct Obstacle {
    std::string name;
    ObstacleKind kind = ObstacleKind::plane;
    Casting casting = Casting::head;
    std::size_t bank = 0; ///< whose frame it is given in
    Solid solid;          ///< where it was when it was located
};

} // namespace rodway
