#pragma once

#include <functional>
#include <memory>

#include "tests/twins/triangle_mesh.h"

namespace rodway::witness {

/// A mesh as CGAL sees it (Debian: libcgal-dev): every test of where things lie is exact, and
/// distances are worked out in doubles from the exact nearest triangle. Millimetres.
class CgalMesh {
  public:
    explicit CgalMesh(const twins::TriangleMesh& mesh);
    ~CgalMesh();
    CgalMesh(const CgalMesh&) = delete;
    CgalMesh& operator=(const CgalMesh&) = delete;

    [[nodiscard]] double distance(const Vec3& point) const;
    /// Least over every point of a segment: a walk, refined by golden section at every dip that
    /// could be the least (within 1e-9 of it; never below).
    [[nodiscard]] double distance(const Segment& segment) const;
    /// The same, less a radius that depends on the fraction along the segment, without steps, and
    /// changes no more than half as fast as the point moves.
    [[nodiscard]] double distance(const Segment& segment,
                                  const std::function<double(double)>& radius) const;
    /// How many triangles a segment meets.
    [[nodiscard]] std::size_t surfaces_met(const Segment& segment) const;

  private:
    struct Held;
    std::unique_ptr<Held> held_;
};

} // namespace rodway::witness
