#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/clearance/parameter_kind.h"
#include "core/engine/engine.h"

namespace rodway {

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
