#pragma once

#include <cstddef>

namespace rodway {

/// What a part of the scene is made of, as far as its look goes.
enum class Material {
    cam,
    lifter,
    rod,
    rocker,
    roller,
    adjuster,
    shaft,
    valve,
    spring,
    retainer,
    piston,
    guide_line, ///< bank outlines and the crank's axis
    rim,        ///< the two edges of a tube
    glass,      ///< a tube's bore
    sweep,      ///< all places a rod takes through a turn
    rod_open,   ///< a rod whose train doesn't close
    casting,    ///< glass: castings round a hole or behind a face
    obstacle,   ///< what stands beside the rods: bolts' ends, bars, blocks
    mark,       ///< which end is the front, and which way the crank turns
};
constexpr std::size_t material_count = 19;

} // namespace rodway
