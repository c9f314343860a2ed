#include "render/look.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/render/sample_engine.h"

namespace rodway {
namespace {

constexpr PictureSize size{640, 400};
const ValvePosition intake_3{3, ValveKind::intake, 1};

TEST(Look, goes_round_the_engine_as_its_words_say) {
    const auto scene = Scene::build(sample_engine());
    const auto forward = [&](Look look) {
        return forward_E(looked_at(*scene, look, {}, CrankAngle{}, size));
    };
    EXPECT_NEAR(forward(Look::front).x(), 1.0, 1e-9) << "towards the rear";
    EXPECT_NEAR(forward(Look::rear).x(), -1.0, 1e-9);
    EXPECT_GT(forward(Look::left).y(), 0.9);
    EXPECT_LT(forward(Look::right).y(), -0.9);
    EXPECT_NEAR(forward(Look::above).z(), -1.0, 1e-9);
    EXPECT_GT(forward(Look::corner).x(), 0.5);
    EXPECT_LT(forward(Look::corner).z(), -0.2);
}

TEST(Look, brings_all_that_is_asked_for_into_the_picture) {
    const auto scene = Scene::build(sample_engine());
    for (const std::optional<ValvePosition>& valve :
         {std::optional<ValvePosition>(), std::optional(intake_3)}) {
        for (const Look look :
             {Look::corner, Look::front, Look::rear, Look::left, Look::right, Look::above}) {
            const Camera camera = looked_at(*scene, look, valve, CrankAngle{}, size);
            double left = 1e9, right = -1e9, top = 1e9, foot = -1e9;
            for (const Vec3& point : scene->outline_E(valve)) {
                const auto at = projected(camera, size, point);
                ASSERT_TRUE(at);
                left = std::min(left, at->x);
                right = std::max(right, at->x);
                top = std::min(top, at->y);
                foot = std::max(foot, at->y);
            }
            EXPECT_GT(left, 0.0);
            EXPECT_LT(right, size.width);
            EXPECT_GT(top, 0.0);
            EXPECT_LT(foot, size.height);
            EXPECT_TRUE(right - left > 0.6 * size.width || foot - top > 0.6 * size.height)
                << "and fills it";
        }
    }
}

TEST(Look, along_the_rod_has_it_as_a_point) {
    const auto scene = Scene::build(sample_engine());
    const CrankAngle crank = CrankAngle::deg(123.0);
    const Camera camera = looked_at(*scene, Look::along_rod, intake_3, crank, size);
    const Segment rod = *scene->rod_E(intake_3, crank);
    const auto upper = projected(camera, size, rod.b);
    const auto lower = projected(camera, size, rod.a);
    ASSERT_TRUE(upper && lower);
    EXPECT_NEAR(upper->x, lower->x, 1e-6);
    EXPECT_NEAR(upper->y, lower->y, 1e-6);
    EXPECT_LT(upper->depth_mm, lower->depth_mm) << "from the rocker down";
}

TEST(Look, sections_hold_the_rod_and_move_along_their_own_normal) {
    const auto scene = Scene::build(sample_engine());
    const Engine& engine = scene->engine();
    const Segment rod =
        *scene->rod_E(intake_3, engine.full_lift_angle(intake_3) + CrankAngle::deg(360.0));
    const Vec3 along = (rod.b - rod.a).normalized();
    const Camera camera = looked_at(*scene, Look::left, intake_3, CrankAngle{}, size);
    const auto cut = [&](Cut kind, double by) {
        return *section_of(*scene, kind, intake_3, camera, by);
    };
    EXPECT_FALSE(section_of(*scene, Cut::none, intake_3, camera, 0.0));
    EXPECT_FALSE(section_of(*scene, Cut::across_crank, {9, ValveKind::intake, 1}, camera, 0.0));

    const Section across = cut(Cut::across_crank, 0.0);
    EXPECT_NEAR((across.normal_E + Vec3::UnitX()).norm(), 0.0, 1e-12) << "the front is taken away";
    EXPECT_NEAR((rod.at(0.5) - across.point_E).dot(across.normal_E), 0.0, 1e-9);

    const Section lengthwise = cut(Cut::along_crank, 0.0);
    for (const Vec3& end : {rod.a, rod.b}) {
        EXPECT_NEAR((end - lengthwise.point_E).dot(lengthwise.normal_E), 0.0, 1e-9);
    }
    EXPECT_NEAR(lengthwise.normal_E.x(), 0.0, 1e-12);
    EXPECT_LT(lengthwise.normal_E.dot(forward_E(camera)), 0.0) << "what is nearer is taken away";

    const Section square = cut(Cut::across_rod, 0.0);
    EXPECT_NEAR((square.normal_E - along).norm(), 0.0, 1e-12) << "the rocker is taken away";
    const Train& train = *engine.train(intake_3);
    const Vec3 middle =
        engine.layout.banks[train.bank].frame.to_block(engine.tube_in_place(train)->centre_K);
    EXPECT_NEAR((middle - square.point_E).dot(square.normal_E), 0.0, 1e-9);

    for (const Cut kind : {Cut::across_crank, Cut::along_crank, Cut::across_rod}) {
        const Section still = cut(kind, 0.0);
        const Section moved = cut(kind, 7.5);
        EXPECT_NEAR((moved.point_E - still.point_E - 7.5 * still.normal_E).norm(), 0.0, 1e-9);
    }
}

} // namespace
} // namespace rodway
