#include "core/clearance/engine_parameter.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/valvetrain/adjuster_setting.h"
#include "tests/core/clearance/one_train_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261125;

Train a_train() {
    std::mt19937_64 random(seed);
    return twins::random_train(random).train;
}

double tip_along_valve(const Train& train) {
    return train.valve.axis_K.dot(train.rocker.pivot_K + train.rocker.tip_arm_K);
}

// Rounding of coordinates of some 400 mm: below 1e-12.
constexpr double rounding_mm = 1e-11;

TEST(EngineParameter, MovesWhatItSaysAndNothingElseOfTheLifter) {
    const Train before = a_train();
    const auto lower = [&](ParameterKind kind) {
        return Vec3(with_change(before, kind, 0.1, 1.0)->lifter.lower_ball_K() -
                    before.lifter.lower_ball_K());
    };
    const Vec3& a = before.lifter.axis_K;
    EXPECT_NEAR((lower(ParameterKind::lifter_height) - 0.1 * a).norm(), 0.0, rounding_mm);
    EXPECT_NEAR((lower(ParameterKind::base_circle) - 0.1 * a).norm(), 0.0, rounding_mm);
    for (const ParameterKind kind :
         {ParameterKind::lifter_rearward, ParameterKind::lifter_outboard}) {
        EXPECT_NEAR(lower(kind).norm(), 0.1, rounding_mm);
        EXPECT_NEAR(lower(kind).dot(a), 0.0, rounding_mm);
    }
    EXPECT_GT(lower(ParameterKind::lifter_rearward).x(), 0.09);
    EXPECT_GT(lower(ParameterKind::lifter_outboard).y(), 0.09);
    // On the other bank outboard is the other way.
    const auto other = with_change(before, ParameterKind::lifter_outboard, 0.1, -1.0);
    EXPECT_LT((other->lifter.foot_K - before.lifter.foot_K).y(), -0.09);
    const auto leaned = with_change(before, ParameterKind::lifter_lean_rearward, 0.1, 1.0);
    EXPECT_EQ(leaned->lifter.foot_K, before.lifter.foot_K);
    EXPECT_NEAR(leaned->lifter.axis_K.norm(), 1.0, 1e-15);
    EXPECT_NEAR(std::acos(leaned->lifter.axis_K.dot(a)), 0.1, 1e-12);
    EXPECT_GT(leaned->lifter.axis_K.x(), a.x());
    EXPECT_GT(with_change(before, ParameterKind::lifter_lean_outboard, 0.1, 1.0)->lifter.axis_K.y(),
              a.y());
}

TEST(EngineParameter, TheTipKeepsItsGapToTheValveWhateverIsDoneToTheRocker) {
    const Train before = a_train();
    for (const ParameterKind kind :
         {ParameterKind::pivot_height, ParameterKind::pivot_outboard, ParameterKind::pivot_rearward,
          ParameterKind::tip_arm_length, ParameterKind::ball_arm_length}) {
        const auto after = with_change(before, kind, 0.5, 1.0);
        ASSERT_TRUE(after.has_value());
        EXPECT_NEAR(tip_along_valve(*after), tip_along_valve(before), rounding_mm);
        const bool tip = kind == ParameterKind::tip_arm_length;
        const bool ball = kind == ParameterKind::ball_arm_length;
        const Vec3& n = before.rocker.axis_K;
        const auto across = [&](const Vec3& arm) { return arm.cross(n).norm(); };
        EXPECT_NEAR(across(after->rocker.tip_arm_K) - across(before.rocker.tip_arm_K),
                    tip ? 0.5 : 0.0, rounding_mm);
        EXPECT_NEAR(across(after->rocker.ball_arm_K) - across(before.rocker.ball_arm_K),
                    ball ? 0.5 : 0.0, rounding_mm);
        // A screw turns with its rocker.
        EXPECT_NEAR(
            after->adjuster.axis_K.dot(after->rocker.tip_arm_K),
            before.adjuster.axis_K.dot(before.rocker.tip_arm_K) +
                (tip ? 0.5 * before.adjuster.axis_K.dot(unit_across(before.rocker.tip_arm_K, n))
                     : 0.0),
            rounding_mm);
    }
    const auto more_lash = with_change(before, ParameterKind::lash, 0.2, 1.0);
    EXPECT_NEAR(tip_along_valve(*more_lash), tip_along_valve(before) + 0.2, rounding_mm);
    EXPECT_NEAR(more_lash->valve.lash_mm, before.valve.lash_mm + 0.2, rounding_mm);
    // A pivot raised by half a millimetre turns the rocker: its arms don't stay as they were.
    EXPECT_GT((with_change(before, ParameterKind::pivot_height, 0.5, 1.0)->rocker.ball_arm_K -
               before.rocker.ball_arm_K)
                  .norm(),
              0.1);
}

