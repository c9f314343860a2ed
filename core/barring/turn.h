#pragma once

#include "core/engine/engine_layout.h"
#include "core/units/crank_arc.h"

namespace rodway {

/// How to bar the engine over from one crank angle to another: always the way it runs, so that
/// chain and gears keep their slack on the side on which they run, and hydraulic lifters and valves
/// are worked in their ordinary order.
struct BarringTurn {
    double degrees = 0.0; ///< of the crank, 0 to under 720
    Turning from_front = Turning::clockwise;
    Turning from_flywheel_end = Turning::counter_clockwise; ///< the other hand, the same turn
};

/// Crank angles count the way the engine turns, and a firing order is read in that direction: an
/// engine that turns the other way and fires in the same order comes to the same valves at the same
/// crank angles, only the hand is the other one. An engine whose firing order runs the other way
/// round (the second of a pair, gear-driven) has another firing order, and must be given it.
/// Error: not_an_angle ("from", "to").
Result<BarringTurn> turn_to(const EngineLayout& layout, CrankAngle from, CrankAngle to);

/// The same turn seen from the other end.
[[nodiscard]] constexpr Turning other_hand(Turning turning) {
    return turning == Turning::clockwise ? Turning::counter_clockwise : Turning::clockwise;
}

} // namespace rodway
