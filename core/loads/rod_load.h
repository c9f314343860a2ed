#pragma once

#include "core/cam/lobe.h"
#include "core/loads/valve_spring.h"
#include "core/valvetrain/linkage.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// What moves to and fro above the lifter, tonne. The lifter's own mass rides on the lobe and
/// doesn't load the rod.
struct MovingMasses {
    double valve_side_t = 0.0;      ///< valve, retainer, locks, a third of the spring
    double rocker_at_valve_t = 0.0; ///< moment of inertia / square of the tip arm
    double rod_t = 0.0;
};

/// A train in motion: its masses and how fast the camshaft turns.
struct RunningSpeed {
    MovingMasses masses;
    double cam_rad_per_s = 0.0; ///< above 0
};

/// Acceleration of the valve off its seat at a pose, mm/s², positive where it is being thrown open:
/// `velocity` of the lobe lift in mm/s, `acceleration` in mm/s².
[[nodiscard]] double valve_acceleration(const Linkage& linkage, const Pose& pose, double velocity,
                                        double acceleration);

/// Load along the rod, N, positive where it is pressed, while the valve is off its seat. Without
/// inertia: the spring's load at that valve lift, by the rocker there (`rocker_forces`).
[[nodiscard]] double spring_on_rod_N(const Train& train, const Linkage& linkage, const Pose& pose,
                                     const ValveSpring& spring);

/// The same in motion: the valve's side and the rocker's share of it are accelerated by the rod, as
/// is half of the rod itself, so that this is the load at its middle (d'Alembert). Below zero the
/// spring can't hold the train together. `lobe`: of the lift at the pose, by cam angle.
[[nodiscard]] double running_load_N(const Train& train, const Linkage& linkage, const Pose& pose,
                                    const ValveSpring& spring, const LobeMotion& lobe,
                                    const RunningSpeed& running);

} // namespace rodway
