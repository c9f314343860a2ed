#pragma once

#include <optional>

#include "core/engine/engine.h"
#include "core/units/angle.h"

namespace rodway {

enum class Wall { front, rear, inboard, outboard };

/// The clearance of one rod in its tube at one lobe lift. Millimetres, bank frame K.
/// `p_wall - p_rod = clearance · normal`; negative where rod and wall would share space.
struct RodClearance {
    double lobe_lift_mm = 0.0;
    double clearance_mm = 0.0;
    Vec3 p_rod_K;
    Vec3 p_wall_K;
    Vec3 normal_K; ///< unit, from the rod's axis to the wall
    BoreEnd end = BoreEnd::top;
    Wall wall = Wall::front;
    double clock_hours = 12.0; ///< (0, 12], 12 = front, seen from the rocker down
    double depth_mm = 0.0;     ///< of the wall point, from the tube's rocker end
};

/// One rod, its tube where it stands, and how much the lobe lifts: what a search needs.
struct RodInTube {
    Linkage linkage;
    Bore tube;
    double rod_radius_mm = 0.0;
    double full_lift_mm = 0.0;
    double outboard_y_sign = 1.0;
};

/// Direction of a wall point from the tube's axis. 12 o'clock is -x put square to that axis.
struct WallDirection {
    double clock_hours = 12.0;
    Wall wall = Wall::front;
};
[[nodiscard]] WallDirection wall_direction(const Bore& tube, const Vec3& p_wall_K,
                                           double outboard_y_sign);

/// Empty if the train doesn't close at this lift, or the rod's axis doesn't go through the tube.
[[nodiscard]] std::optional<RodClearance> rod_clearance_at(const RodInTube& rod,
                                                           double lobe_lift_mm);

} // namespace rodway
