#include "core/engine/engine.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "core/clearance/survey.h"
#include "core/units/typed_text.h"
#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;

/// Head milled .030 and a gasket .015 thinner, on every bank: lower by .045.
SetUpFields lowered(SetUpFields fields, const std::vector<std::string>& banks) {
    for (const std::string& bank : banks) {
        put(fields, "banks/" + bank + "/head/deck_face_milled", ".030");
        put(fields, "banks/" + bank + "/head/gasket", ".024");
        put(fields, "banks/" + bank + "/head/gasket_when_located", ".039");
    }
    return fields;
}

/// The places of what a head carries typed anew, .045 lower, as if they had been taken again.
SetUpFields located_again(SetUpFields fields) {
    for (auto& [path, value] : fields) {
        const auto ends_in = [&](const std::string& end) {
            return path.size() > end.size() &&
                   path.compare(path.size() - end.size(), end.size(), end) == 0;
        };
        const bool of_head =
            ends_in("/rocker/pivot/z") || ends_in("/valve/tip/z") ||
            (ends_in("/tube/centre/z") &&
             fields.at(path.substr(0, path.size() - std::string("centre/z").size()) + "casting")
                     .text == "head");
        if (of_head) {
            EXPECT_EQ(value.unit, "in");
            value.text = exact_text(*parse_number(value.text) - 0.045);
        }
    }
    return fields;
}

// Heads whose intake faces are square to the deck slide past an intake over both banks, so all that
// moves is what the heads carry: the same as places taken anew. Tolerance: rounding of 400 mm.
TEST(Engine, AMilledHeadGivesWhatPlacesTakenAnewGive) {
    for (const auto& [name, banks] :
         {std::pair{"v8-port-tubes", std::vector<std::string>{"left", "right"}},
          std::pair{"flat-four", std::vector<std::string>{"left", "right"}},
          std::pair{"inline-six", std::vector<std::string>{"row"}}}) {
        const SetUpFields demo = demo_fields(name);
        const auto moved = make_engine(lowered(demo, banks));
        const auto anew = make_engine(located_again(demo));
        const auto before = make_engine(demo);
        ASSERT_TRUE(moved.ok() && anew.ok() && before.ok()) << name;
        const auto moved_lines = survey(*moved);
        const auto anew_lines = survey(*anew);
        const auto before_lines = survey(*before);
        ASSERT_TRUE(moved_lines.ok() && anew_lines.ok());
        double most_changed_mm = 0.0;
        for (std::size_t at = 0; at < moved_lines->size(); ++at) {
            const auto& one = (*moved_lines)[at].found;
            const auto& other = (*anew_lines)[at].found;
            ASSERT_EQ(one.status, TrainStatus::answered) << name;
            EXPECT_NEAR(one.minimum->clearance_mm, other.minimum->clearance_mm, 1e-9) << name;
            EXPECT_NEAR(one.minimum->lobe_lift_mm, other.minimum->lobe_lift_mm, 1e-6) << name;
            most_changed_mm = std::max(most_changed_mm,
                                       std::abs(one.minimum->clearance_mm -
                                                (*before_lines)[at].found.minimum->clearance_mm));
        }
        EXPECT_GT(most_changed_mm, 0.005) << name; // else it would show nothing
    }
}

TEST(Engine, WhatAHeadCarriesMovesWithItAndNothingElseDoes) {
    SetUpFields fields = castings_set_up();
    put_triple(fields, "trains/1E/valve/tip", {"1.43", "-.2", "15.2"}, "in");
    for (const char* milled : {"deck_milled", "head/deck_face_milled"}) {
        fields.erase(std::string("banks/left/") + milled);
    }
    for (const char* gasket : {"_new", "_crushed", "_state", "_when_located"}) {
        fields.erase(std::string("banks/left/head/gasket") + gasket);
    }
    const Engine before = *make_engine(fields);
    const Engine after = *make_engine(lowered(fields, {"left"}));
    const double lower = 0.045 * in;
    EXPECT_LT((after.head_movement_K(0) - Vec3(0.0, 0.0, -lower)).norm(), 1e-13);
    EXPECT_EQ(after.head_movement_K(1), before.head_movement_K(1));
    for (std::size_t at = 0; at < before.trains.size(); ++at) {
        const Train& was = before.trains[at];
        const Train& is = after.trains[at];
        const Vec3 down(0.0, 0.0, was.bank == 0 ? -lower : 0.0);
        EXPECT_LT((is.rocker.pivot_K - was.rocker.pivot_K - down).norm(), 1e-12);
        EXPECT_EQ(is.rocker.ball_arm_K, was.rocker.ball_arm_K);
        EXPECT_EQ(is.rocker.tip_arm_K, was.rocker.tip_arm_K);
        EXPECT_EQ(is.lifter.foot_K, was.lifter.foot_K);
        EXPECT_EQ(is.valve.axis_K, was.valve.axis_K);
        EXPECT_EQ(is.tube.bore.centre_K, was.tube.bore.centre_K) << "as it was located";
        if (was.valve.tip_K) {
            EXPECT_LT((*is.valve.tip_K - *was.valve.tip_K - down).norm(), 1e-12);
        }
    }
    const ValvePosition exhaust_1{1, ValveKind::exhaust, 1};
    const Train& train = *after.train(exhaust_1);
    ASSERT_TRUE(train.valve.tip_K.has_value());
    for (const Passage& passage : train.further_passages) {
        const Vec3 moved = after.bore_in_place(train, passage)->centre_K -
                           before.bore_in_place(*before.train(exhaust_1), passage)->centre_K;
        const Vec3 expected(0.0, 0.0, passage.casting == Casting::head ? -lower : 0.0);
        EXPECT_LT((moved - expected).norm(), 1e-12) << passage.name;
    }
    const Vec3 tube = after.tube_in_place(train)->centre_K - train.tube.bore.centre_K;
    EXPECT_LT((tube - Vec3(0.0, 0.0, -lower)).norm(), 1e-12);
}

