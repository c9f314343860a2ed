#include "app/valvetrain/tube_pictures.h"

#include <gtest/gtest.h>

#include <QFile>
#include <cmath>
#include <numbers>

#include "core/engine/set_up.h"
#include "core/files/set_up_file.h"

namespace rodway {
namespace {

Engine demo_of(const char* file_name) {
    QFile file(QString(RODWAY_RESOURCES "/demo/") + file_name);
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    return *make_engine(*read_set_up_file(file.readAll().toStdString()));
}

/// The V8, its 3I given an obround tube with rounded edges, a stepped rod, and a hole of its own
/// below: whatever a passage may be.
Engine shaped_v8() {
    Engine engine = demo_of("v8-port-tubes.json");
    for (Train& train : engine.trains) {
        if (train.position != ValvePosition{3, ValveKind::intake, 1}) {
            continue;
        }
        Bore& bore = train.tube.bore;
        bore.half_straight_mm = 2.5;
        const Vec3 way = (Vec3::UnitX() + 0.6 * Vec3::UnitY()).normalized();
        bore.long_way_K = (way - way.dot(bore.axis_K) * bore.axis_K).normalized();
        bore.top_edge_radius_mm = 1.5;
        train.rod.profile = {{0.0, 150.0, 7.9375, 7.9375}, {150.0, train.rod.length_mm, 6.5, 6.0}};
        Passage hole;
        hole.name = "deck hole";
        hole.kind = PassageKind::drilled_hole;
        hole.casting = Casting::block;
        hole.bore = bore;
        hole.bore.half_straight_mm = 0.0;
        hole.bore.top_edge_radius_mm = 0.0;
        hole.bore.bore_radius_mm = 12.0;
        hole.bore.length_mm = 15.0;
        hole.bore.centre_K = bore.centre_K - 70.0 * bore.axis_K;
        train.further_passages.push_back(hole);
    }
    return engine;
}

/// What the picture's plane stands for: a point of it, in the bank's frame.
struct Plane {
    Vec3 middle_K, axis_K, twelve_K, three_K;

