#pragma once

#include <memory>
#include <optional>

#include "core/geometry/solid.h"
#include "tests/twins/triangle_mesh.h"

namespace rodway::witness {

/// Distances by FCL, the Flexible Collision Library (Debian: libfcl-dev). Millimetres. Nothing
/// where the two share space. Between meshes it is exact; where a round solid is measured to a
/// mesh it is found step by step, to about 1e-7.
[[nodiscard]] std::optional<double> fcl_distance(const Capsule& first, const Capsule& second);
[[nodiscard]] std::optional<double> fcl_distance(const RoundBar& first, const RoundBar& second);
[[nodiscard]] std::optional<double> fcl_ball_distance(const Vec3& middle, double radius_mm,
                                                      const RoundBar& bar);

[[nodiscard]] std::optional<double> fcl_distance(const Capsule& rod, const RoundBar& bar);
[[nodiscard]] std::optional<double> fcl_distance(const Capsule& rod, const Cuboid& box);

class FclMesh {
  public:
    explicit FclMesh(const twins::TriangleMesh& mesh);
    ~FclMesh();
    FclMesh(const FclMesh&) = delete;
    FclMesh& operator=(const FclMesh&) = delete;

    [[nodiscard]] std::optional<double> distance(const Capsule& rod) const;
    [[nodiscard]] std::optional<double> distance(const FclMesh& other) const;
    [[nodiscard]] bool touches(const Capsule& rod) const;

  private:
    struct Held;
    std::unique_ptr<Held> held_;
};

} // namespace rodway::witness