/// A point that moves with a solid.
Vec3 point_of(const Solid& solid) {
    if (const auto* plane = std::get_if<HalfSpace>(&solid)) {
        return plane->point_K;
    }
    if (const auto* bar = std::get_if<RoundBar>(&solid)) {
        return bar->to_K;
    }
    if (const auto* box = std::get_if<Cuboid>(&solid)) {
        return box->centre_K;
    }
    return std::get<Capsule>(solid).to_K;
}

TEST(Engine, EveryObstacleMovesWithItsCastingAndKeepsItsShape) {
    Engine engine = *make_engine(demo_with_card_lobes());
    engine.flanges[0]->normal_K = Vec3(0.0, 0.8, 0.6);
    engine.flanges[1]->spacer_mm = 3.0;
    engine.set_head(0, {1.0, 1.5, 0.25, 0.0});
    const Vec3 head = engine.head_movement_K(0);
    const Vec3 intake = *engine.intake_movement_K(0);
    EXPECT_DOUBLE_EQ(head.z(), -0.75);
    EXPECT_GT(intake.norm(), 1.0);
    const Solid solids[] = {HalfSpace{Vec3(1.0, 2.0, 3.0), Vec3::UnitY()},
                            RoundBar{Vec3(1.0, 2.0, 3.0), Vec3(4.0, 6.0, 3.0), 2.0},
                            Cuboid{Vec3(1.0, 2.0, 3.0), {}, Vec3(1.0, 2.0, 3.0)},
                            Capsule{Vec3(1.0, 2.0, 3.0), Vec3(4.0, 6.0, 3.0), 2.0}};
    for (const auto& [casting, moved] :
         {std::pair{Casting::head, head}, std::pair{Casting::intake, intake},
          std::pair{Casting::block, Vec3(Vec3::Zero())}}) {
        for (const Solid& solid : solids) {
            Obstacle obstacle;
            obstacle.casting = casting;
            obstacle.solid = solid;
            const auto placed = engine.solid_in_place(obstacle);
            ASSERT_TRUE(placed.ok());
            ASSERT_EQ(placed->index(), solid.index());
            EXPECT_LT((point_of(*placed) - point_of(solid) - moved).norm(), 1e-12);
            if (const auto* bar = std::get_if<RoundBar>(&*placed)) {
                EXPECT_LT((bar->to_K - bar->from_K - Vec3(3.0, 4.0, 0.0)).norm(), 1e-12);
            }
            if (const auto* capsule = std::get_if<Capsule>(&*placed)) {
                EXPECT_LT((capsule->to_K - capsule->from_K - Vec3(3.0, 4.0, 0.0)).norm(), 1e-12);
            }
        }
    }
}

TEST(Engine, SettingAHeadAgainMovesByTheDifferenceOnly) {
    Engine engine = *make_engine(demo_with_card_lobes());
    const Engine located = engine;
    const auto lower = [&](std::size_t at) {
        return located.trains[at].rocker.pivot_K.z() - engine.trains[at].rocker.pivot_K.z();
    };
    engine.set_head(1, {1.0, 1.0, 0.0, 0.5});
    engine.set_head(1, {1.0, 1.0, 0.0, 0.75});
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        EXPECT_NEAR(lower(at), engine.trains[at].bank == 1 ? 0.75 : 0.0, 1e-12);
    }
    engine.set_head(1, {});
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        EXPECT_NEAR(lower(at), 0.0, 1e-12); // rounding of 400 mm
    }
    engine.set_head(7, {1.0, 0.0, 0.0, 0.0}); // a bank without trains
    EXPECT_EQ(engine.heads.of(7).gasket_mm, 1.0);
    EXPECT_EQ(engine.heads.of(8).gasket_mm, 0.0);
}

// The intake sinks as gaskets get thinner, and outboard of each bank: rods near an inboard wall
// lose, rods near an outboard wall gain: some .017 in for .015 in off both gaskets. No figure is
// published; arithmetic of this project.
TEST(Engine, AThinnerIntakeGasketHelpsOneWallAndHurtsTheOther) {
    const SetUpFields demo = demo_fields("v8-port-tubes");
    SetUpFields thinner = demo;
    for (const char* bank : {"left", "right"}) {
        put(thinner, std::string("banks/") + bank + "/flange/gasket", ".045");
    }
    const auto before = survey(*make_engine(demo));
    const auto after = survey(*make_engine(thinner));
    ASSERT_TRUE(before.ok() && after.ok());
    int helped = 0;
    int hurt = 0;
    for (std::size_t at = 0; at < before->size(); ++at) {
        const RodClearance& was = *(*before)[at].found.minimum;
        const RodClearance& is = *(*after)[at].found.minimum;
        const double gained_mm = is.clearance_mm - was.clearance_mm;
        const ValvePosition& valve = (*before)[at].position;
        if (valve.kind == ValveKind::exhaust) {
            EXPECT_EQ(gained_mm, 0.0) << "its tube is in the head";
            continue;
        }
        if (was.in_passage->wall == Wall::outboard && is.in_passage->wall == Wall::outboard) {
            EXPECT_GT(gained_mm, 0.015 * in);
            ++helped;
        }
        if (was.in_passage->wall == Wall::inboard && is.in_passage->wall == Wall::inboard) {
            EXPECT_LT(gained_mm, -0.015 * in);
            ++hurt;
        }
    }
    EXPECT_EQ(helped, 5);
    EXPECT_EQ(hurt, 1); // 3I
}

} // namespace
} // namespace rodway
