#include "render/camera.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

constexpr PictureSize size{640, 400};

Camera test_camera() {
    Camera camera;
    camera.target_E = Vec3(120.0, -30.0, 250.0);
    camera.distance_mm = 900.0;
    camera.yaw_deg = 40.0;
    camera.pitch_deg = 20.0;
    return camera;
}

// All tolerances here: rounding of a few products of doubles.
constexpr double rounding = 1e-9;

TEST(Camera, sees_the_front_of_the_engine_at_yaw_zero) {
    Camera camera;
    camera.yaw_deg = 0.0;
    camera.pitch_deg = 0.0;
    EXPECT_NEAR((forward_E(camera) - Vec3::UnitX()).norm(), 0.0, rounding);
    EXPECT_NEAR((up_E(camera) - Vec3::UnitZ()).norm(), 0.0, rounding);
    // Facing the rear with z up, the engine's +y is on the left.
    EXPECT_NEAR((right_E(camera) + Vec3::UnitY()).norm(), 0.0, rounding);
}

TEST(Camera, frame_is_orthonormal_even_straight_down) {
    for (const double pitch : {-90.0, -35.0, 0.0, 60.0, 90.0}) {
        Camera camera = test_camera();
        camera.pitch_deg = pitch;
        Eigen::Matrix3d frame;
        frame << right_E(camera), up_E(camera), -forward_E(camera);
        EXPECT_NEAR((frame * frame.transpose() - Eigen::Matrix3d::Identity()).norm(), 0.0,
                    rounding);
        EXPECT_NEAR(frame.determinant(), 1.0, rounding) << "right-handed at pitch " << pitch;
    }
}

TEST(Camera, projects_its_target_to_the_middle_and_a_step_right_to_the_scale) {
    for (const bool perspective : {true, false}) {
        Camera camera = test_camera();
        camera.perspective = perspective;
        const auto middle = projected(camera, size, camera.target_E);
        ASSERT_TRUE(middle);
        EXPECT_NEAR(middle->x, 320.0, rounding);
        EXPECT_NEAR(middle->y, 200.0, rounding);
        EXPECT_NEAR(middle->depth_mm, 900.0, rounding);
        // Closed form: the picture's height is 2·d·tan(fov/2) at the target.
        const double px_per_mm = 400.0 / (2.0 * 900.0 * std::tan(radians(15.0)));
        EXPECT_NEAR(1.0 / mm_per_pixel(camera, size), px_per_mm, rounding);
        const auto aside =
            projected(camera, size, camera.target_E + 50.0 * right_E(camera) + 20.0 * up_E(camera));
        ASSERT_TRUE(aside);
        EXPECT_NEAR(aside->x, 320.0 + 50.0 * px_per_mm, 1e-6);
        EXPECT_NEAR(aside->y, 200.0 - 20.0 * px_per_mm, 1e-6) << "rows count down";
    }
}

TEST(Camera, far_things_are_smaller_only_with_perspective) {
    Camera camera = test_camera();
    const Vec3 aside = camera.target_E + 50.0 * right_E(camera);
    const Vec3 behind = aside + 900.0 * forward_E(camera);
    EXPECT_NEAR(projected(camera, size, behind)->x - 320.0,
                (projected(camera, size, aside)->x - 320.0) / 2.0, 1e-6);
    camera.perspective = false;
    EXPECT_NEAR(projected(camera, size, behind)->x, projected(camera, size, aside)->x, 1e-6);
}

TEST(Camera, a_point_behind_the_eye_has_no_place) {
    const Camera camera = test_camera();
    EXPECT_FALSE(projected(camera, size, eye_E(camera) - 10.0 * forward_E(camera)));
}

TEST(Camera, orbit_keeps_target_and_distance_and_stops_overhead) {
    const Camera before = test_camera();
    const Camera after = orbited(before, 25.0, 200.0);
    EXPECT_EQ(after.target_E, before.target_E);
    EXPECT_NEAR((eye_E(after) - after.target_E).norm(), 900.0, 1e-6);
    EXPECT_DOUBLE_EQ(after.pitch_deg, 90.0);
    EXPECT_DOUBLE_EQ(after.yaw_deg, 65.0);
    // A positive turn moves the eye from the front towards +y.
    Camera front = before;
    front.yaw_deg = 0.0;
    EXPECT_GT(eye_E(orbited(front, 10.0, 0.0)).y(), eye_E(front).y() + 1.0);
}

TEST(Camera, pan_takes_the_target_along_with_the_pointer) {
    const Camera before = test_camera();
    const Camera after = panned(before, 60.0, -25.0, size);
    const auto place = projected(after, size, before.target_E);
    ASSERT_TRUE(place);
    EXPECT_NEAR(place->x, 320.0 + 60.0, 1e-6);
    EXPECT_NEAR(place->y, 200.0 - 25.0, 1e-6);
}

TEST(Camera, zoom_divides_the_distance_within_its_limits) {
    EXPECT_DOUBLE_EQ(zoomed(test_camera(), 2.0).distance_mm, 450.0);
    EXPECT_DOUBLE_EQ(zoomed(test_camera(), 1e9).distance_mm, 5.0);
}

