#include "core/valvetrain/preload_turns.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "core/units/length.h"
#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

constexpr double pitch_mm = 25.4 / 24.0; // 3/8-24

double in(double mm) {
    return Length::mm(mm).in_inches();
}

// Question 11. 3/4 turn at 24 threads an inch: .03125 in of nut, at ratio 1.5 1 + 1/1.5 times that
// at the rod's seat (arithmetic; the rule is common practice). An eighth of a turn of doubt.
TEST(PreloadTurns, ThreeQuartersOfATurnByNutAndByScrew) {
    const Interval turns = Interval::about(0.75, 0.125);
    const auto nut = preload_for_turns({PreloadThread::fulcrum_nut, pitch_mm, 1.5}, turns);
    ASSERT_TRUE(nut.ok());
    EXPECT_NEAR(nut->lever, 5.0 / 3.0, 1e-12);
    EXPECT_NEAR(in(nut->preload_mm.middle()), 0.0520833, 5e-8);
    EXPECT_NEAR(in(nut->preload_mm.half_width()), 0.0520833 / 6.0, 5e-8);
    EXPECT_FALSE(nut->travel_left_mm.has_value());
    EXPECT_EQ(standing(nut->preload_mm, usual_preload_mm()), BandStanding::may_be_above);
    const auto screw = preload_for_turns({PreloadThread::rocker_screw, pitch_mm, 0.0}, turns);
    ASSERT_TRUE(screw.ok()) << "a screw doesn't ask for the ratio";
    EXPECT_NEAR(in(screw->preload_mm.middle()), 0.03125, 1e-9);
    EXPECT_EQ(standing(screw->preload_mm, usual_preload_mm()), BandStanding::inside);
    EXPECT_EQ(usual_preload_mm().source, FigureSource::common_practice);
}

TEST(PreloadTurns, APlungerMayBeTurnedOntoItsBottom) {
    const PreloadTurning turning{PreloadThread::fulcrum_nut, pitch_mm, 1.5};
    const auto turned =
        preload_for_turns(turning, Interval::exactly(2.0), Interval::about(3.5, 0.1));
    EXPECT_NEAR(turned->travel_left_mm->low, 3.4 - 2.0 * pitch_mm * 5.0 / 3.0, 1e-12);
    EXPECT_LT(turned->travel_left_mm->low, 0.0);
    EXPECT_GT(turned->travel_left_mm->high, 0.0);
}

TEST(PreloadTurns, TurnsAndPreloadAreEachOthersInverse) {
    for (const PreloadThread thread : {PreloadThread::fulcrum_nut, PreloadThread::rocker_screw}) {
        const PreloadTurning turning{thread, 1.0, 1.7};
        const auto turns = turns_for_preload(turning, {0.5, 1.5});
        ASSERT_TRUE(turns.ok());
        const auto back = preload_for_turns(turning, *turns);
        EXPECT_NEAR(back->preload_mm.low, 0.5, 1e-12);
        EXPECT_NEAR(back->preload_mm.high, 1.5, 1e-12);
    }
}

// Invented trains in a plane, level rockers, rods upright: the closed train is exact, the lever
// bends by a few parts in a hundred.
TEST(PreloadTurns, IsNearWhatTheClosedTrainSays) {
    for (const double ratio : {1.4, 1.6, 1.8}) {
        Train train;
        train.lifter.foot_K = Vec3(0.0, -22.0, 100.0);
        train.lifter.seat_height_mm = 40.0;
        train.lifter.kind = LifterKind::hydraulic;
        train.lifter.plunger_travel_mm = 5.0;
        train.lifter.preload_mm = 0.5;
        train.rocker.mount = RockerMount::stud;
        train.rocker.pivot_K = Vec3(0.0, 0.0, 340.0);
        train.rocker.ball_arm_K = Vec3(0.0, -22.0, -1.0);
        train.rocker.tip_arm_K = Vec3(0.0, 22.0 * ratio, -1.0);
        train.rod.length_mm = 199.5;
        train.adjuster.kind = AdjusterKind::nut;
        train.adjuster.axis_K = -Vec3::UnitZ();
        train.adjuster.can_go_in_mm = 5.0;
        train.adjuster.can_go_out_mm = 5.0;
        const auto exact = turn_adjuster(train, pitch_mm / 2.0);
        ASSERT_TRUE(exact.preload_mm.has_value());
        const auto rule = preload_for_turns({PreloadThread::fulcrum_nut, pitch_mm, ratio},
                                            Interval::exactly(0.5));
        EXPECT_NEAR(*exact.preload_mm - 0.5, rule->preload_mm.middle(),
                    0.05 * rule->preload_mm.middle())
            << ratio;
        train.rocker.mount = RockerMount::shaft;
        train.adjuster.kind = AdjusterKind::screw;
        const auto screwed = turn_adjuster(train, pitch_mm / 2.0);
        ASSERT_TRUE(screwed.preload_mm.has_value());
        const auto plain = preload_for_turns({PreloadThread::rocker_screw, pitch_mm, ratio},
                                             Interval::exactly(0.5));
        EXPECT_NEAR(*screwed.preload_mm - 0.5, plain->preload_mm.middle(), 0.005);
    }
}

TEST(PreloadTurns, BadInputIsNamed) {
    const PreloadTurning good{PreloadThread::fulcrum_nut, 1.0, 1.5};
    const Interval turns = Interval::exactly(0.75);
    EXPECT_EQ(preload_for_turns({PreloadThread::fulcrum_nut, 1.0, 0.0}, turns).error().field,
              "ratio");
    EXPECT_EQ(preload_for_turns({PreloadThread::rocker_screw, 0.0, 0.0}, turns).error().field,
              "pitch");
    EXPECT_EQ(preload_for_turns(good, {0.5, 21.0}).error().field, "turns");
    EXPECT_EQ(preload_for_turns(good, turns, Interval{-1.0, 1.0}).error().field, "plunger_travel");
    EXPECT_EQ(turns_for_preload(good, {1.0, std::nan("")}).error().field, "preload");
}

} // namespace
} // namespace rodway
