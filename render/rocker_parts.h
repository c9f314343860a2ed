#pragma once

#include <optional>

#include "core/valvetrain/linkage.h"
#include "render/train_parts.h"

namespace rodway {

/// A rocker about its pivot, bank frame, on the heel with the adjuster set, and how it is held.
struct RockerShape {
    RockerMount mount = RockerMount::shaft;
    AdjusterKind adjuster = AdjusterKind::screw;
    Vec3 axis_K = Vec3::UnitX();
    Vec3 ball_arm_K = Vec3::Zero(); ///< to the upper ball where the adjuster is set
    Vec3 tip_arm_K = Vec3::Zero();
    Vec3 adjuster_axis_K = -Vec3::UnitZ(); ///< of the screw, or of the stud; down
    double rod_radius_mm = 0.0;            ///< at its upper end
    double ball_radius_mm = 0.0;           ///< of the upper ball, whichever part it belongs to
    bool ball_on_adjuster = false;         ///< the rod's end is a cup
    std::optional<Capsule> body_K;         ///< from the pivot
};

/// What a closed train's rocker is drawn from; without a linkage, as it was found.
[[nodiscard]] RockerShape rocker_shape(const Train& train, const std::optional<Linkage>& linkage);

/// The arm alone, with the pins it turns on where it has such.
[[nodiscard]] Mesh rocker_mesh(const RockerShape& shape, const UsualSizes& sizes);
/// The roller at its tip.
[[nodiscard]] Mesh roller_mesh(const RockerShape& shape, const UsualSizes& sizes);
/// What joins it to the rod: screw, lock nut and cup or ball, or the cup pressed into the arm.
[[nodiscard]] Mesh adjuster_mesh(const RockerShape& shape);

/// The shaft inside one rocker, along z about the pivot.
[[nodiscard]] Mesh shaft_piece_mesh(const RockerShape& shape, const UsualSizes& sizes);
/// A stud with its nut and, on a ball pivot, the half ball; stands still. From the pivot.
[[nodiscard]] Mesh stud_mesh(const RockerShape& shape);

} // namespace rodway
