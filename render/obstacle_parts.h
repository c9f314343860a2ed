#pragma once

#include "core/castings/obstacle.h"
#include "render/mesh.h"

namespace rodway {

/// How far a plane is drawn: the part of it that is near the rods. Bank frame, mm.
struct NearRods {
    Vec3 low_K = Vec3::Zero();
    Vec3 high_K = Vec3::Zero();
};

/// An obstacle where it stands, bank frame. A plane is a thin slab of what it bounds, near the
/// rods; a bolt's end shows its thread. The solid itself may have moved with its casting.
[[nodiscard]] Mesh obstacle_mesh(ObstacleKind kind, const Solid& solid, const NearRods& near);

/// Half balls and a bar between them.
[[nodiscard]] Mesh capsule_mesh(const Capsule& capsule);

} // namespace rodway
