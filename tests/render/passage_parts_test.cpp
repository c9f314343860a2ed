#include "render/passage_parts.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "render/obstacle_parts.h"
#include "render/train_parts.h"
#include "tests/render/varied_engine.h"

namespace rodway {
namespace {

Vec3 in_bank(const Eigen::Matrix4d& place, const MeshVertex& vertex) {
    const Eigen::Vector4d at = place * vertex.at.cast<double>().homogeneous();
    return at.head<3>();
}

/// Vertices are kept in single precision: 1e-4 mm within a metre.
constexpr double single_mm = 2e-4;

// Core's own distance says where the wall is: all that is drawn of a bore lies on it.
TEST(PassageParts, every_corner_of_a_bores_mesh_lies_on_its_wall) {
    std::mt19937 random(20261130);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    for (int turn = 0; turn < 40; ++turn) {
        Bore bore;
        bore.centre_K = 300.0 * Vec3(unit(random), unit(random), unit(random));
        bore.axis_K = Vec3(0.3 * unit(random), 0.3 * unit(random), 1.0).normalized();
        bore.length_mm = 30.0 + 20.0 * unit(random);
        bore.bore_radius_mm = 7.0 + 3.0 * unit(random);
        bore.half_straight_mm = turn % 2 == 0 ? 0.0 : 4.0 + 2.0 * unit(random);
        const Vec3 way = Vec3(unit(random), unit(random), 0.1);
        bore.long_way_K = (way - way.dot(bore.axis_K) * bore.axis_K).normalized();
        bore.top_edge_radius_mm = turn % 3 == 0 ? 0.0 : 1.5;
        bore.bottom_edge_radius_mm = turn % 5 == 0 ? 0.0 : 0.8;
        const Mesh mesh = passage_mesh(bore, 0.0);
        ASSERT_GT(mesh.vertices.size(), 80u);
        double lowest = 1e9;
        double highest = -1e9;
        double farthest_along = 0.0;
        for (const MeshVertex& vertex : mesh.vertices) {
            const Vec3 at = in_bank(standing_as(bore), vertex);
            EXPECT_NEAR(signed_distance_to_wall(bore, at), 0.0, single_mm) << "turn " << turn;
            lowest = std::min(lowest, (at - bore.centre_K).dot(bore.axis_K));
            highest = std::max(highest, (at - bore.centre_K).dot(bore.axis_K));
            if (bore.half_straight_mm > 0.0) {
                farthest_along =
                    std::max(farthest_along, std::abs((at - bore.centre_K).dot(bore.long_way_K)));
            }
        }
        EXPECT_NEAR(highest, 0.5 * bore.length_mm, single_mm);
        EXPECT_NEAR(lowest, -0.5 * bore.length_mm, single_mm);
        if (bore.half_straight_mm > 0.0) {
            EXPECT_GE(farthest_along, bore.half_straight_mm + bore.bore_radius_mm - single_mm);
        }
    }
}

TEST(PassageParts, a_stated_wall_is_drawn_as_thick_as_it_is_and_rims_stay_outside_the_bore) {
    Bore bore;
    bore.length_mm = 40.0;
    bore.bore_radius_mm = 7.0;
    bore.half_straight_mm = 3.0;
    double outmost = 0.0;
    for (const MeshVertex& vertex : passage_mesh(bore, 2.5).vertices) {
        outmost = std::max(outmost, std::abs(static_cast<double>(vertex.at.y())));
    }
    EXPECT_NEAR(outmost, 9.5, 1e-4) << "across the long way";
    for (const MeshVertex& vertex : rims_mesh(bore).vertices) {
        const double x = std::max(0.0, std::abs(static_cast<double>(vertex.at.x())) - 3.0);
        EXPECT_GE(std::hypot(x, static_cast<double>(vertex.at.y())), 7.0 - 1e-4);
    }
}

TEST(PassageParts, only_what_has_material_round_it_is_drawn_with_some) {
    Passage passage;
    passage.kind = PassageKind::round_tube;
    EXPECT_EQ(drawn_wall_mm(passage), 0.0) << "of a tube nothing but its bore is known";
    passage.wall_mm = 1.6;
    EXPECT_EQ(drawn_wall_mm(passage), 1.6);
    passage.wall_mm.reset();
    for (const PassageKind kind : {PassageKind::drilled_hole, PassageKind::guide_slot}) {
        passage.kind = kind;
        EXPECT_GT(drawn_wall_mm(passage), 0.0);
    }
}

// As above: the solid's own distance says where its surface is.
TEST(ObstacleParts, every_corner_lies_on_the_solid) {
    const NearRods near{{-50.0, -60.0, 200.0}, {80.0, 10.0, 300.0}};
    const RoundBar bar{{1.0, 2.0, 3.0}, {30.0, -20.0, 60.0}, 6.0};
    const Cuboid box{{5.0, 6.0, 250.0},
                     {Vec3(0.6, 0.8, 0.0), Vec3(-0.8, 0.6, 0.0), Vec3::UnitZ()},
                     {10.0, 4.0, 7.0}};
    const Capsule capsule{{0.0, 0.0, 0.0}, {0.0, 12.0, 3.0}, 5.0};
    for (const auto& [kind, solid] :
         {std::pair{ObstacleKind::cylinder, Solid(bar)}, std::pair{ObstacleKind::box, Solid(box)},
          std::pair{ObstacleKind::rocker_body, Solid(capsule)}}) {
        const Mesh mesh = obstacle_mesh(kind, solid, near);
        ASSERT_GT(mesh.vertices.size(), 20u);
        bool inside = false;
        for (const MeshVertex& vertex : mesh.vertices) {
            const double off = signed_distance(solid, vertex.at.cast<double>()).distance_mm;
            EXPECT_LT(off, single_mm);
            inside = inside || off < -0.5;
        }
        // Only where two bodies are put together do corners lie inside: ball and bar.
        EXPECT_EQ(inside, kind == ObstacleKind::rocker_body);
    }
}

TEST(ObstacleParts, a_bolts_thread_is_cut_into_it_and_a_plane_is_where_it_is) {
    const NearRods near{{-50.0, -60.0, 200.0}, {80.0, 10.0, 300.0}};
    const Solid bolt = RoundBar{{0.0, 0.0, 0.0}, {0.0, 0.0, 30.0}, 5.0};
    double shallowest = -1e9;
    double deepest = 1e9;
    for (const MeshVertex& vertex : obstacle_mesh(ObstacleKind::bolt_end, bolt, near).vertices) {
        const double from_axis = std::hypot(vertex.at.x(), vertex.at.y());
        shallowest = std::max(shallowest, from_axis);
        if (vertex.at.z() > 2.0f && vertex.at.z() < 28.0f) {
            deepest = std::min(deepest, from_axis);
        }
    }
    EXPECT_NEAR(shallowest, 5.0, 1e-4) << "crests at the stated size";
    EXPECT_GT(deepest, 3.0);
    EXPECT_LT(deepest, 4.5);

    const HalfSpace plane{{0.0, -30.0, 250.0}, Vec3(0.1, -0.9, 0.2).normalized()};
    int on = 0;
    for (const MeshVertex& vertex :
         obstacle_mesh(ObstacleKind::plane, Solid(plane), near).vertices) {
        const double off = signed_distance(Solid(plane), vertex.at.cast<double>()).distance_mm;
        EXPECT_LT(off, single_mm) << "never on the open side";
        on += std::abs(off) < single_mm ? 1 : 0;
    }
    EXPECT_GT(on, 6);
}

// A rod's mesh may not be thicker anywhere than its stated sections, its ends' balls and cup aside,
// and must reach each section's own thickness.
TEST(TrainParts, a_rod_is_as_thick_along_itself_as_it_is_stated) {
    const Engine engine = varied_engine();
    const Pushrod& rod = engine.train({1, ValveKind::intake, 1})->rod;
    ASSERT_FALSE(rod.profile.empty());
    const Mesh mesh = rod_mesh(rod);
    for (const RoundSection& section : rod_sections(rod)) {
        double found = 0.0;
        for (const MeshVertex& vertex : mesh.vertices) {
            const double z = vertex.at.z();
            const double from_axis = std::hypot(vertex.at.x(), vertex.at.y());
            if (z > section.from_mm + 1e-3 && z < section.to_mm - 1e-3 && z > 15.0 &&
                z < rod.length_mm - 15.0) {
                EXPECT_LE(from_axis, section.radius_at(z) + 1e-4);
            }
            if (std::abs(z - section.to_mm) < 1e-3) {
                found = std::max(found, from_axis);
            }
        }
        EXPECT_GE(found, section.radius_to_mm - 1e-4) << section.to_mm;
    }
}

} // namespace
} // namespace rodway
