#pragma once

#include <vector>

#include "core/castings/passage.h"
#include "render/mesh.h"

namespace rodway {

/// A point of a passage's profile: how far outside its bore, and where along its axis from its
/// middle, mm.
struct ProfilePoint {
    double out_mm = 0.0;
    double z_mm = 0.0;
};

// A passage's own frame: origin in its middle, z along its axis, x its long way.

/// A profile carried round a bore, round or obround. Its left side, seen going along it with z up
/// and the bore to the left, is inside. Edges sharper than 30° stay sharp.
[[nodiscard]] Mesh round_bore_mesh(const Bore& bore, const std::vector<ProfilePoint>& profile,
                                   int around);

/// The bore's wall with its rounded edges, and, where there is material to show, the outside of the
/// tube or the boss it is drilled through. `wall_mm`: 0 where nothing is known of it.
[[nodiscard]] Mesh passage_mesh(const Bore& bore, double wall_mm);

/// Both mouths of a bore, as thin wires outside its wall.
[[nodiscard]] Mesh rims_mesh(const Bore& bore);

/// How much material is drawn round a passage: a tube's own wall where it is known, and a few
/// millimetres of casting round a hole or slot.
[[nodiscard]] double drawn_wall_mm(const Passage& passage);

/// The matrix that puts a passage's frame where the bore stands.
[[nodiscard]] Eigen::Matrix4d standing_as(const Bore& bore);

} // namespace rodway
