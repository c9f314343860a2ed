// What FCL says of the published distances DG-4 to DG-7 (tests/reference/distance_reference_test
// says what ours says): so that the witness itself is known to be right.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/witness/fcl_witness.h"

namespace rodway::witness {
namespace {

constexpr double pi = std::numbers::pi;

double apart(const std::optional<double>& distance) {
    EXPECT_TRUE(distance.has_value());
    return distance.value_or(-1.0);
}

// DG-4, DG-5. 1e-9 as tabled.
TEST(Primitives, CapsulesByFcl) {
    const Capsule first{{0, 0, -5}, {0, 0, 5}, 5.0};
    const auto to_second = [&](const Vec3& moved, const Vec3& along) {
        return apart(fcl_distance(first, Capsule{moved - 5.0 * along, moved + 5.0 * along, 5.0}));
    };
    const Vec3 z = Vec3::UnitZ();
    EXPECT_NEAR(to_second({20.1, 0, 0}, z), 10.1, 1e-9);
    EXPECT_NEAR(to_second({20, 20, 0}, z), 18.2842712475, 1e-9);
    EXPECT_NEAR(to_second({0, 0, 20.1}, z), 0.1, 1e-9);
    EXPECT_NEAR(to_second({0, 0, 25.1}, Vec3::UnitX()), 10.1, 1e-9);
}

// DG-6.
TEST(Primitives, BarsAndABallByFcl) {
    const double c = std::cos(pi / 6.0);
    const double s = std::sin(pi / 6.0);
    const double r = 0.15625;
    EXPECT_NEAR(
        apart(fcl_distance(RoundBar{{0, 0, -4}, {0, 0, 4}, r},
                           RoundBar{{0.5, -4.0 * s, -4.0 * c}, {0.5, 4.0 * s, 4.0 * c}, r})),
        0.1875, 1e-9);
    EXPECT_NEAR(apart(fcl_ball_distance({3, 4, 0}, 0.25, {{0, 0, -4}, {0, 0, 4}, 1.0})), 3.75,
                1e-9);
}

// DG-7. Mesh to mesh is exact in FCL: 1e-12 as tabled. The tests' own slow mesh beside it.
TEST(Primitives, BoxesOfTrianglesByFcl) {
    const Vec3 half(1, 1, 1);
    const Eigen::Matrix3d square = Eigen::Matrix3d::Identity();
    const auto turned = [](const Vec3& about) {
        return Eigen::Matrix3d(Eigen::AngleAxisd(pi / 4.0, about));
    };
    struct Case {
        Vec3 centre;
        Eigen::Matrix3d axes;
        double distance;
    };
    const twins::TriangleMesh first = twins::box_mesh(Vec3::Zero(), square, half);
    const FclMesh fcl_first(first);
    for (const Case& each : {Case{{5, 5, 5}, square, 5.196152422707},
                             Case{{4, 0, 0}, turned(Vec3::UnitZ()), 1.585786437627},
                             Case{{4, 4, 0}, turned(Vec3::UnitX()), 2.552394684558}}) {
        const twins::TriangleMesh second = twins::box_mesh(each.centre, each.axes, half);
        const double by_fcl = apart(fcl_first.distance(FclMesh(second)));
        EXPECT_NEAR(by_fcl, each.distance, 1e-12);
        EXPECT_NEAR(twins::slow_distance(first, second), by_fcl, 1e-12);
    }
}

} // namespace
} // namespace rodway::witness
