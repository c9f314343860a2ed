#include "render/mesh.h"

#include <gtest/gtest.h>

#include <Eigen/Geometry>
#include <cmath>
#include <numbers>

#include "render/train_parts.h"
#include "tests/render/sample_engine.h"

namespace rodway {
namespace {

using Eigen::Vector3d;

/// Enclosed volume by the divergence theorem: negative if the faces point inwards.
double volume(const Mesh& mesh) {
    double sum = 0.0;
    for (std::size_t at = 0; at + 2 < mesh.triangles.size(); at += 3) {
        const auto corner = [&](std::size_t which) {
            return Vector3d(mesh.vertices[mesh.triangles[at + which]].at.cast<double>());
        };
        sum += corner(0).dot(corner(1).cross(corner(2))) / 6.0;
    }
    return sum;
}

void expect_normals_outward(const Mesh& mesh) {
    for (std::size_t at = 0; at + 2 < mesh.triangles.size(); at += 3) {
        const MeshVertex& a = mesh.vertices[mesh.triangles[at]];
        const MeshVertex& b = mesh.vertices[mesh.triangles[at + 1]];
        const MeshVertex& c = mesh.vertices[mesh.triangles[at + 2]];
        const Eigen::Vector3f face = (b.at - a.at).cross(c.at - a.at);
        if (face.norm() > 1e-4f) {
            ASSERT_GT(face.dot(a.normal + b.normal + c.normal), 0.0f) << "triangle " << at / 3;
        }
    }
}

Pushrod straight_rod() {
    Pushrod rod;
    rod.length_mm = 220.0;
    rod.diameter_mm = 8.0;
    return rod;
}

// Closed forms; 64 and more steps around come within 1 % of the round body.
TEST(Mesh, bodies_enclose_their_volume_with_faces_outward) {
    const double pi = std::numbers::pi;
    EXPECT_NEAR(volume(cylinder(5.0, -2.0, 8.0, 96)), pi * 25.0 * 10.0, 0.01 * pi * 250.0);
    EXPECT_NEAR(volume(ball(3.0, 96)), 4.0 / 3.0 * pi * 27.0, 0.01 * 36.0 * pi);
    EXPECT_NEAR(volume(ring(20.0, 2.0, 5.0, 96, 24)), 2.0 * pi * 20.0 * pi * 4.0, 0.02 * 1580.0);
    EXPECT_NEAR(volume(drawn_out({{2.0, 1.0}, {-2.0, 1.0}, {-2.0, -1.0}, {2.0, -1.0}}, 1.0, 4.0)),
                24.0, 1e-4);
    EXPECT_NEAR(volume(bar({1.0, 2.0, 3.0}, {1.0, 12.0, 3.0}, 2.0, 2.0, 96)), pi * 4.0 * 10.0, 1.3);
    for (const Mesh& mesh :
         {cylinder(5.0, -2.0, 8.0, 24), ball(3.0, 16), ring(20.0, 2.0, 5.0, 24),
          coil(16.0, 2.0, 45.0, 6.0, 16), rod_mesh(straight_rod()), lifter_mesh(44.0, 10.0, 0.0),
          lifter_mesh(44.0, 10.0, 8.6), lifter_roller_mesh(10.0, 8.6)}) {
        expect_normals_outward(mesh);
    }
}

TEST(Mesh, a_coil_fills_one_unit_of_height_whatever_its_length) {
    float low = 1.0f;
    float high = 0.0f;
    for (const MeshVertex& vertex : coil(16.0, 2.0, 45.0, 6.0, 16).vertices) {
        low = std::min(low, vertex.at.z());
        high = std::max(high, vertex.at.z());
    }
    EXPECT_NEAR(low, 0.0f, 0.01f);
    EXPECT_NEAR(high, 1.0f, 0.01f);
}

/// A 3-4-5 lobe so wide that a flat face can follow it.
Lobe wide_lobe() {
    LiftTable table;
    table.resolution_mm = 0.001;
    for (int deg = -110; deg <= 110; deg += 2) {
        const double u = 1.0 - std::abs(deg) / 110.0;
        table.rows.push_back(
            {static_cast<double>(deg),
             std::round(9000.0 * u * u * u * (10.0 - 15.0 * u + 6.0 * u * u)) / 1000.0});
    }
    return std::move(Lobe::from_table(table)).value();
}

constexpr double base = 0.560 * 25.4;

// A flat foot square to the follower's axis rests on the lobe: the farthest extent of the profile
// along the follower is base circle plus lift, at every angle. Dominant error: 120 chords, under
// 0.05 mm.
TEST(Mesh, a_lobe_lifts_a_flat_foot_by_its_own_curve) {
    const Lobe lobe = wide_lobe();
    ASSERT_TRUE(works_flat(lobe, base));
    for (const double turns : {1.0, -1.0}) {
        const Mesh mesh = lobe_mesh(lobe, base, 8.0, turns, 0.0);
        for (const double cam_deg : {-60.0, -31.0, 0.0, 24.0, 55.0, 120.0, 180.0}) {
            const double follower = -turns * radians(cam_deg);
            double reach = 0.0;
            for (const MeshVertex& vertex : mesh.vertices) {
                reach = std::max(
                    reach, vertex.at.x() * std::cos(follower) + vertex.at.y() * std::sin(follower));
            }
            EXPECT_NEAR(reach, base + lobe.lift_mm(CamAngle::deg(cam_deg)), 0.05) << cam_deg;
        }
    }
}

// A roller whose lowest point stands at base circle plus lift touches the profile and doesn't cut
// it. Dominant error: the profile's points are up to 3° apart, 0.06 mm of sagitta on the roller.
TEST(Mesh, a_steep_lobe_lifts_a_roller_by_its_own_curve) {
    const Lobe lobe = sample_lobe();
    ASSERT_FALSE(works_flat(lobe, base));
    constexpr double roller = 9.2;
    const Mesh mesh = lobe_mesh(lobe, base, 8.0, 1.0, roller);
    for (const double cam_deg : {-60.0, -40.0, -20.0, 0.0, 24.0, 55.0, 120.0}) {
        const double follower = -radians(cam_deg);
        const double reach = base + lobe.lift_mm(CamAngle::deg(cam_deg)) + roller;
        const Eigen::Vector2d centre(reach * std::cos(follower), reach * std::sin(follower));
        double nearest = 1e9;
        for (const MeshVertex& vertex : mesh.vertices) {
            nearest = std::min(nearest, (vertex.at.head<2>().cast<double>() - centre).norm());
        }
        EXPECT_NEAR(nearest, roller, 0.08) << cam_deg;
    }
}

} // namespace
} // namespace rodway
