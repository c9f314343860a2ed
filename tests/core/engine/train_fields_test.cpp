#include "core/engine/train_fields.h"

#include <gtest/gtest.h>

#include "core/valvetrain/train_motion.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

const ValvePosition intake_1{1, ValveKind::intake, 1};
const std::string train_1I = "trains/1I/";

template <typename Change>
Result<Engine> made_with(Change change) {
    static const SetUpFields good = demo_fields("v8-port-tubes");
    SetUpFields fields = good;
    change(fields);
    // Every kind of train must also survive its file.
    const auto engine = make_engine(fields);
    if (engine) {
        const auto again = read_set_up_file(write_set_up_file(fields));
        EXPECT_TRUE(again.ok());
        if (again) {
            EXPECT_EQ(*again, fields);
        }
    }
    return engine;
}

void expect_refused(const Result<Engine>& engine, ErrorCode code, const std::string& field) {
    ASSERT_FALSE(engine.ok()) << field;
    EXPECT_EQ(static_cast<int>(engine.error().code), static_cast<int>(code)) << field;
    EXPECT_EQ(engine.error().field, field);
}

void make_hydraulic(SetUpFields& fields) {
    fields["lobes/1I/lash"] = {"0", "in"};
    fields[train_1I + "lifter/kind"] = {"hydraulic", ""};
    fields[train_1I + "lifter/preload"] = {".030", "in"};
    fields[train_1I + "lifter/plunger_travel"] = {".150", "in"};
}

TEST(TrainFields, HydraulicLifterStandsAtItsPreload) {
    const auto engine = made_with(make_hydraulic);
    ASSERT_TRUE(engine.ok());
    const Train& train = *engine->train(intake_1);
    EXPECT_EQ(train.lifter.kind, LifterKind::hydraulic);
    EXPECT_DOUBLE_EQ((train.lifter.lower_ball_K() - train.lifter.foot_K).norm(),
                     (1.750 - 0.030) * 25.4);
    EXPECT_DOUBLE_EQ(train.valve.lash_mm, 0.0);
    // Its neighbour keeps the lash of its kind.
    EXPECT_DOUBLE_EQ(engine->train({2, ValveKind::intake, 1})->valve.lash_mm, 0.018 * 25.4);
}

TEST(TrainFields, WhatDoesNotBelongTogetherIsRefusedByName) {
    expect_refused(made_with([](SetUpFields& fields) {
                       make_hydraulic(fields);
                       fields.erase("lobes/1I/lash");
                   }),
                   ErrorCode::not_of_this_kind, "lobes/intake/lash");
    expect_refused(made_with([](SetUpFields& fields) {
                       fields[train_1I + "lifter/preload"] = {".030", "in"};
                   }),
                   ErrorCode::not_of_this_kind, train_1I + "lifter/preload");
    expect_refused(made_with([](SetUpFields& fields) {
                       fields[train_1I + "adjuster/kind"] = {"nut", ""};
                   }),
                   ErrorCode::not_of_this_kind, train_1I + "adjuster/kind");
    expect_refused(made_with([](SetUpFields& fields) {
                       fields[train_1I + "rod/profile"] = {"0 .3125; 8 .3125", "in"};
                   }),
                   ErrorCode::not_of_this_kind, train_1I + "rod/diameter");
    expect_refused(made_with([](SetUpFields& fields) { fields.erase(train_1I + "rod/diameter"); }),
                   ErrorCode::missing_field, train_1I + "rod/diameter");
    expect_refused(made_with([](SetUpFields& fields) {
                       make_hydraulic(fields);
                       fields[train_1I + "lifter/preload"] = {".200", "in"};
                   }),
                   ErrorCode::out_of_range, train_1I + "lifter/preload");
}

TEST(TrainFields, SteppedRodKeepsItsSectionsAndItsGreatestDiameter) {
    const auto engine = made_with([](SetUpFields& fields) {
        fields.erase(train_1I + "rod/diameter");
        fields[train_1I + "rod/profile"] = {"0 .3125; 2 .3125; 2 .375; 7 .375; 8.5 .3125", "in"};
    });
    ASSERT_TRUE(engine.ok());
    const Pushrod& rod = engine->train(intake_1)->rod;
    EXPECT_DOUBLE_EQ(rod.diameter_mm, 0.375 * 25.4);
    ASSERT_EQ(rod.profile.size(), 4u); // straight, straight, taper, and on to the upper ball
    EXPECT_DOUBLE_EQ(rod.profile[1].from_mm, 2.0 * 25.4);
    EXPECT_DOUBLE_EQ(rod.profile[1].diameter_from_mm, 0.375 * 25.4);
    EXPECT_DOUBLE_EQ(rod.profile[2].diameter_to_mm, 0.3125 * 25.4);
    EXPECT_DOUBLE_EQ(rod.profile[3].to_mm, rod.length_mm);
    for (const char* wrong : {"1 .3; 8 .3", "0 .3; 5 .3; 4 .3; 8 .3", "0 .3; 12 .3"}) {
        expect_refused(made_with([&](SetUpFields& fields) {
                           fields.erase(train_1I + "rod/diameter");
                           fields[train_1I + "rod/profile"] = {wrong, "in"};
                       }),
                       ErrorCode::order_wrong, train_1I + "rod/profile");
    }
}

