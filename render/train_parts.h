#pragma once

#include <optional>
#include <vector>

#include "core/cam/lobe.h"
#include "core/clearance/rod_clearance.h"
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
/// separate. `length_mm`: from the foot to the upper rim, where that is stated.
[[nodiscard]] Mesh lifter_mesh(double seat_height_mm, double radius_mm, double roller_radius_mm,
                               std::optional<double> length_mm = {});
[[nodiscard]] Mesh lifter_roller_mesh(double radius_mm, double roller_radius_mm);

/// Stated, or a little above the rod's own thickness there.
[[nodiscard]] double upper_ball_radius_mm(const Pushrod& rod);
[[nodiscard]] double lower_ball_radius_mm(const Pushrod& rod);

/// From the lower ball's centre at the origin to the upper one on +z, as thick along it as it is
/// stated to be; with a cup at the top where the ball is the adjuster's.
[[nodiscard]] Mesh rod_mesh(const Pushrod& rod);

/// Tip at the origin, stem down -z to the head.
[[nodiscard]] Mesh valve_mesh(double head_radius_mm, const UsualSizes& sizes);

/// Below the tip, about z, as `valve_mesh`.
[[nodiscard]] Mesh retainer_mesh(const UsualSizes& sizes);
constexpr double retainer_below_tip_mm = 4.0;

/// Everything a rod takes up from the heel to full lift, bank frame; empty if the train stops
/// closing.
[[nodiscard]] Mesh rod_sweep_mesh(const Linkage& linkage, double full_lift_mm, const Pushrod& rod);

/// Crown at the origin, skirt down -z.
[[nodiscard]] Mesh piston_mesh(double bore_mm);

/// The toothed wheel that drives the camshaft, about z.
[[nodiscard]] Mesh cam_gear_mesh(double root_radius_mm, double half_width_mm);

/// Three quarters of a turn about z with a point at its end: from x towards y.
[[nodiscard]] Mesh turning_arrow_mesh(double radius_mm, double wire_mm);

/// The outline round two circles and their common tangents, the larger about the origin.
[[nodiscard]] std::vector<Eigen::Vector2d> limb_outline(double hub_radius,
                                                        const Eigen::Vector2d& end,
                                                        double end_radius);

/// Its columns are three axes and an origin.
[[nodiscard]] Eigen::Matrix4d frame_matrix(const Vec3& x, const Vec3& y, const Vec3& z,
                                           const Vec3& origin);

/// The matrix that puts a part's z along `z` and its origin at `origin`.
[[nodiscard]] Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z);
/// The same with its x as near to `x_hint` as that allows; the two must not be in line.
[[nodiscard]] Eigen::Matrix4d standing_at(const Vec3& origin, const Vec3& z, const Vec3& x_hint);

} // namespace rodway
