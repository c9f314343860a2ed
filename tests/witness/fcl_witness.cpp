#include "tests/witness/fcl_witness.h"

#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/geometry/shape/box.h>
#include <fcl/geometry/shape/capsule.h>
#include <fcl/geometry/shape/cylinder.h>
#include <fcl/geometry/shape/sphere.h>
#include <fcl/narrowphase/collision.h>
#include <fcl/narrowphase/distance.h>

namespace rodway::witness {
namespace {

using Placing = fcl::Transform3<double>;
using Tree = fcl::BVHModel<fcl::OBBRSS<double>>;

/// FCL's round solids stand on their middle, along z.
Placing along(const Vec3& from, const Vec3& to) {
    Placing placing = Placing::Identity();
    placing.linear() =
        Eigen::Quaterniond::FromTwoVectors(Vec3::UnitZ(), to - from).toRotationMatrix();
    placing.translation() = (from + to) / 2.0;
    return placing;
}

std::optional<double> measured(const fcl::CollisionGeometry<double>& first, const Placing& at_first,
                               const fcl::CollisionGeometry<double>& second,
                               const Placing& at_second) {
    const fcl::DistanceRequest<double> request(true, false, 0.0, 0.0, 1e-10);
    fcl::DistanceResult<double> result;
    const double distance = fcl::distance(&first, at_first, &second, at_second, request, result);
    return distance > 0.0 ? std::optional(distance) : std::nullopt;
}

fcl::Capsule<double> shape(const Capsule& capsule) {
    return {capsule.radius_mm, (capsule.to_K - capsule.from_K).norm()};
}
fcl::Cylinder<double> shape(const RoundBar& bar) {
    return {bar.radius_mm, (bar.to_K - bar.from_K).norm()};
}

} // namespace

std::optional<double> fcl_distance(const Capsule& first, const Capsule& second) {
    return measured(shape(first), along(first.from_K, first.to_K), shape(second),
                    along(second.from_K, second.to_K));
}

std::optional<double> fcl_distance(const RoundBar& first, const RoundBar& second) {
    return measured(shape(first), along(first.from_K, first.to_K), shape(second),
                    along(second.from_K, second.to_K));
}

std::optional<double> fcl_ball_distance(const Vec3& middle, double radius_mm, const RoundBar& bar) {
    Placing at_middle = Placing::Identity();
    at_middle.translation() = middle;
    return measured(fcl::Sphere<double>(radius_mm), at_middle, shape(bar),
                    along(bar.from_K, bar.to_K));
}

std::optional<double> fcl_distance(const Capsule& rod, const RoundBar& bar) {
    return measured(shape(rod), along(rod.from_K, rod.to_K), shape(bar),
                    along(bar.from_K, bar.to_K));
}

std::optional<double> fcl_distance(const Capsule& rod, const Cuboid& box) {
    Placing at_box = Placing::Identity();
    at_box.linear() << box.axes_K[0], box.axes_K[1], box.axes_K[2];
    at_box.translation() = box.centre_K;
    const Vec3 sizes = 2.0 * box.half_sizes_mm;
    return measured(shape(rod), along(rod.from_K, rod.to_K), fcl::Box<double>(sizes), at_box);
}

struct FclMesh::Held {
    Tree tree;
};

FclMesh::FclMesh(const twins::TriangleMesh& mesh) : held_(std::make_unique<Held>()) {
    std::vector<fcl::Triangle> triangles;
    for (const auto& [a, b, c] : mesh.triangles) {
        triangles.emplace_back(a, b, c);
    }
    held_->tree.beginModel();
    held_->tree.addSubModel(mesh.points, triangles);
    held_->tree.endModel();
}
FclMesh::~FclMesh() = default;

std::optional<double> FclMesh::distance(const Capsule& rod) const {
    return measured(held_->tree, Placing::Identity(), shape(rod), along(rod.from_K, rod.to_K));
}

std::optional<double> FclMesh::distance(const FclMesh& other) const {
    return measured(held_->tree, Placing::Identity(), other.held_->tree, Placing::Identity());
}

bool FclMesh::touches(const Capsule& rod) const {
    const fcl::CollisionRequest<double> request;
    fcl::CollisionResult<double> result;
    const fcl::Capsule<double> capsule = shape(rod);
    fcl::collide(&held_->tree, Placing::Identity(), &capsule, along(rod.from_K, rod.to_K), request,
                 result);
    return result.isCollision();
}

} // namespace rodway::witness