TEST(TrainFields, StudRockerIsSetByItsNut) {
    const auto engine = made_with([](SetUpFields& fields) {
        fields[train_1I + "rocker/mount"] = {"stud", ""};
        fields[train_1I + "adjuster/kind"] = {"nut", ""};
        fields[train_1I + "adjuster/axis/x"] = {"0", ""};
        fields[train_1I + "adjuster/axis/y"] = {"0", ""};
        fields[train_1I + "adjuster/axis/z"] = {"-1", ""};
    });
    ASSERT_TRUE(engine.ok());
    const TrainMotion motion = train_motion(*engine->train(intake_1), 9.0);
    EXPECT_EQ(motion.status, TrainStatus::answered);
}

TEST(TrainFields, BallPivotSwingsSquareToItsStudAndToWhatGuidesIt) {
    const auto ball_pivot = [](SetUpFields& fields) {
        fields[train_1I + "rocker/mount"] = {"ball_pivot", ""};
        fields[train_1I + "rocker/guided_by"] = {"tip_rails", ""};
        for (const char* component : {"x", "y", "z"}) {
            fields.erase(train_1I + "rocker/axis/" + component);
        }
    };
    const auto engine = made_with(ball_pivot);
    ASSERT_TRUE(engine.ok());
    const Train& train = *engine->train(intake_1);
    EXPECT_NEAR(train.rocker.axis_K.dot(train.adjuster.axis_K), 0.0, 1e-12);
    EXPECT_NEAR(train.rocker.axis_K.dot(train.rocker.tip_arm_K), 0.0, 1e-12);
    expect_refused(made_with([&](SetUpFields& fields) {
                       ball_pivot(fields);
                       fields[train_1I + "rocker/axis/x"] = {"1", ""};
                       fields[train_1I + "rocker/axis/y"] = {"0", ""};
                       fields[train_1I + "rocker/axis/z"] = {"0", ""};
                   }),
                   ErrorCode::not_of_this_kind, train_1I + "rocker/axis");
}

TEST(TrainFields, LobesAndSpringsOfOneValveGiveOnlyWhatDiffers) {
    const auto engine = made_with([](SetUpFields& fields) {
        std::erase_if(fields, [](const auto& field) {
            return field.first.rfind("springs/exhaust/", 0) == 0;
        });
        fields["lobes/1I/centreline"] = {"108", "crank_deg"};
        fields["springs/intake/installed_height"] = {"1.900", "in"};
        fields["springs/intake/loads"] = {"1.9 140; 1.3 390", "in/lbf"};
        fields["springs/1I/installed_height"] = {"1.880", "in"};
        fields["piston_to_valve/1I/drops"] = {"0 .250; 10 .300", "crank_deg/in"};
    });
    ASSERT_TRUE(engine.ok());
    EXPECT_DOUBLE_EQ(engine->lobes(intake_1).centreline_crank_deg, 108.0);
    EXPECT_DOUBLE_EQ(engine->lobes({2, ValveKind::intake, 1}).centreline_crank_deg, 106.0);
    EXPECT_DOUBLE_EQ(engine->lobes(intake_1).lobe.full_lift_mm(),
                     engine->intake.lobe.full_lift_mm());
    ASSERT_NE(engine->spring(intake_1), nullptr);
    EXPECT_DOUBLE_EQ(engine->spring(intake_1)->installed_height_mm, 1.880 * 25.4);
    EXPECT_NEAR(engine->spring(intake_1)->loads[1].load_N, 390.0 * 4.4482216152605, 1e-9);
    EXPECT_EQ(engine->spring({1, ValveKind::exhaust, 1}), nullptr) << "none was given";
    EXPECT_EQ(engine->valve_drops.at(intake_1).drops.size(), 2u);
    expect_refused(made_with([](SetUpFields& fields) {
                       fields["lobes/front/lash"] = {".018", "in"};
                   }),
                   ErrorCode::not_a_position, "lobes/front");
    expect_refused(made_with([](SetUpFields& fields) {
                       fields["springs/9I/installed_height"] = {"1.9", "in"};
                   }),
                   ErrorCode::valve_unknown, "springs/9I");
}

} // namespace
} // namespace rodway
