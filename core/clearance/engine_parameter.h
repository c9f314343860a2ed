#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/engine/engine.h"

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

struct EngineParameter {
    ParameterKind kind = ParameterKind::lifter_height;
    std::optional<ValvePosition> valve = {}; ///< of which train; empty: of every one
    std::size_t bank = 0;                    ///< a gasket's
    std::string thing = {};                  ///< a passage's or an obstacle's name
    Vec3 direction_K = Vec3::Zero();         ///< of an obstacle's way, unit, in the obstacle's bank

    [[nodiscard]] bool operator==(const EngineParameter& other) const {
        return kind == other.kind && valve == other.valve && bank == other.bank &&
               thing == other.thing && direction_K == other.direction_K;
    }
};

/// The two ways across an axis. Unit vectors, bank frame K.
struct AcrossAxis {
    Vec3 rearward_K;
    Vec3 outboard_K;
};
[[nodiscard]] AcrossAxis across_axis(const Vec3& axis_K, double outboard_y_sign);

/// The part of a vector square to an axis, of unit length; zero if there is none.
[[nodiscard]] Vec3 unit_across(const Vec3& vector_K, const Vec3& axis_K);

/// About what a shaft turns when its rear end goes up or outboard; unit, or zero for a shaft that
/// points that way already.
[[nodiscard]] Vec3 shaft_lean_K(const Rocker& rocker, ParameterKind kind, double outboard_y_sign);

/// One train with a parameter of its own greater by `delta` (mm or rad); not yet set again. Empty
/// if the train has no such parameter, or its tip can't follow the valve (the tip arm then lies
/// within about a degree along the valve). Kinds that belong to castings: empty.
[[nodiscard]] std::optional<Train> with_change(const Train& train, ParameterKind kind, double delta,
                                               double outboard_y_sign);

/// The engine with one parameter greater by `delta`; limits of a set-up are not looked at. Empty if
/// it has no such parameter. Adjusters aren't set again here: `Linkage::close` does that.
[[nodiscard]] std::optional<Engine> with_change(const Engine& engine,
                                                const EngineParameter& parameter, double delta);

} // namespace rodway