TEST(EngineParameter, AShaftsRearEndGoesUpWhicheverWayItsAxisPoints) {
    Train train = a_train();
    for (int way = 0; way < 2; ++way) {
        const auto up = with_change(train, ParameterKind::shaft_tilt_up, 0.01, 1.0);
        const auto out = with_change(train, ParameterKind::shaft_tilt_outboard, 0.01, 1.0);
        const double rear = train.rocker.axis_K.x() > 0.0 ? 1.0 : -1.0;
        EXPECT_GT(rear * (up->rocker.axis_K - train.rocker.axis_K).z(), 0.009);
        EXPECT_GT(rear * (out->rocker.axis_K - train.rocker.axis_K).y(), 0.009);
        EXPECT_NEAR(tip_along_valve(*up), tip_along_valve(train), rounding_mm);
        train.rocker.axis_K = -train.rocker.axis_K;
    }
}

// Second method: the screw is moved by itself, and the train closed by `turn_adjuster`'s own lash.
TEST(EngineParameter, ATurnedAdjusterStandsWhereItWasTurnedTo) {
    const Train before = a_train();
    const double in = Linkage::close(before).linkage->adjuster_in_mm();
    const auto after = with_change(before, ParameterKind::adjuster, -0.1, 1.0);
    ASSERT_TRUE(after.has_value());
    EXPECT_NEAR(Linkage::close(*after).linkage->adjuster_in_mm(), in - 0.1,
                2.0 * accuracy::setting_mm);
    EXPECT_NEAR(after->valve.lash_mm, *turn_adjuster(before, -0.1).lash_mm, rounding_mm);
    Train hydraulic = before;
    hydraulic.lifter.kind = LifterKind::hydraulic;
    hydraulic.lifter.preload_mm = 1.0;
    hydraulic.lifter.plunger_travel_mm = 4.0;
    hydraulic.rod.length_mm += 1.0;
    const auto deeper = with_change(hydraulic, ParameterKind::adjuster, 0.1, 1.0);
    ASSERT_TRUE(deeper.has_value());
    EXPECT_GT(deeper->lifter.preload_mm, 1.05);
    EXPECT_NEAR(Linkage::close(*deeper).linkage->adjuster_in_mm(),
                Linkage::close(hydraulic).linkage->adjuster_in_mm() + 0.1,
                2.0 * accuracy::setting_mm);
}

