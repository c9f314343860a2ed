#pragma once

#include <vector>

#include "core/cam/lobe.h"
#include "core/engine/engine_layout.h"
#include "core/valvetrain/linkage.h"
#include "render/mesh.h"

namespace rodway {

/// What an engine's description doesn't state, in usual proportions for pushrod engines, mm. The
/// radii are cut down where an engine's parts stand closer than usual.
struct UsualSizes {
    double lifter_radius = 10.7;
    double lifter_roller_radius = 9.2;
    double lobe_half_width = 8.0;
    double rocker_half_width = 11.0;
    double spring_radius = 16.0;
    double spring_wire_radius = 2.2;
    double spring_length = 46.0; ///< installed, valve closed
    double spring_turns = 6.0;
    double shaft_radius = 9.5;
    double roller_radius = 6.3;
    double stem_radius = 4.0;
    double valve_length = 122.0;
    double intake_head_per_bore = 0.25; ///< head's radius by bore
    double exhaust_head_per_bore = 0.20;
};

/// Whether a flat face square to its axis can follow the lobe: its profile has no cusp.
[[nodiscard]] bool works_flat(const Lobe& lobe, double base_circle_radius_mm);

/// A lobe about z with its nose on +x, drawn out to ± half its width, for a follower with a roller,
/// or, with radius 0, a flat face. `turns`: +1 if the cam turns from x to y.
[[nodiscard]] Mesh lobe_mesh(const Lobe& lobe, double base_circle_radius_mm, double half_width_mm,
                             double turns, double roller_radius_mm);

/// Foot at the origin, along z; open at the top where the rod's ball sits. With a roller (radius
/// above 0), the foot is the roller's lowest point and the roller turns about x; its mesh is
/// separate.
[[nodiscard]] Mesh lifter_mesh(double seat_height_mm, double radius_mm, double roller_radius_mm);
[[nodiscard]] Mesh lifter_roller_mesh(double radius_mm, double roller_radius_mm);

/// From the lower ball's centre at the origin to the upper one on +z.
[[nodiscard]] Mesh rod_mesh(double length_mm, double radius_mm);

/// Tip at the origin, stem down -z to the head.
[[nodiscard]] Mesh valve_mesh(double head_radius_mm, const UsualSizes& sizes);

/// Below the tip, about z, as `valve_mesh`.
[[nodiscard]] Mesh retainer_mesh(const UsualSizes& sizes);
constexpr double retainer_below_tip_mm = 4.0;

/// A rocker about its pivot, bank frame, on the heel with the adjuster set.
struct RockerShape {
    Vec3 axis_K = Vec3::UnitX();
    Vec3 ball_arm_K = Vec3::Zero(); ///< to the upper ball where the adjuster is set
    Vec3 tip_arm_K = Vec3::Zero();
    Vec3 adjuster_axis_K = -Vec3::UnitZ();
};
[[nodiscard]] Mesh rocker_mesh(const RockerShape& shape, double rod_radius_mm,
                               const UsualSizes& sizes);
[[nodiscard]] Mesh roller_mesh(const RockerShape& shape, const UsualSizes& sizes);
[[nodiscard]] Mesh adjuster_mesh(const RockerShape& shape, double rod_radius_mm);

/// Both edges of a bore whose middle is the origin, along z.
[[nodiscard]] Mesh rims_mesh(double bore_radius_mm, double length_mm);

/// Everything a rod takes up from the heel to full lift, bank frame; empty if the train stops
/// closing.
[[nodiscard]] Mesh rod_sweep_mesh(const Linkage& linkage, double full_lift_mm,
                                  double rod_radius_mm);

/// Crown at the origin, skirt down -z.
[[nodiscard]] Mesh piston_mesh(double bore_mm);

/// The matrix that puts a part's z along `z` and its origin at `origin`.
[[nodiscard]] Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z);
/// The same with its x as near to `x_hint` as that allows; the two must not be in line.
[[nodiscard]] Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z, const Vec3& x_hint);

} // namespace rodway
