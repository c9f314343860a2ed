#pragma once

#include <array>
#include <optional>
#include <string_view>

namespace rodway {

/// Everything that a builder may change, or be wrong about, and that moves a rod or what is beside
/// it. Lengths count in mm, tilts in radians. 'Rearward' is along the crank to the rear, 'outboard'
/// away from the engine's plane of symmetry; for a lifter or a passage both are put square to its
/// axis.
enum class ParameterKind {
    lifter_height,        ///< of the rod's seat above the lifter's foot
    lifter_rearward,      ///< place of the lifter's bore
    lifter_outboard,      ///< the same
    lifter_lean_rearward, ///< rad; its upper end goes there, its foot stays
    lifter_lean_outboard, ///< rad
    base_circle,          ///< radius: lifts the foot along the lifter's axis
    lobe_lift,            ///< full lift, the whole curve growing in proportion
    rod_length,
    rod_diameter, ///< all along the rod
    // The next six leave the valve where it is: on the heel the rocker turns so that its tip keeps
    // its gap. The screw, if there is one, turns with it.
    pivot_height, ///< along the cylinders, away from the crank
    pivot_outboard,
    pivot_rearward,
    tip_arm_length,      ///< across the shaft
    shaft_tilt_up,       ///< rad; the rocker leans with its shaft, whose rear end goes up
    shaft_tilt_outboard, ///< rad; whose rear end goes outboard
    ball_arm_length,     ///< across the shaft
    lash,                ///< gap at the valve; not with a hydraulic lifter
    adjuster,            ///< turned in, the rod as it is: lash, or the plunger, gives way
    intake_gasket,       ///< thickness on one bank's flange
    head_gasket,         ///< thickness under one bank's head: rockers, valves, what is in the head
    passage_rearward,
    passage_outboard,
    passage_slide,         ///< along its axis, towards the rocker
    passage_lean_rearward, ///< rad; about its middle, its rocker end goes there
    passage_lean_outboard, ///< rad
    passage_bore,          ///< diameter
    obstacle_away,         ///< an obstacle moved away from the rod, along `direction_K`
};

/// Radians rather than millimetres.
[[nodiscard]] bool is_angle(ParameterKind kind);

/// All kinds, in the order above.
[[nodiscard]] const std::array<ParameterKind, 27>& parameter_kinds();

/// The kind's name in set-ups and answers, such as "lifter_height": it never changes.
[[nodiscard]] std::string_view parameter_name(ParameterKind kind);
[[nodiscard]] std::optional<ParameterKind> parameter_called(std::string_view name);

} // namespace rodway