TEST(EngineParameter, OneValveOrAllTheirLobesToo) {
    const Engine engine = demo_engine("v8-port-tubes");
    const ValvePosition valve = engine.trains[3].position;
    const auto one = with_change(engine, {ParameterKind::base_circle, valve}, 0.5);
    const auto all = with_change(engine, {ParameterKind::base_circle}, 0.5);
    ASSERT_TRUE(one && all);
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& before = engine.trains[at];
        const auto moved = [&](const Engine& changed) {
            return (changed.trains[at].lifter.foot_K - before.lifter.foot_K).norm();
        };
        const auto radius = [&](const Engine& changed) {
            return changed.lobes(before.position).base_circle_radius_mm -
                   engine.lobes(before.position).base_circle_radius_mm;
        };
        EXPECT_NEAR(moved(*one), at == 3 ? 0.5 : 0.0, rounding_mm);
        EXPECT_NEAR(radius(*one), at == 3 ? 0.5 : 0.0, rounding_mm);
        EXPECT_NEAR(moved(*all), 0.5, rounding_mm);
        EXPECT_NEAR(radius(*all), 0.5, rounding_mm);
    }
    const auto lift = with_change(engine, {ParameterKind::lobe_lift, valve}, 0.25);
    const Lobe& before = engine.lobes(valve).lobe;
    const Lobe& after = lift->lobes(valve).lobe;
    EXPECT_NEAR(after.full_lift_mm(), before.full_lift_mm() + 0.25, rounding_mm);
    const CamAngle half = CamAngle::deg(30.0);
    EXPECT_NEAR(after.lift_mm(half) / before.lift_mm(half),
                after.full_lift_mm() / before.full_lift_mm(), 1e-12);
    EXPECT_EQ(lift->lobes(engine.trains[4].position).lobe.full_lift_mm(),
              engine.lobes(engine.trains[4].position).lobe.full_lift_mm());
    EXPECT_NEAR(with_change(engine, {ParameterKind::lash, valve}, 0.1)->lobes(valve).lash_mm,
                engine.lobes(valve).lash_mm + 0.1, rounding_mm);
}

TEST(EngineParameter, AHeadGasketLiftsTheHeadAndPushesTheIntakeOutByItsFacesSlope) {
    Train train = a_train();
    Engine engine = engine_around(train, 8.0);
    engine.obstacles.push_back(
        {"bolt", ObstacleKind::plane, Casting::head, 0, HalfSpace{Vec3(1, 2, 3), Vec3::UnitZ()}});
    engine.obstacles.push_back(
        {"rib", ObstacleKind::plane, Casting::block, 0, HalfSpace{Vec3(1, 2, 3), Vec3::UnitZ()}});
    const auto raised = with_change(engine, {ParameterKind::head_gasket, {}, 0}, 0.4);
    ASSERT_TRUE(raised.has_value());
    EXPECT_NEAR(
        (raised->trains[0].rocker.pivot_K - train.rocker.pivot_K - 0.4 * Vec3::UnitZ()).norm(), 0.0,
        rounding_mm);
    // The rocker goes up with its valve, so it doesn't turn.
    EXPECT_EQ(raised->trains[0].rocker.tip_arm_K, train.rocker.tip_arm_K);
    EXPECT_EQ(raised->trains[0].lifter.foot_K, train.lifter.foot_K);
    const auto height = [&](std::size_t at) {
        return std::get<HalfSpace>(*raised->solid_in_place(raised->obstacles[at])).point_K.z();
    };
    EXPECT_NEAR(height(0), 3.4, rounding_mm);
    EXPECT_EQ(height(1), 3.0);
    // n·d on the raised head's face is what the face itself went out, 0.4·n_z; on the other, none.
    const Vec3 moved = *raised->intake_movement_K(0) - *engine.intake_movement_K(0);
    EXPECT_NEAR(engine.flanges[0]->normal_K.dot(moved), 0.4 * engine.flanges[0]->normal_K.z(),
                rounding_mm);
    const Vec3 other = *raised->intake_movement_K(1) - *engine.intake_movement_K(1);
    const Vec3 without_x(0.0, engine.flanges[1]->normal_K.y(), engine.flanges[1]->normal_K.z());
    EXPECT_NEAR(without_x.dot(other), 0.0, rounding_mm);
}