    /// By the definition: 12 o'clock is to the front, -x put square to the passage, and 3 o'clock
    /// lies to the right of one who looks from the rocker down.
    Plane(const Bore& bore, double depth_mm) : axis_K(bore.axis_K) {
        middle_K = bore.centre_K + (bore.length_mm / 2.0 - depth_mm) * axis_K;
        twelve_K = (-Vec3::UnitX() + Vec3::UnitX().dot(axis_K) * axis_K).normalized();
        three_K = (-axis_K).cross(twelve_K);
    }
    [[nodiscard]] Vec3 at(const Vec2& mm) const {
        return middle_K + mm.x() * three_K + mm.y() * twelve_K;
    }
};

double from_axis_mm(const Vec3& point, const Pose& pose) {
    const Vec3 along = (pose.upper_ball_K - pose.lower_ball_K).normalized();
    const Vec3 from = point - pose.lower_ball_K;
    return (from - from.dot(along) * along).norm();
}

Vec2 on_edge(const RodCut& cut, double angle) {
    const Vec2 aside(-cut.leans.y(), cut.leans.x());
    return cut.at_mm + cut.long_radius_mm * std::cos(angle) * cut.leans +
           cut.radius_mm * std::sin(angle) * aside;
}

double depth_of(std::size_t slice, std::size_t count, const Bore& bore, double middle) {
    return slice == 0 ? 0.0 : slice + 1 == count ? bore.length_mm : middle;
}

class TubePicture : public testing::TestWithParam<const char*> {};

// Every point of the rod's drawn edge lies on the rod: as far from its axis as it is thick there,
// at the crank angle asked for and no other.
TEST_P(TubePicture, draws_the_rod_where_the_linkage_has_it) {
    const Engine engine = GetParam() == std::string("shaped") ? shaped_v8() : demo_of(GetParam());
    const auto lines = *survey(engine);
    for (const Train& train : engine.trains) {
        const Linkage linkage = *Linkage::close(train).linkage;
        const RoundSections rod = rod_sections(train.rod);
        for (const double from_full : {0.0, -70.0, 360.0}) {
            const CrankAngle crank =
                engine.full_lift_angle(train.position) + CrankAngle::deg(from_full);
            const TubeChoice choice{train.position, 0, crank, {}};
            const TubeContent content = tube_content(engine, lines, choice);
            const Pose pose = *linkage.at(engine.lobe_lift_mm(train.position, crank));
            const Bore bore = *engine.tube_in_place(train);
            const double middle = middle_depth_mm(engine, lines, choice);
            ASSERT_EQ(content.slices.size(), 3u) << position_name(train.position);
            for (std::size_t at = 0; at < 3; ++at) {
                const Plane plane(bore, depth_of(at, 3, bore, middle));
                ASSERT_TRUE(content.slices[at].rod);
                for (int step = 0; step < 12; ++step) {
                    const Vec3 edge =
                        plane.at(on_edge(*content.slices[at].rod, step * std::numbers::pi / 6.0));
                    const Vec3 along = (pose.upper_ball_K - pose.lower_ball_K).normalized();
                    const double station =
                        (plane.at(content.slices[at].rod->at_mm) - pose.lower_ball_K).dot(along);
                    double radius = 0.0;
                    for (const RoundSection& section : rod) {
                        if (section.from_mm <= station && station <= section.to_mm) {
                            radius = std::max(radius, section.radius_at(station));
                        }
                    }
                    // Exact but for rounding: the edge of an oblique cut of a cylinder.
                    EXPECT_NEAR(from_axis_mm(edge, pose), radius, 1e-9);
                }
            }
        }
    }
}

// The closest mark stands where the certified minimum says: at its clock hour, as long as the
// clearance, and on an end of the tube.
TEST_P(TubePicture, marks_the_certified_minimum_at_its_clock_hour) {
    const Engine engine = GetParam() == std::string("shaped") ? shaped_v8() : demo_of(GetParam());
    const auto lines = *survey(engine);
    for (const ValveClearance& line : lines) {
        const TubeContent content =
            tube_content(engine, lines, {line.position, 0, CrankAngle{}, {}});
        const RodClearance& least = *line.all.front().minimum;
        ASSERT_TRUE(least.in_passage);
        int marks = 0;
        for (const TubeSlice& slice : content.slices) {
            if (!slice.closest) {
                continue;
            }
            ++marks;
            const Vec2& wall = slice.closest->wall_mm;
            double hours = 6.0 / std::numbers::pi * std::atan2(wall.x(), wall.y());
            hours = hours <= 0.0 ? hours + 12.0 : hours;
            EXPECT_NEAR(hours, least.in_passage->clock_hours, 1e-6);
            // The gap leans with the rod, by a few degrees: cos 8° is 0.99.
            const double gap = (wall - slice.closest->rod_mm).norm();
            EXPECT_NEAR(gap, least.clearance_mm, 0.02 * least.clearance_mm + 1e-6);
            EXPECT_TRUE(
                slice.closest->label.contains(QString::number(least.clearance_mm / 25.4, 'f', 3)));
        }
        EXPECT_EQ(marks, 1) << position_name(line.position);
        ASSERT_FALSE(content.notes.isEmpty());
        EXPECT_TRUE(content.notes[0].contains(QString::number(least.clearance_mm / 25.4, 'f', 3)));
    }
}

// All places of the turn keep the certified clearance from the wall, and one comes down to it where
// the mark is: the trace is of the whole turn, not of a part.
TEST_P(TubePicture, the_trace_stays_off_the_wall_by_the_minimum_and_reaches_it) {
    const Engine engine = GetParam() == std::string("shaped") ? shaped_v8() : demo_of(GetParam());
    const auto lines = *survey(engine);
    for (const ValveClearance& line : lines) {
        const Train& train = *engine.train(line.position);
        const Bore bore = *engine.tube_in_place(train);
        const TubeChoice choice{line.position, 0, CrankAngle{}, {}};
        const TubeContent content = tube_content(engine, lines, choice);
        const double middle = middle_depth_mm(engine, lines, choice);
        double least = 1e9;
        for (std::size_t at = 0; at < content.slices.size(); ++at) {
            const Plane plane(bore, depth_of(at, content.slices.size(), bore, middle));
            EXPECT_GT(content.slices[at].turn.size(), 20u);
            for (const RodCut& cut : content.slices[at].turn) {
                for (int step = 0; step < 48; ++step) {
                    const double angle = step * std::numbers::pi / 24.0;
                    least = std::min(least,
                                     signed_distance_to_wall(bore, plane.at(on_edge(cut, angle))));
                }
            }
        }
        const double certified = line.all.front().minimum->clearance_mm;
        // Points 7.5 degrees apart on the edge, 49 lifts: both miss the closest place by a little.
        EXPECT_GT(least, certified - 1e-6) << position_name(line.position);
        EXPECT_LT(least, certified + 0.12) << position_name(line.position);
    }
}

INSTANTIATE_TEST_SUITE_P(Engines, TubePicture,
                         testing::Values("v8-port-tubes.json", "inline-six.json", "flat-four.json",
                                         "shaped"));

TEST(TubePictures, an_obround_bore_has_its_long_way_and_a_rounded_mouth_opens) {
    const Engine engine = shaped_v8();
    const auto lines = *survey(engine);
    const ValvePosition valve{3, ValveKind::intake, 1};
    const TubeContent content = tube_content(engine, lines, {valve, 0, CrankAngle{}, 20.0});
    const Bore bore = *engine.tube_in_place(*engine.train(valve));
    ASSERT_EQ(content.slices.size(), 3u);
    // At the mouth a rounded edge has opened by its whole radius, deep down by nothing.
    EXPECT_NEAR(content.slices[0].bore.radius_mm, bore.bore_radius_mm + 1.5, 1e-12);
    EXPECT_NEAR(content.slices[1].bore.radius_mm, bore.bore_radius_mm, 1e-12);
    for (std::size_t at = 0; at < 3; ++at) {
        const BoreCut& cut = content.slices[at].bore;
        EXPECT_DOUBLE_EQ(cut.half_straight_mm, 2.5);
        const double depth = depth_of(at, 3, bore, 20.0);
        const Plane plane(bore, depth);
        // The end of the long way lies on the wall.
        const Vec2 end = (cut.half_straight_mm + cut.radius_mm) * cut.long_way_mm;
        EXPECT_NEAR(signed_distance_to_wall(bore, plane.at(end)), 0.0, 1e-9) << depth;
    }
}

TEST(TubePictures, every_further_passage_can_be_looked_down) {
    const Engine engine = shaped_v8();
    const auto lines = *survey(engine);
    const ValvePosition valve{3, ValveKind::intake, 1};
    EXPECT_EQ(passage_words(engine, valve).size(), 2);
    EXPECT_EQ(passage_words(engine, valve)[1], "deck hole");
    const TubeContent content = tube_content(engine, lines, {valve, 1, CrankAngle{}, {}});
    ASSERT_EQ(content.slices.size(), 3u);
    EXPECT_DOUBLE_EQ(content.slices[1].bore.radius_mm, 12.0);
    EXPECT_TRUE(content.heading.contains("deck hole"));
    const auto hole = std::find_if(lines.begin(), lines.end(), [&](const ValveClearance& line) {
        return line.position == valve;
    });
    const RodClearance& least = *hole->all[1].minimum;
    EXPECT_EQ(least.feature, "deck hole");
    EXPECT_TRUE(content.notes[0].contains(QString::number(least.clearance_mm / 25.4, 'f', 3)));
}

TEST(TubePictures, the_chosen_depth_is_where_it_is_cut) {
    const Engine engine = demo_of("v8-port-tubes.json");
    const auto lines = *survey(engine);
    const ValvePosition valve{3, ValveKind::intake, 1};
    const double length = engine.tube_in_place(*engine.train(valve))->length_mm;
    EXPECT_DOUBLE_EQ(middle_depth_mm(engine, lines, {valve, 0, CrankAngle{}, 12.7}), 12.7);
    EXPECT_DOUBLE_EQ(middle_depth_mm(engine, lines, {valve, 0, CrankAngle{}, 1e6}), length);
    EXPECT_DOUBLE_EQ(middle_depth_mm(engine, lines, {valve, 0, CrankAngle{}, -5.0}), 0.0);
    const TubeContent content = tube_content(engine, lines, {valve, 0, CrankAngle{}, 12.7});
    EXPECT_TRUE(content.slices[1].title.contains("0.5")) << content.slices[1].title.toStdString();
}

TEST(TubePictures, a_valve_without_a_tube_or_an_open_train_says_so) {
    Engine engine = demo_of("v8-port-tubes.json");
    const ValvePosition gone{2, ValveKind::exhaust, 1};
    const ValvePosition open{3, ValveKind::intake, 1};
    std::erase_if(engine.trains, [&](const Train& train) { return train.position == gone; });
    for (Train& train : engine.trains) {
        if (train.position == open) {
            train.rod.length_mm -= 40.0;
        }
    }
    const auto lines = *survey(engine);
    const TubeContent none = tube_content(engine, lines, {gone, 0, CrankAngle{}, {}});
    EXPECT_TRUE(none.slices.empty());
    EXPECT_TRUE(none.empty_text.contains("2E"));
    const TubeContent stuck = tube_content(engine, lines, {open, 0, CrankAngle{}, {}});
    EXPECT_TRUE(stuck.slices.empty());
    EXPECT_FALSE(stuck.empty_text.isEmpty());
    EXPECT_TRUE(passage_words(engine, gone).isEmpty());
}

} // namespace
} // namespace rodway
