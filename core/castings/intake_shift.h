#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// How the intake's ports stand on one head's face against the head's own, mm, compared with when
/// the places were taken.
struct PortShift {
    /// Up along the face, square to the crank (on a level face: towards E's +y). Above zero the
    /// intake's port stands higher than the head's.
    double up_the_face_mm = 0.0;
    double rearward_mm = 0.0;     ///< along the face the other way, towards the rear
    double off_the_face_mm = 0.0; ///< farther apart: gasket and spacer gained less metal milled off
};
/// `normal_E`: of the head's face, unit, out of the head. The other two: what intake and head have
/// moved by. Block frame E, mm.
[[nodiscard]] PortShift port_shift(const Vec3& normal_E, const Vec3& intake_moved_E,
                                   const Vec3& head_moved_E);

/// What moving castings did to the intake, seen at one bank, mm. Block frame E.
struct IntakeShift {
    double height_mm = 0.0;   ///< up, in the engine's plane of symmetry
    double sideways_mm = 0.0; ///< towards E's +y
    PortShift ports;
};
/// Empty where the bank's head carries no intake. Error: banks_parallel.
[[nodiscard]] Result<std::optional<IntakeShift>> intake_shift(const Engine& engine,
                                                              std::size_t bank);

} // namespace rodway