TEST(EngineParameter, PassagesAndObstaclesAreChangedByName) {
    Engine engine = engine_around(a_train(), 8.0);
    Passage hole = engine.trains[0].tube;
    hole.name = "hole";
    engine.trains[0].further_passages = {hole};
    engine.obstacles.push_back({"bolt", ObstacleKind::cylinder, Casting::head, 0,
                                RoundBar{Vec3::Zero(), Vec3(0, 0, 9), 4.0}});
    const auto wider = with_change(engine, {ParameterKind::passage_bore, {}, 0, "hole"}, 0.5);
    EXPECT_NEAR(wider->trains[0].further_passages[0].bore.bore_radius_mm,
                hole.bore.bore_radius_mm + 0.25, rounding_mm);
    EXPECT_EQ(wider->trains[0].tube.bore.bore_radius_mm, hole.bore.bore_radius_mm);
    const auto slid = with_change(engine, {ParameterKind::passage_slide, {}, 0, "tube"}, 0.5);
    EXPECT_NEAR((slid->trains[0].tube.bore.centre_K - hole.bore.centre_K).dot(hole.bore.axis_K),
                0.5, rounding_mm);
    const auto leaned =
        with_change(engine, {ParameterKind::passage_lean_outboard, {}, 0, "tube"}, 0.01);
    EXPECT_GT((leaned->trains[0].tube.bore.axis_K - hole.bore.axis_K).y(), 0.009);
    EXPECT_EQ(leaned->trains[0].tube.bore.centre_K, hole.bore.centre_K);
    const EngineParameter away{ParameterKind::obstacle_away, {}, 0, "bolt", Vec3::UnitY()};
    EXPECT_NEAR(std::get<RoundBar>(with_change(engine, away, 0.5)->obstacles[0].solid).to_K.y(),
                0.5, rounding_mm);
}

TEST(EngineParameter, ALongerRodKeepsItsProfileAndItsEndsThickness) {
    Train train = a_train();
    const double L = train.rod.length_mm;
    train.rod.profile = {{0.0, 50.0, 9.0, 8.0}, {50.0, L, 7.0, 6.0}};
    const auto longer = with_change(train, ParameterKind::rod_length, 2.0, 1.0);
    ASSERT_EQ(longer->rod.profile.size(), 3U);
    EXPECT_EQ(longer->rod.profile[1].to_mm, L);
    EXPECT_EQ(longer->rod.profile[2].to_mm, L + 2.0);
    EXPECT_EQ(longer->rod.profile[2].diameter_from_mm, 6.0);
    EXPECT_EQ(longer->rod.profile[2].diameter_to_mm, 6.0);
    EXPECT_EQ(with_change(train, ParameterKind::rod_length, -2.0, 1.0)->rod.profile.size(), 2U);
    const auto thicker = with_change(train, ParameterKind::rod_diameter, 0.5, 1.0);
    EXPECT_EQ(thicker->rod.diameter_mm, train.rod.diameter_mm + 0.5);
    EXPECT_EQ(thicker->rod.profile[0].diameter_from_mm, 9.5);
    EXPECT_EQ(thicker->rod.profile[1].diameter_to_mm, 6.5);
}

TEST(EngineParameter, WhatThereIsNotCantBeChanged) {
    Train train = a_train();
    const Engine engine = engine_around(train, 8.0);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(with_change(engine, {ParameterKind::lifter_height}, nan));
    EXPECT_FALSE(with_change(train, ParameterKind::lifter_height, nan, 1.0));
    EXPECT_FALSE(with_change(engine, {ParameterKind::lobe_lift}, -100.0));
    EXPECT_FALSE(with_change(engine, {ParameterKind::passage_bore, {}, 0, "no such"}, 0.1));
    EXPECT_FALSE(with_change(engine, {ParameterKind::obstacle_away, {}, 0, "no such"}, 0.1));
    EXPECT_FALSE(with_change(engine, {ParameterKind::intake_gasket, {}, 7}, 0.1));
    EXPECT_FALSE(with_change(engine, {ParameterKind::head_gasket, {}, 7}, 0.1));
    EXPECT_FALSE(with_change(engine, {ParameterKind::lash, ValvePosition{5}}, 0.1));
    EXPECT_FALSE(with_change(train, ParameterKind::intake_gasket, 0.1, 1.0));
    // A tip that would have to be farther off than its arm is long.
    EXPECT_FALSE(with_change(train, ParameterKind::pivot_height, 200.0, 1.0));
    train.adjuster.kind = AdjusterKind::none;
    EXPECT_FALSE(with_change(train, ParameterKind::adjuster, 0.1, 1.0));
    train.lifter.kind = LifterKind::hydraulic;
    EXPECT_FALSE(with_change(train, ParameterKind::lash, 0.1, 1.0));
}

} // namespace
} // namespace rodway
