#include "render/scene_view.h"

#include <gtest/gtest.h>

#include "tests/render/events.h"
#include "tests/render/pictures.h"

namespace rodway {
namespace {

class View : public testing::Test {
  protected:
    View() : view(Renderer::create()) {
        view.resize(640, 400);
        view.set_theme(Theme::light);
        view.set_scene(scene);
        view.show();
    }
    std::shared_ptr<const Scene> scene = Scene::build(sample_engine());
    SceneView view;
};

void drag(QWidget& widget, Qt::MouseButton button, Qt::KeyboardModifiers keys, const QPoint& from,
          const QPoint& by) {
    press(widget, from, button, keys);
    drag_on(widget, from + by, button, keys);
    release(widget, from + by, button, keys);
}

TEST_F(View, shows_what_the_renderer_draws_and_smooths_it_once_still) {
    ASSERT_TRUE(view.has_graphics());
    const QImage moving = view.grab().toImage().convertToFormat(QImage::Format_RGB32);
    wait_ms(400);
    const QImage still = view.grab().toImage().convertToFormat(QImage::Format_RGB32);
    Frame frame = whole_frame(scene, {640, 400});
    frame.camera = view.camera();
    // The frame round the focused widget is not part of the scene.
    const QRect inside(4, 4, 632, 392);
    EXPECT_EQ(different_pixels(still.copy(inside), drawn(frame).copy(inside)), 0);
    frame.smooth = false;
    EXPECT_EQ(different_pixels(moving.copy(inside), drawn(frame).copy(inside)), 0);
}

TEST_F(View, left_drag_turns_and_the_others_move) {
    const Camera before = view.camera();
    drag(view, Qt::LeftButton, {}, {300, 200}, {80, 30});
    EXPECT_GT(std::abs(view.camera().yaw_deg - before.yaw_deg), 10.0);
    EXPECT_GT(view.camera().pitch_deg, before.pitch_deg + 5.0);
    EXPECT_EQ(view.camera().target_E, before.target_E);
    for (const auto& [button, keys] :
         {std::pair<Qt::MouseButton, Qt::KeyboardModifiers>{Qt::RightButton, {}},
          {Qt::MiddleButton, {}},
          {Qt::LeftButton, Qt::ShiftModifier}}) {
        const Camera at = view.camera();
        drag(view, button, keys, {300, 200}, {40, 0});
        EXPECT_EQ(view.camera().yaw_deg, at.yaw_deg);
        const auto place = projected(view.camera(), {640, 400}, at.target_E);
        EXPECT_NEAR(place->x, 360.0, 1e-6) << "follows the pointer";
    }
}

TEST_F(View, wheel_and_keys_zoom_and_turn) {
    const Camera before = view.camera();
    turn_wheel(view, {300, 200}, 1);
    EXPECT_LT(view.camera().distance_mm, before.distance_mm);
    type_key(view, Qt::Key_Minus);
    EXPECT_NEAR(view.camera().distance_mm, before.distance_mm, 1e-6);
    type_key(view, Qt::Key_Right);
    EXPECT_NE(view.camera().yaw_deg, before.yaw_deg);
    type_key(view, Qt::Key_Up);
    EXPECT_NE(view.camera().pitch_deg, before.pitch_deg);
}

TEST_F(View, a_click_picks_and_a_drag_does_not) {
    std::vector<ValvePosition> picked;
    QObject::connect(&view, &SceneView::valve_picked,
                     [&](const ValvePosition& valve) { picked.push_back(valve); });
    SceneShow show;
    show.selected = ValvePosition{5, ValveKind::exhaust, 1};
    show.others = Others::hidden;
    view.set_show(show);
    const Segment rod = *scene->rod_E(*show.selected, {});
    const auto at = projected(view.camera(), {640, 400}, rod.at(0.3));
    const QPoint place(static_cast<int>(at->x), static_cast<int>(at->y));
    drag(view, Qt::LeftButton, {}, place, {60, 0});
    EXPECT_TRUE(picked.empty());
    drag(view, Qt::LeftButton, {}, place, {-60, 0});
    click(view, place);
    ASSERT_EQ(picked.size(), 1u);
    EXPECT_EQ(picked.front(), *show.selected);
}

TEST_F(View, shows_the_closest_spot_and_says_it) {
    wait_ms(400);
    const QImage before = view.grab().toImage();
    const Vec3 spot = scene->rod_E({3, ValveKind::intake, 1}, {})->at(0.6);
    view.set_closest({3, ValveKind::intake, 1}, QStringLiteral("0.065 in"), spot,
                     spot + Vec3(0.0, -1.5, 0.0));
    wait_ms(400);
    EXPECT_GT(different_pixels(before, view.grab().toImage()), 5000) << "label and lens";
    EXPECT_EQ(view.accessibleDescription(), QStringLiteral("0.065 in"));
    view.clear_closest();
    wait_ms(400);
    EXPECT_EQ(before, view.grab().toImage());
}

TEST(ViewWithoutGraphics, says_so_in_the_words_given) {
    SceneView view(Error{ErrorCode::no_graphics, {}, {}, {}, {}, {}});
    view.resize(400, 300);
    view.set_scene(Scene::build(sample_engine()));
    EXPECT_FALSE(view.has_graphics());
    const QImage silent = view.grab().toImage();
    view.set_no_graphics_text(QStringLiteral("No pictures here; all figures still hold."));
    EXPECT_GT(different_pixels(silent, view.grab().toImage()), 100);
    EXPECT_EQ(view.accessibleDescription(),
              QStringLiteral("No pictures here; all figures still hold."));
    click(view, QPoint(200, 150));
    type_key(view, Qt::Key_Plus);
}

} // namespace
} // namespace rodway
