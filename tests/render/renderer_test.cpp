#include "render/renderer.h"

#include <gtest/gtest.h>

#include "tests/render/pictures.h"
#include "tests/render/varied_engine.h"

namespace rodway {
namespace {

const ValvePosition intake_3{3, ValveKind::intake, 1};

class RendererTest : public testing::Test {
  protected:
    std::shared_ptr<const Scene> scene = Scene::build(sample_engine());
    Frame frame = whole_frame(scene);
};

TEST_F(RendererTest, draws_something_over_the_ground_and_the_same_again) {
    const QImage once = drawn(frame);
    ASSERT_EQ(once.size(), QSize(480, 300));
    Engine nothing = sample_engine();
    nothing.trains.clear();
    Frame empty = frame;
    empty.scene = Scene::build(nothing);
    const QImage ground = drawn(empty);
    // A valvetrain seen whole covers a fair part of its picture, not all of it.
    EXPECT_GT(different_pixels(once, ground), 480 * 300 / 8);
    EXPECT_LT(different_pixels(once, ground), 480 * 300 * 3 / 4);
    if (!test_renderer().in_software()) {
        GTEST_SKIP() << "repeats are only promised in software: "
                     << test_renderer().graphics_name();
    }
    EXPECT_EQ(once, drawn(frame));
    Result<std::unique_ptr<Renderer>> other = Renderer::create();
    ASSERT_TRUE(other);
    EXPECT_EQ(once, *std::move(other).value()->draw(frame))
        << "a renderer of its own gives the same bytes";
}

TEST_F(RendererTest, ground_is_brighter_in_the_light_theme_and_fades_down) {
    Frame dark = frame;
    dark.palette = palette_for(Theme::dark);
    const QImage day = drawn(frame);
    const QImage night = drawn(dark);
    EXPECT_GT(qGray(day.pixel(2, 2)), qGray(night.pixel(2, 2)) + 80);
    // The foot is the paper's colour: rows come out head first.
    EXPECT_NEAR(qGray(day.pixel(2, 298)), qGray(frame.palette.paper.rgb()), 2);
    EXPECT_NEAR(qGray(day.pixel(2, 1)), qGray(frame.palette.paper_high.rgb()), 2);
}

TEST_F(RendererTest, multisampling_only_changes_edges) {
    Frame rough = frame;
    rough.smooth = false;
    const int changed = different_pixels(drawn(frame), drawn(rough));
    EXPECT_GT(changed, 1000);
    EXPECT_LT(changed, 480 * 300 / 3);
}

TEST_F(RendererTest, hiding_or_fading_the_other_trains_changes_the_picture) {
    const QImage all = drawn(frame);
    frame.show.selected = intake_3;
    const QImage marked = drawn(frame);
    frame.show.others = Others::faded;
    const QImage faded = drawn(frame);
    frame.show.others = Others::hidden;
    const QImage alone = drawn(frame);
    EXPECT_GT(different_pixels(all, marked), 200);
    EXPECT_GT(different_pixels(marked, faded), 10000);
    EXPECT_GT(different_pixels(faded, alone), 10000);
}

TEST_F(RendererTest, turning_the_crank_moves_that_rods_pixels) {
    frame.show.selected = intake_3;
    frame.show.others = Others::hidden;
    frame.show.shared_parts = frame.show.pistons = false;
    frame.camera = framed(frame.camera, scene->outline_E(intake_3), frame.size);
    const CrankAngle full = scene->engine().full_lift_angle(intake_3);
    frame.crank = full;
    const QImage open = drawn(frame);
    frame.crank = full + CrankAngle::deg(360.0);
    const QImage shut = drawn(frame);
    frame.crank = full + CrankAngle::deg(300.0);
    EXPECT_GT(different_pixels(open, shut), 1500);
    // On the heel only the lobe itself turns, and that is hardly in sight.
    EXPECT_LT(different_pixels(drawn(frame), shut), 900);
}

TEST_F(RendererTest, picks_the_valve_drawn_where_its_rod_is_projected) {
    for (const Train& train : scene->engine().trains) {
        Frame alone = frame;
        alone.show.selected = train.position;
        alone.show.others = Others::hidden;
        const Segment rod = *scene->rod_E(train.position, alone.crank);
        const auto at = projected(alone.camera, alone.size, rod.at(0.3));
        ASSERT_TRUE(at);
        const auto picked =
            test_renderer().pick(alone, static_cast<int>(at->x), static_cast<int>(at->y));
        ASSERT_TRUE(picked) << position_name(train.position);
        EXPECT_EQ(*picked, (Picked{train.position, PartKind::rod, {}}));
    }
    EXPECT_FALSE(test_renderer().pick(frame, 3, 3)) << "nothing but ground in the corner";
}

TEST_F(RendererTest, picks_the_nearer_of_two_rods_in_one_line_of_sight) {
    // From the front, rods of one bank stand behind each other.
    frame.camera.yaw_deg = 0.0;
    frame.camera.pitch_deg = 0.0;
    frame.camera.perspective = false;
    frame.camera = framed(frame.camera, scene->outline_E(), frame.size);
    const ValvePosition front{1, ValveKind::exhaust, 1};
    const CrankAngle crank = scene->engine().full_lift_angle(front) + CrankAngle::deg(360.0);
    frame.crank = crank;
    double least_x = 1e9;
    for (const Train& train : scene->engine().trains) {
        if (train.bank == scene->engine().train(front)->bank) {
            least_x = std::min(least_x, train.lifter.foot_K.x());
        }
    }
    ASSERT_DOUBLE_EQ(least_x, scene->engine().train(front)->lifter.foot_K.x());
    const auto at = projected(frame.camera, frame.size, scene->rod_E(front, crank)->at(0.5));
    const auto picked =
        test_renderer().pick(frame, static_cast<int>(at->x), static_cast<int>(at->y), 1);
    ASSERT_TRUE(picked);
    EXPECT_EQ(picked->valve, front);
}

TEST_F(RendererTest, picks_obstacles_and_shared_parts_by_what_they_are) {
    const Engine engine = varied_engine();
    frame.scene = Scene::build(engine);
    frame.show.selected = ValvePosition{1, ValveKind::intake, 1};
    frame.show.others = Others::hidden;
    frame.show.shared_parts = frame.show.pistons = false;
    frame.show.rockers = Rockers::hidden;
    for (const Obstacle& obstacle : engine.obstacles) {
        const auto* bar = std::get_if<RoundBar>(&obstacle.solid);
        if (bar == nullptr) {
            continue;
        }
        const Vec3 middle =
            engine.layout.banks[obstacle.bank].frame.to_block(0.5 * (bar->from_K + bar->to_K));
        frame.camera = looking_at(frame.camera, middle, {0.3, 0.2, -1.0}, 40.0);
        const auto picked = test_renderer().pick(frame, 240, 150);
        ASSERT_TRUE(picked) << obstacle.name;
        EXPECT_EQ(*picked, (Picked{{}, PartKind::obstacle, obstacle.name}));
    }
}

TEST_F(RendererTest, states_show_in_grey_too) {
    // The pictures of one rod in each state, all colour taken away, differ by hatching or tone.
    frame.show.selected = intake_3;
    frame.show.others = Others::hidden;
    frame.show.shared_parts = frame.show.pistons = frame.show.castings = false;
    frame.camera = framed(frame.camera, scene->outline_E(intake_3), frame.size);
    std::vector<QImage> seen;
    for (std::size_t state = 0; state < check_state_count; ++state) {
        frame.show.states = {{intake_3, static_cast<CheckState>(state)}};
        const QImage grey = drawn(frame).convertToFormat(QImage::Format_Grayscale8);
        for (std::size_t other = 0; other < seen.size(); ++other) {
            int apart = 0;
            for (int y = 0; y < grey.height(); ++y) {
                for (int x = 0; x < grey.width(); ++x) {
                    const int off =
                        std::abs(qGray(grey.pixel(x, y)) - qGray(seen[other].pixel(x, y)));
                    apart += off > 24 ? 1 : 0;
                }
            }
            EXPECT_GT(apart, 60) << "states " << state << " and " << other;
        }
        seen.push_back(grey);
    }
}

TEST_F(RendererTest, a_section_takes_away_what_is_on_its_side_and_nothing_else) {
    frame.camera.yaw_deg = 90.0;
    frame.camera.pitch_deg = 0.0;
    frame.camera.perspective = false;
    frame.camera = framed(frame.camera, scene->outline_E(), frame.size);
    frame.smooth = false;
    const QImage whole = drawn(frame);
    const double middle_x = scene->bounds().centre_E().x();
    frame.show.section = Section{Vec3(middle_x, 0.0, 0.0), Vec3::UnitX()};
    const QImage cut = drawn(frame);
    Engine nothing = sample_engine();
    nothing.trains.clear();
    Frame empty = frame;
    empty.scene = Scene::build(nothing);
    const QImage ground = drawn(empty);
    // Seen from +y, the front is on the right or left as the camera says.
    const auto at = projected(frame.camera, frame.size, Vec3(middle_x + 30.0, 0.0, 250.0));
    const bool rear_right = at->x > 240.0;
    const QRect gone = rear_right ? QRect(244, 0, 236, 300) : QRect(0, 0, 236, 300);
    const QRect kept = rear_right ? QRect(0, 0, 232, 300) : QRect(248, 0, 232, 300);
    EXPECT_EQ(different_pixels(cut.copy(gone), ground.copy(gone)), 0);
    // A section shows insides, so a few pixels at open spring ends may change there too.
    EXPECT_LT(different_pixels(cut.copy(kept), whole.copy(kept)), 40);
    EXPECT_GT(different_pixels(whole.copy(gone), ground.copy(gone)), 5000);
}

TEST_F(RendererTest, a_tube_is_seen_through) {
    frame.show.selected = intake_3;
    frame.show.others = Others::hidden;
    frame.show.shared_parts = frame.show.pistons = false;
    frame.camera = framed(frame.camera, scene->outline_E(intake_3), frame.size);
    const QImage with_glass = drawn(frame);
    frame.palette.materials[static_cast<std::size_t>(Material::glass)].setAlpha(0);
    const QImage without = drawn(frame);
    const Segment rod = *scene->rod_E(intake_3, frame.crank);
    const auto at = projected(frame.camera, frame.size, rod.at(0.6));
    const QColor through = with_glass.pixelColor(static_cast<int>(at->x), static_cast<int>(at->y));
    const QColor bare = without.pixelColor(static_cast<int>(at->x), static_cast<int>(at->y));
    EXPECT_NE(through, bare) << "the glass tints the rod";
    const int off = std::abs(through.red() - bare.red()) +
                    std::abs(through.green() - bare.green()) +
                    std::abs(through.blue() - bare.blue());
    EXPECT_LT(off, 200) << "and doesn't hide it";
}

TEST_F(RendererTest, the_swept_space_is_drawn_for_the_selected_rod_only_on_request) {
    frame.show.selected = intake_3;
    frame.show.others = Others::hidden;
    frame.camera = framed(frame.camera, scene->outline_E(intake_3), frame.size);
    const QImage without = drawn(frame);
    frame.show.rod_sweep = true;
    EXPECT_GT(different_pixels(without, drawn(frame)), 1000);
}

TEST_F(RendererTest, a_size_beyond_the_card_is_an_error) {
    frame.size = {200000, 100};
    const Result<QImage> picture = test_renderer().draw(frame);
    ASSERT_FALSE(picture);
    EXPECT_EQ(picture.error().code, ErrorCode::no_graphics);
    frame.size = {320, 200};
    EXPECT_TRUE(test_renderer().draw(frame)) << "and the next picture is drawn again";
}

} // namespace
} // namespace rodway
