#include "render/offscreen_picture.h"

#include <gtest/gtest.h>

#include "tests/render/pictures.h"

namespace rodway {
namespace {

const ValvePosition intake_3{3, ValveKind::intake, 1};

PictureRequest request() {
    PictureRequest made;
    const auto scene = Scene::build(sample_engine());
    made.frame = whole_frame(scene, {640, 400});
    const Segment rod = *scene->rod_E(intake_3, made.frame.crank);
    const Vec3 spot = rod.at(0.6);
    made.closest =
        ClosestSpot{intake_3, QStringLiteral("0.065"), spot, spot + Vec3(0.0, -1.6, 0.0)};
    return made;
}

TEST(OffscreenPicture, has_the_size_asked_for_and_repeats_itself) {
    const PictureRequest asked = request();
    const QImage picture = *offscreen_picture(test_renderer(), asked);
    EXPECT_EQ(picture.size(), QSize(640, 400));
    if (test_renderer().in_software()) {
        EXPECT_EQ(picture, *offscreen_picture(test_renderer(), asked));
    }
}

TEST(OffscreenPicture, label_stands_beside_the_spot_and_the_lens_in_a_far_corner) {
    PictureRequest asked = request();
    const QImage bare = drawn(asked.frame);
    asked.lens = false;
    const QImage labelled = *offscreen_picture(test_renderer(), asked);
    const auto at = projected(asked.frame.camera, asked.frame.size, asked.closest->p_rod_E);
    const QRect near(static_cast<int>(at->x) - 160, static_cast<int>(at->y) - 110, 320, 220);
    const int near_changed = different_pixels(bare.copy(near), labelled.copy(near));
    EXPECT_GT(near_changed, 300);
    EXPECT_EQ(different_pixels(bare, labelled), near_changed) << "nothing else is touched";
    asked.lens = true;
    const QRectF lens = lens_place({640.0, 400.0}, {at->x, at->y});
    EXPECT_FALSE(lens.contains(QPointF(at->x, at->y)));
    const QImage magnified = *offscreen_picture(test_renderer(), asked);
    EXPECT_GT(different_pixels(labelled.copy(lens.toRect()), magnified.copy(lens.toRect())),
              static_cast<int>(0.4 * lens.width() * lens.height()));
}

TEST(OffscreenPicture, the_lens_looks_square_at_the_gap_and_shows_both_its_ends) {
    const PictureRequest asked = request();
    const Frame lens = lens_frame(asked.frame, *asked.closest, 200);
    const Vec3 gap = asked.closest->p_wall_E - asked.closest->p_rod_E;
    EXPECT_NEAR(forward_E(lens.camera).dot(gap.normalized()), 0.0, 1e-9);
    const auto rod = projected(lens.camera, lens.size, asked.closest->p_rod_E);
    const auto wall = projected(lens.camera, lens.size, asked.closest->p_wall_E);
    ASSERT_TRUE(rod && wall);
    const double apart = std::hypot(rod->x - wall->x, rod->y - wall->y);
    EXPECT_GT(apart, 20.0);
    EXPECT_LT(apart, 100.0);
}

} // namespace
} // namespace rodway
