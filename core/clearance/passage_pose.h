#pragma once

#include <Eigen/Core>
#include <array>

#include "core/base/result.h"
#include "core/geometry/bore.h"

namespace rodway {

/// How a passage stands, from where its set-up puts it: its middle sideways across its axis, and
/// how far its upper end leans about that middle. Seen from the rocker down: 12 o'clock is towards
/// the front of the engine, 3 o'clock the bank's +y. Along its axis and about it a bore moves
/// nothing that a gauge at its mouths could feel, or hardly.
struct PassagePose {
    double towards_12_mm = 0.0;
    double towards_3_mm = 0.0;
    double lean_12_rad = 0.0; ///< upper end towards 12 o'clock, lower end towards 6
    double lean_3_rad = 0.0;
};

/// The same four as one vector in that order, mm, mm, rad, rad; and squares of them.
using PoseVector = Eigen::Vector4d;
using PoseMatrix = Eigen::Matrix4d;
[[nodiscard]] PoseVector as_vector(const PassagePose& pose);
[[nodiscard]] PassagePose as_pose(const PoseVector& vector);

/// The bore moved to a pose.
[[nodiscard]] Bore at_pose(const Bore& bore, const PassagePose& pose);

/// How a bore changes for one unit of one unknown of its pose (mm or rad).
struct BoreRate {
    Vec3 centre_K = Vec3::Zero();
    Vec3 axis_K = Vec3::Zero();
    Vec3 long_way_K = Vec3::Zero();
};
/// The bore at a pose, and how it changes there with each unknown, in `as_vector`'s order.
struct PosedBore {
    Bore bore;
    std::array<BoreRate, 4> rates;
};
[[nodiscard]] PosedBore at_pose_with_rates(const Bore& bore, const PassagePose& pose);

/// How well the set-up's place of a passage is known, as standard deviations: half of a ± that
/// is meant to hold 19 times in 20; a ± that is a limit, by √3 (JCGM 100:2008, 4.3.7). Zero where
/// nothing is in doubt.
struct StatedPlace {
    double sideways_u_mm = 0.5; ///< each of the two sideways
    double lean_u_rad = 0.01;   ///< each of the two leans
};
[[nodiscard]] PoseVector as_vector(const StatedPlace& stated);

/// Errors: not_a_number, out_of_range ("stated/sideways" 0 to 25 mm, "stated/lean" 0 to 0.2 rad).
Result<Done> check_stated_place(const StatedPlace& stated);

} // namespace rodway