TEST(Camera, framing_shows_every_corner_and_touches_an_edge) {
    const Box box{Vec3(-10.0, -220.0, 90.0), Vec3(520.0, 240.0, 420.0)};
    for (const bool perspective : {true, false}) {
        Camera camera = test_camera();
        camera.perspective = perspective;
        camera = framed(camera, box, size);
        double nearest_edge = 1e9;
        for (int corner = 0; corner < 8; ++corner) {
            const Vec3 at((corner & 1) != 0 ? -10.0 : 520.0, (corner & 2) != 0 ? -220.0 : 240.0,
                          (corner & 4) != 0 ? 90.0 : 420.0);
            const auto place = projected(camera, size, at);
            ASSERT_TRUE(place);
            const double edge = std::min({place->x, 640.0 - place->x, place->y, 400.0 - place->y});
            EXPECT_GE(edge, 0.0);
            nearest_edge = std::min(nearest_edge, edge);
        }
        EXPECT_LT(nearest_edge, 0.05 * 640.0) << "not smaller than it must be";
    }
}

TEST(Camera, along_a_rod_both_ends_fall_on_one_pixel_the_upper_nearer) {
    const Segment rod{Vec3(80.0, 20.0, 140.0), Vec3(86.0, 190.0, 300.0)};
    const Camera camera = along_rod(test_camera(), rod);
    const auto lower = projected(camera, size, rod.a);
    const auto upper = projected(camera, size, rod.b);
    ASSERT_TRUE(lower && upper);
    EXPECT_NEAR(lower->x, upper->x, 1e-6);
    EXPECT_NEAR(lower->y, upper->y, 1e-6);
    EXPECT_LT(upper->depth_mm, lower->depth_mm);
}

// As on the clock of a tube: 12 to the front of the engine, 3 to the right of who looks down.
TEST(Camera, along_a_rod_the_front_is_at_the_top) {
    for (const Vec3& upper : {Vec3(20.0, 150.0, 300.0), Vec3(-15.0, -150.0, 280.0),
                              Vec3(5.0, 2.0, 260.0), Vec3(10.0, 250.0, 8.0)}) {
        const Segment rod{{0.0, 0.0, 0.0}, upper};
        const Camera camera = along_rod(test_camera(), rod);
        const Vec3 along = upper.normalized();
        const Vec3 twelve = (-Vec3::UnitX() + Vec3::UnitX().dot(along) * along).normalized();
        const Vec3 three = (-along).cross(twelve);
        const auto middle = projected(camera, size, rod.at(0.6));
        const auto front = projected(camera, size, rod.at(0.6) + 5.0 * twelve);
        const auto right = projected(camera, size, rod.at(0.6) + 5.0 * three);
        ASSERT_TRUE(middle && front && right);
        EXPECT_NEAR(front->x, middle->x, 1e-6);
        EXPECT_LT(front->y, middle->y - 5.0);
        EXPECT_NEAR(right->y, middle->y, 1e-6);
        EXPECT_GT(right->x, middle->x + 5.0);
    }
}

TEST(Camera, a_rolled_picture_is_square_and_turns_about_its_own_sides) {
    Camera camera = test_camera();
    camera.roll_deg = 37.0;
    EXPECT_NEAR(right_E(camera).dot(up_E(camera)), 0.0, 1e-12);
    EXPECT_NEAR(right_E(camera).dot(forward_E(camera)), 0.0, 1e-12);
    EXPECT_NEAR(right_E(camera).cross(forward_E(camera)).dot(up_E(camera)), 1.0, 1e-12);
    Camera level = camera;
    level.roll_deg = 0.0;
    EXPECT_NEAR(right_E(camera).dot(right_E(level)), std::cos(radians(37.0)), 1e-12);
    // A little turn is a little turn, also of a look nearly straight down.
    for (const double pitch : {camera.pitch_deg, 89.9}) {
        camera.pitch_deg = pitch;
        const Camera sideways = orbited(camera, 0.5, 0.0);
        const double turned = radians(0.5);
        EXPECT_NEAR(up_E(sideways).dot(up_E(camera)), 1.0, 1e-12);
        EXPECT_NEAR(forward_E(sideways).dot(right_E(camera)), std::sin(turned), 1e-12);
        const Camera over = orbited(camera, 0.0, 0.5);
        EXPECT_NEAR(right_E(over).dot(right_E(camera)), 1.0, 1e-12);
        EXPECT_NEAR(forward_E(over).dot(up_E(camera)), -std::sin(turned), 1e-12);
    }
}

TEST(Camera, turns_the_same_way_rolled_by_nothing_as_upright) {
    Camera rolled = test_camera();
    rolled.pitch_deg = 0.0;
    rolled.roll_deg = 1e-9;
    Camera upright = rolled;
    upright.roll_deg = 0.0;
    for (const auto& [yaw, pitch] : {std::pair{20.0, 0.0}, std::pair{0.0, 20.0}}) {
        EXPECT_LT((eye_E(orbited(rolled, yaw, pitch)) - eye_E(orbited(upright, yaw, pitch))).norm(),
                  1e-4);
    }
}

} // namespace
} // namespace rodway
