#pragma once

#include <optional>
#include <random>

#include "core/clearance/rod_clearance.h"

namespace rodway::twins {

/// Independent of the closed form: finds the rocker's angle by bisection on the rod's length.
/// Millimetres, bank frame K, lobe lift `s`. Empty where no angle within ±90° of `near_rad` fits.
struct SlowPose {
    Vec3 lower_ball_K;
    Vec3 upper_ball_K;
    double turned_rad = 0.0; ///< the rocker, from where it stands on the heel
};
std::optional<SlowPose> slow_pose(const Train& train, double adjuster_in_mm, double s_mm);

/// A stud rocker's nut, by bisection inside a bisection: for each place of the nut the rocker's
/// angle at which the tip keeps its gap, then the place at which the rod fits. Walks from where the
/// nut was found; empty if nothing within 8 mm fits.
std::optional<double> slow_nut(const Train& train);

/// Gap at the valve after turning a solid train's adjuster in from where its lash is set: the
/// rocker laid onto the rod by bisection, the gap measured at the tip. Empty where that finds
/// nothing.
std::optional<double> slow_lash_after_turn(const Train& train, double in_mm);

/// Clearance by walking along the rod's axis: a fine walk over every point, refined by golden
/// section around each local minimum, each point measured to the slab of wall by itself.
double slow_clearance(const Bore& tube, const Vec3& lower_K, const Vec3& upper_K,
                      double rod_radius_mm);

/// One random, plausible train on a bank that leans 45°, its tube and full lift.
struct RandomTrain {
    Train train;
    double full_lift_mm;
};
RandomTrain random_train(std::mt19937_64& random);

/// The same with shaft, lifter and adjuster leaning far more than an engine's, and a rod that is
/// not quite what fits: the adjuster has something to do.
RandomTrain skew_train(std::mt19937_64& random);

} // namespace rodway::twins
