// Pictures against kept ones. `RODWAY_NEW_BASELINES=folder` writes them all there, to be looked at
// and, if right, kept in tests/render/baselines.
#include <gtest/gtest.h>

#include <QDir>
#include <algorithm>
#include <cstdlib>
#include <functional>

#include "render/look.h"
#include "render/offscreen_picture.h"
#include "tests/render/pictures.h"
#include "tests/render/varied_engine.h"

namespace rodway {
namespace {

/// Every text is left out: fonts differ from machine to machine.
struct View {
    const char* name;
    std::function<PictureRequest()> request;
};

void PrintTo(const View& view, std::ostream* out) {
    *out << view.name;
}

/// Pictures are kept and compared in 32 steps of each colour, which takes half the room.
constexpr int colour_step = 8;

/// One processor's vector arithmetic rounds a colour or an edge's sample otherwise than another's,
/// and so do two builds of the software renderer: a colour may be off by one step, and this share
/// of the pixels by more. On one machine the pictures are the same to the byte.
constexpr int channel_off = colour_step;
constexpr double share_off = 0.001;

constexpr PictureSize small{400, 250};
const ValvePosition intake_1{1, ValveKind::intake, 1};
const ValvePosition exhaust_1{1, ValveKind::exhaust, 1};
const ValvePosition intake_3{3, ValveKind::intake, 1};
const ValvePosition exhaust_3{3, ValveKind::exhaust, 1};

/// On an even ground, which a PNG keeps in few bytes.
Palette plain(Theme theme) {
    Palette palette = palette_for(theme);
    palette.paper_high = palette.paper;
    return palette;
}

std::shared_ptr<const Scene> vee() {
    static const auto scene = Scene::build(sample_engine());
    return scene;
}
std::shared_ptr<const Scene> backward_vee() {
    static const auto scene =
        Scene::build(sample_engine({Arrangement::vee, 8, Turning::counter_clockwise}));
    return scene;
}
std::shared_ptr<const Scene> six() {
    static const auto scene =
        Scene::build(sample_engine({Arrangement::inline_row, 6, Turning::clockwise}));
    return scene;
}
std::shared_ptr<const Scene> flat_four() {
    static const auto scene =
        Scene::build(sample_engine({Arrangement::flat, 4, Turning::clockwise}));
    return scene;
}
std::shared_ptr<const Scene> varied() {
    static const auto scene = Scene::build(varied_engine());
    return scene;
}
/// A rod so short that its adjuster can't reach it.
std::shared_ptr<const Scene> open_train() {
    static const auto scene = [] {
        Engine engine = sample_engine();
        for (Train& train : engine.trains) {
            if (train.position == intake_3) {
                train.rod.length_mm -= 20.0;
            }
        }
        return Scene::build(engine);
    }();
    return scene;
}

PictureRequest whole(std::shared_ptr<const Scene> scene, Look look, double crank_deg = 0.0) {
    PictureRequest request;
    request.frame.scene = std::move(scene);
    request.frame.palette = plain(Theme::light);
    request.frame.size = small;
    request.frame.crank = CrankAngle::deg(crank_deg);
    request.frame.camera = looked_at(*request.frame.scene, look, {}, request.frame.crank, small);
    return request;
}

/// One train, the crank so far from its full lift.
PictureRequest train(std::shared_ptr<const Scene> scene, const ValvePosition& valve, Look look,
                     double from_full_deg, Others others = Others::faded) {
    PictureRequest request = whole(std::move(scene), look);
    Frame& frame = request.frame;
    frame.crank =
        (frame.scene->engine().full_lift_angle(valve) + CrankAngle::deg(from_full_deg)).in_cycle();
    frame.show.selected = valve;
    frame.show.others = others;
    frame.camera = looked_at(*frame.scene, look, valve, frame.crank, small);
    return request;
}

PictureRequest with(PictureRequest request, const std::function<void(Frame&)>& change) {
    change(request.frame);
    return request;
}

/// Cut open through a rod, seen from `look`.
PictureRequest cut_open(std::shared_ptr<const Scene> scene, const ValvePosition& valve, Look look,
                        Cut cut, double by_mm) {
    return with(train(std::move(scene), valve, look, 0.0), [&](Frame& frame) {
        frame.show.section = section_of(*frame.scene, cut, valve, frame.camera, by_mm);
    });
}

PictureRequest every_state() {
    return with(whole(vee(), Look::corner), [](Frame& frame) {
        std::size_t at = 0;
        for (const Train& each : frame.scene->engine().trains) {
            frame.show.states[each.position] = static_cast<CheckState>(at++ % check_state_count);
        }
    });
}

PictureRequest hatching_near() {
    return with(train(six(), intake_3, Look::left, 0.0, Others::shown), [](Frame& frame) {
        std::size_t at = 0;
        for (const Train& each : frame.scene->engine().trains) {
            frame.show.states[each.position] = static_cast<CheckState>(at++ % check_state_count);
        }
        frame.show.selected.reset();
    });
}

PictureRequest closest_with_lens() {
    PictureRequest request = train(vee(), intake_3, Look::corner, 0.0);
    const Vec3 spot = request.frame.scene->rod_E(intake_3, request.frame.crank)->at(0.55);
    request.closest = ClosestSpot{intake_3, {}, spot, spot + Vec3(0.0, -1.6, 0.0)};
    return request;
}

std::vector<View> views_of_vee() {
    return {
        {"v8_corner", [] { return whole(vee(), Look::corner); }},
        {"v8_corner_half_a_turn_on", [] { return whole(vee(), Look::corner, 180.0); }},
        {"v8_moving",
         [] { return with(whole(vee(), Look::corner), [](Frame& f) { f.smooth = false; }); }},
        {"v8_front", [] { return whole(vee(), Look::front); }},
        {"v8_front_turning_the_other_way", [] { return whole(backward_vee(), Look::front, 40.0); }},
        {"v8_rear", [] { return whole(vee(), Look::rear); }},
        {"v8_left", [] { return whole(vee(), Look::left); }},
        {"v8_right", [] { return whole(vee(), Look::right); }},
        {"v8_above", [] { return whole(vee(), Look::above); }},
        {"v8_every_state", every_state},
        {"six_hatching_near", hatching_near},
        {"v8_dark",
         [] {
             return with(train(vee(), intake_3, Look::corner, 0.0),
                         [](Frame& f) { f.palette = plain(Theme::dark); });
         }},
        {"v8_train_on_the_heel", [] { return train(vee(), intake_3, Look::corner, 360.0); }},
        {"v8_train_opening", [] { return train(vee(), intake_3, Look::corner, -60.0); }},
        {"v8_train_full_lift", [] { return train(vee(), intake_3, Look::corner, 0.0); }},
        {"v8_train_front",
         [] { return train(vee(), exhaust_3, Look::front, 0.0, Others::hidden); }},
        {"v8_swept_space",
         [] {
             return with(train(vee(), intake_3, Look::front, 360.0, Others::hidden),
                         [](Frame& f) { f.show.rod_sweep = true; });
         }},
        {"v8_along_the_rod_rocker_as_glass",
         [] {
             return with(train(vee(), intake_3, Look::along_rod, 0.0),
                         [](Frame& f) { f.show.rockers = Rockers::glass; });
         }},
        {"v8_along_the_rod_without_rocker",
         [] {
             return with(train(vee(), intake_3, Look::along_rod, 0.0, Others::hidden),
                         [](Frame& f) { f.show.rockers = Rockers::hidden; });
         }},
        {"v8_cut_across_the_crank",
         [] { return cut_open(vee(), intake_3, Look::front, Cut::across_crank, 0.0); }},
        {"v8_cut_along_the_crank",
         [] { return cut_open(vee(), intake_3, Look::left, Cut::along_crank, 0.0); }},
        {"v8_cut_across_the_rod",
         [] { return cut_open(vee(), intake_3, Look::corner, Cut::across_rod, 0.0); }},
        {"v8_cut_moved_back",
         [] { return cut_open(vee(), intake_3, Look::front, Cut::across_crank, -2.5); }},
        {"v8_train_that_does_not_close",
         [] { return train(open_train(), intake_3, Look::corner, 0.0); }},
        {"v8_closest_point_and_lens", closest_with_lens},
    };
}

std::vector<View> views_of_others() {
    return {
        {"six_corner", [] { return whole(six(), Look::corner); }},
        {"six_left", [] { return whole(six(), Look::left, 90.0); }},
        {"six_train", [] { return train(six(), exhaust_3, Look::left, 0.0); }},
        {"flat_corner", [] { return whole(flat_four(), Look::corner); }},
        {"flat_front", [] { return whole(flat_four(), Look::front, 270.0); }},
        {"flat_train", [] { return train(flat_four(), intake_3, Look::corner, 0.0); }},
        {"stepped_rod_in_obround_tube",
         [] { return train(varied(), intake_1, Look::left, 0.0, Others::hidden); }},
        {"stepped_rod_swept_space",
         [] {
             return with(train(varied(), intake_1, Look::front, 0.0, Others::hidden),
                         [](Frame& f) { f.show.rod_sweep = true; });
         }},
        {"down_an_obround_tube",
         [] {
             return with(train(varied(), intake_1, Look::along_rod, 0.0),
                         [](Frame& f) { f.show.rockers = Rockers::glass; });
         }},
        {"rocker_on_a_stud_with_roller_lifter",
         [] { return train(varied(), exhaust_1, Look::front, 0.0, Others::hidden); }},
        {"ball_pivot_rod_with_cup",
         [] { return train(varied(), intake_3, Look::front, 0.0, Others::hidden); }},
        {"stated_spring_and_rocker_body",
         [] { return train(varied(), exhaust_3, Look::front, -40.0, Others::hidden); }},
        {"what_stands_beside",
         [] { return train(varied(), intake_1, Look::above, 0.0, Others::hidden); }},
    };
}

std::vector<View> all_views() {
    std::vector<View> views = views_of_vee();
    const std::vector<View> others = views_of_others();
    views.insert(views.end(), others.begin(), others.end());
    return views;
}

QImage in_steps(const QImage& picture) {
    QImage coarse = picture.convertToFormat(QImage::Format_RGB32);
    constexpr QRgb kept = 0xff000000u | 0x010101u * (256 - colour_step);
    for (int y = 0; y < coarse.height(); ++y) {
        for (int x = 0; x < coarse.width(); ++x) {
            coarse.setPixel(x, y, coarse.pixel(x, y) & kept);
        }
    }
    return coarse;
}

int farthest_channel(QRgb one, QRgb other) {
    return std::max({std::abs(qRed(one) - qRed(other)), std::abs(qGreen(one) - qGreen(other)),
                     std::abs(qBlue(one) - qBlue(other))});
}

/// What differs, from white (nothing) to black, and how many pixels do by more than they may.
struct Difference {
    QImage picture;
    int pixels = 0;
};

Difference difference_of(const QImage& one, const QImage& other) {
    Difference difference{QImage(one.size(), QImage::Format_Grayscale8), 0};
    for (int y = 0; y < one.height(); ++y) {
        for (int x = 0; x < one.width(); ++x) {
            const int off = farthest_channel(one.pixel(x, y), other.pixel(x, y));
            difference.pixels += off > channel_off ? 1 : 0;
            difference.picture.scanLine(y)[x] =
                static_cast<uchar>(off == 0 ? 255 : std::max(0, 200 - 2 * off));
        }
    }
    return difference;
}

class Baseline : public testing::TestWithParam<View> {};

TEST_P(Baseline, picture_is_the_one_kept) {
    const QString name = QString::fromUtf8(GetParam().name) + ".png";
    if (!test_renderer().in_software() ||
        test_renderer().graphics_name().find("llvmpipe") == std::string::npos) {
        GTEST_SKIP() << "kept pictures are llvmpipe's; this is " << test_renderer().graphics_name();
    }
    const Result<QImage> drawn_now = offscreen_picture(test_renderer(), GetParam().request());
    ASSERT_TRUE(drawn_now);
    const QImage now = in_steps(*drawn_now);
    if (const char* folder = std::getenv("RODWAY_NEW_BASELINES")) {
        constexpr int smallest_file = 0;
        ASSERT_TRUE(now.save(QDir(folder).filePath(name), "PNG", smallest_file));
        GTEST_SKIP() << "written, not compared";
    }
    const QDir out(RODWAY_BASELINE_OUT);
    const QImage kept = QImage(RODWAY_TEST_DATA "/../render/baselines/" + name)
                            .convertToFormat(QImage::Format_RGB32);
    if (kept.size() != now.size()) {
        out.mkpath(".");
        now.save(out.filePath(name));
        FAIL() << "no kept picture of this size; left in " << out.path().toStdString();
    }
    const Difference difference = difference_of(now, kept);
    const double allowed = share_off * now.width() * now.height();
    if (difference.pixels > allowed) {
        out.mkpath(".");
        now.save(out.filePath(name));
        difference.picture.save(out.filePath("difference_" + name));
        FAIL() << difference.pixels << " pixels differ, " << allowed
               << " may; picture and difference left in " << out.path().toStdString();
    }
}

INSTANTIATE_TEST_SUITE_P(Views, Baseline, testing::ValuesIn(all_views()),
                         [](const auto& view) { return std::string(view.param.name); });

// A tolerance that let a small fault through would make all of the above worthless.
TEST(BaselineTolerance, tells_a_few_degrees_of_crank_and_a_missing_part_apart) {
    const auto differs = [](const PictureRequest& one, const PictureRequest& other) {
        const auto a = offscreen_picture(test_renderer(), one);
        const auto b = offscreen_picture(test_renderer(), other);
        return difference_of(in_steps(*a), in_steps(*b)).pixels >
               share_off * small.width * small.height;
    };
    const PictureRequest opening = train(vee(), intake_3, Look::corner, -60.0);
    EXPECT_FALSE(differs(opening, opening));
    EXPECT_TRUE(differs(opening, train(vee(), intake_3, Look::corner, -56.0)));
    EXPECT_TRUE(differs(whole(vee(), Look::corner), whole(vee(), Look::corner, 10.0)));
    PictureRequest without_passages = whole(vee(), Look::corner);
    without_passages.frame.show.castings = false;
    EXPECT_TRUE(differs(whole(vee(), Look::corner), without_passages));
}

} // namespace
} // namespace rodway
