#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <vector>

namespace rodway {

/// A corner of a triangle: millimetres, frame of the part it belongs to; `normal` is a unit vector.
struct MeshVertex {
    Eigen::Vector3f at;
    Eigen::Vector3f normal;
};

/// Triangles, counter-clockwise seen from outside. Grows only; moved as a whole by a matrix.
class Mesh {
  public:
    std::vector<MeshVertex> vertices;
    std::vector<std::uint32_t> triangles; ///< three indices each

    /// Adds another mesh, moved by an affine matrix without scaling.
    void add(const Mesh& other, const Eigen::Matrix4f& moved_by = Eigen::Matrix4f::Identity());
};

/// A point of an outline that is turned about z: distance from the axis and height along it, mm.
struct TurnedPoint {
    double radius_mm = 0.0;
    double z_mm = 0.0;
};

/// The outline turned about z. Edges sharper than 30° stay sharp; others are smoothed. Going up the
/// outline, its left side is towards the axis. `around` is the number of steps of a turn.
[[nodiscard]] Mesh turned(const std::vector<TurnedPoint>& outline, int around);

/// A ball of `radius_mm` about the origin.
[[nodiscard]] Mesh ball(double radius_mm, int around);

/// A rod along z from `from_mm` to `to_mm`, with flat ends.
[[nodiscard]] Mesh cylinder(double radius_mm, double from_mm, double to_mm, int around);

/// A cylinder's mantle without ends.
[[nodiscard]] Mesh pipe(double radius_mm, double from_mm, double to_mm, int around);

/// A ring of round section about z.
[[nodiscard]] Mesh ring(double radius_mm, double section_radius_mm, double z_mm, int around,
                        int section_steps = 6);

/// A coil about z that begins at 0 and ends at 1 in z, so that scaling z gives its length. The
/// wire's section is flattened accordingly for a coil drawn `length_mm` long.
[[nodiscard]] Mesh coil(double radius_mm, double wire_radius_mm, double length_mm, double turns,
                        int around);

/// A closed outline in the x-y plane (counter-clockwise, no crossings, seen whole from the origin),
/// drawn out along z. Sides are smoothed where they turn less than 30°.
[[nodiscard]] Mesh drawn_out(const std::vector<Eigen::Vector2d>& outline, double from_mm,
                             double to_mm);

/// A bar of round section between two points; it narrows from one radius to the other.
[[nodiscard]] Mesh bar(const Eigen::Vector3d& from, const Eigen::Vector3d& to,
                       double from_radius_mm, double to_radius_mm, int around);

} // namespace rodway
