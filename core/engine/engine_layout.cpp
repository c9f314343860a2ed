#include "core/engine/engine_layout.h"

namespace rodway {

const Cylinder& EngineLayout::cylinder(int number) const {
    RODWAY_ASSERT(number >= 1 && static_cast<std::size_t>(number) <= cylinders.size());
    return cylinders[static_cast<std::size_t>(number) - 1];
}

CrankAngle EngineLayout::firing_angle(int number) const {
    RODWAY_ASSERT(number >= 1 && static_cast<std::size_t>(number) <= firing_angles.size());
    return firing_angles[static_cast<std::size_t>(number) - 1];
}

} // namespace rodway
