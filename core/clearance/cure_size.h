#pragma once

#include <optional>

#include "core/clearance/clearance_rate.h"
#include "core/clearance/engine_parameter.h"
#include "core/clearance/survey.h"

namespace rodway {

/// How much of one parameter alone brings a valve's least clearance to what is wanted.
struct CureSize {
    /// Above zero the parameter grows; mm, or rad of a tilt.
    double change = 0.0;
    double clearance_mm = 0.0; ///< least of the whole turn then, worked out anew, not by the rate
    bool reaches = false;      ///< if not, the most that it can do: then something else is nearest
};

/// As far as is looked: beyond, no part of an engine is changed by itself.
constexpr double most_change_mm = 12.7;    // 0.5 in
constexpr double most_change_rad = 0.0873; // 5 degrees

/// The smallest change, of either sign, with which the valve's least clearance is at least
/// `wanted_mm`, to 0.001 mm. The train is closed again for every change tried, and everything
/// beside its rod looked at. Nothing if the valve has no answer as it stands or has it already, or
/// if the parameter can't be held so. `held`: adjuster_reset, or rod_rechosen (the adjuster stays
/// where it stands).
[[nodiscard]] std::optional<CureSize> cure_size(const Engine& engine, const ValvePosition& valve,
                                                const EngineParameter& parameter, Held held,
                                                double wanted_mm);

} // namespace rodway
