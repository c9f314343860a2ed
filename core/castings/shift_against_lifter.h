#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// How far something has moved since its place was taken, seen from the lifter, which stays with
/// the block. Millimetres.
struct ShiftAgainstLifter {
    Vec3 moved_K = Vec3::Zero();
    double along_lifter_mm = 0.0; ///< the way the lifter rises
    double rearward_mm = 0.0;     ///< square to the lifter's axis, towards the rear of the engine
    double outboard_mm = 0.0;     ///< square to both
    double along_rod_mm = 0.0;    ///< along the rod on the heel, adjuster as found, to the rocker
    double across_rod_mm = 0.0;   ///< square to the rod, never below 0

    [[nodiscard]] double across_lifter_mm() const;
};

struct PassageShift {
    std::string passage; ///< its name; the port tube comes first
    ShiftAgainstLifter shift;
};

struct ShiftsAgainstLifter {
    std::vector<PassageShift> passages;
    /// Where the rocker takes the rod: the upper ball's centre, adjuster as found.
    ShiftAgainstLifter ball_seat;
};
/// 'Head milled .030 and a thinner gasket: how far do hole and seat shift against the lifter?'
/// Error: banks_parallel.
[[nodiscard]] Result<ShiftsAgainstLifter> shifts_against_lifter(const Engine& engine,
                                                                const Train& train);

} // namespace rodway
