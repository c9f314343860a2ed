#pragma once

#include <optional>

#include "core/clearance/clearance_place.h"
#include "core/clearance/engine_parameter.h"

namespace rodway {

/// What a parameter moves, for one unit of it (mm, or rad): velocities of the parts of one train,
/// before it is set again, and of what its rod is near. Bank frame K.
struct ParameterRates {
    Vec3 foot_K = Vec3::Zero();
    Vec3 lifter_axis_K = Vec3::Zero();
    double seat_height = 0.0;
    double rod_length = 0.0;
    double rod_radius = 0.0;
    Vec3 pivot_K = Vec3::Zero();
    Vec3 rocker_lean_K = Vec3::Zero(); ///< turning of the shaft with its rocker about the pivot
    double ball_arm = 0.0;             ///< growth across the shaft
    double tip_arm = 0.0;
    Vec3 valve_K = Vec3::Zero();
    double lash = 0.0;
    double adjuster_in = 0.0;
    double full_lift = 0.0;
    Vec3 thing_K = Vec3::Zero();      ///< of the passage's middle, or of the obstacle
    Vec3 thing_lean_K = Vec3::Zero(); ///< turning of a passage about its middle
    double bore_radius = 0.0;
};

/// Empty if the train has no such parameter, or it can't touch what is near.
[[nodiscard]] std::optional<ParameterRates> parameter_rates(const Engine& engine,
                                                            const Train& train,
                                                            const ClearancePlace& place,
                                                            const EngineParameter& parameter);

/// What stays as it is, and what gives way, when a parameter changes.
enum class Held {
    adjuster_reset, ///< same rod; the lash, or preload, set again with the adjuster (or plunger)
    rod_rechosen,   ///< adjuster unmoved, lash set again by another length of rod
    nothing_reset,  ///< same rod, adjuster unmoved: the lash takes up what changes
};

/// d(clearance)/d(parameter) of one place, mm for one unit of the parameter: exact, not a
/// difference. At the place of a minimum the rod's station, the wall's point and the lobe lift are
/// stationary, so only what the parameter itself moves counts (the envelope theorem), the train
/// having been closed again; at full lift the lift's own growth is added.
/// Empty if it can't be held so: nothing can set the lash of a solid train without an adjuster; the
/// rod's length can't be changed and chosen; an adjuster square to the rod sets nothing.
[[nodiscard]] std::optional<double> clearance_rate(const Train& train, const Linkage& linkage,
                                                   const ClearancePlace& place,
                                                   const ParameterRates& rates, Held held);

/// On the heel of a solid train rod and rocker may lift until the lash is gone at the valve: change
/// of the clearance then, mm, the rod's lower end leaving its seat along the rod. Empty off the
/// heel, and where there is no lash.
[[nodiscard]] std::optional<double> lash_float_effect_mm(const Train& train, const Linkage& linkage,
                                                         const ClearancePlace& place);

} // namespace rodway
