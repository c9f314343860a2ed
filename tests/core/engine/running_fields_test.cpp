#include "core/engine/running_fields.h"

#include <gtest/gtest.h>

#include "core/engine/hot_fields.h"
#include "core/units/force.h"
#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

SetUpFields with(std::initializer_list<std::pair<std::string, TypedValue>> stated) {
    SetUpFields fields;
    for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
        if (path.rfind("running/", 0) != 0) {
            fields.emplace(path, value);
        }
    }
    for (const auto& [path, value] : stated) {
        fields[path] = value;
    }
    return fields;
}

RunningStated read(const SetUpFields& fields) {
    const auto engine = make_engine(fields);
    EXPECT_TRUE(engine.ok()) << (engine ? "" : engine.error().field);
    return *read_running(fields, *engine);
}

Error refusal(const SetUpFields& fields) {
    const auto made = make_engine(fields);
    EXPECT_FALSE(made.ok());
    return made ? Error{} : made.error();
}

TEST(RunningFields, WhatNobodyStatedIsNotKnown) {
    const RunningStated stated = read(with({}));
    EXPECT_FALSE(stated.crank_rpm);
    ASSERT_EQ(stated.valves.size(), 16u);
    for (const auto& [valve, its] : stated.valves) {
        EXPECT_FALSE(its.wall_mm || its.modulus_MPa || its.runout_mm || its.valve_side_t ||
                     its.rocker_at_valve_t || its.rod_t);
    }
}

TEST(RunningFields, AreReadInTheirOwnUnitsByKindAndByValve) {
    const RunningStated stated = read(with({{"running/speed", {"6500", "rpm"}},
                                            {"running/rods/intake/wall", {".080", "in"}},
                                            {"running/rods/intake/modulus", {"30", "Mpsi"}},
                                            {"running/rods/exhaust/wall", {"2", "mm"}},
                                            {"running/rods/exhaust/modulus", {"207", "GPa"}},
                                            {"running/rods/3I/wall", {".095", "in"}},
                                            {"running/rods/3I/runout", {"4", "thou"}},
                                            {"running/masses/intake/valve_side", {"6", "oz"}},
                                            {"running/masses/intake/rocker_at_valve", {"0", "g"}},
                                            {"running/masses/3I/valve_side", {"150", "g"}},
                                            {"running/masses/intake/rod", {"61.5", "g"}}}));
    EXPECT_EQ(*stated.crank_rpm, 6500.0);
    const RunningValve& first = stated.valves.at({1, ValveKind::intake, 1});
    const RunningValve& odd = stated.valves.at({3, ValveKind::intake, 1});
    const RunningValve& exhaust = stated.valves.at({3, ValveKind::exhaust, 1});
    // Rounding of the conversions dominates the tolerances.
    EXPECT_NEAR(*first.wall_mm, 2.032, 1e-12);
    EXPECT_NEAR(*odd.wall_mm, 2.413, 1e-12);
    EXPECT_NEAR(*exhaust.wall_mm, 2.0, 1e-12);
    EXPECT_NEAR(*odd.runout_mm, 0.1016, 1e-12);
    EXPECT_FALSE(first.runout_mm);
    // 30 million pounds on the square inch, from the units' own definitions.
    EXPECT_NEAR(*first.modulus_MPa, 30e6 * Force::N_per_lbf / (25.4 * 25.4), 1e-6);
    EXPECT_EQ(*odd.modulus_MPa, *first.modulus_MPa) << "what it leaves out is as for its kind";
    EXPECT_NEAR(*exhaust.modulus_MPa, 207000.0, 1e-9);
    EXPECT_NEAR(*first.valve_side_t, 6.0 * 453.59237 / 16.0 * 1e-6, 1e-15);
    EXPECT_NEAR(*odd.valve_side_t, 150e-6, 1e-18);
    EXPECT_EQ(*odd.rocker_at_valve_t, 0.0) << "stated to be nothing, which isn't left out";
    EXPECT_NEAR(*odd.rod_t, 61.5e-6, 1e-18);
    EXPECT_FALSE(exhaust.valve_side_t);
}

// An engine that is described by its sizes, without a field of its trains.
TEST(RunningFields, AreReadBesideADescription) {
    SetUpFields fields = MeasuredEngine(demo_fields("v8-port-tubes")).fields();
    ASSERT_FALSE(fields.contains("trains/1I/rod/diameter"));
    fields["running/rods/intake/wall"] = {".080", "in"};
    fields["hot/parts/block/temperature"] = {"85", "degC"};
    const auto engine = make_engine(fields);
    ASSERT_TRUE(engine.ok()) << engine.error().field;
    const auto stated = read_running(fields, *engine);
    ASSERT_TRUE(stated.ok());
    EXPECT_EQ(stated->valves.size(), 16u);
    EXPECT_NEAR(*stated->valves.at({8, ValveKind::intake, 1}).wall_mm, 2.032, 1e-12);
    const auto hot = read_hot(fields, *engine);
    ASSERT_TRUE(hot.ok());
    EXPECT_EQ(*hot->of(HotPart::block).temperature_degC, 85.0);
    EXPECT_NEAR(*hot->deck_height_mm[1], 200.0, 1e-9) << "as it was measured";
    EXPECT_GT(engine->heads.of(0).gasket_mm, 0.0) << "and its gasket with it";
    fields["hot/banks/right/deck_height"] = {"201", "mm"};
    EXPECT_NEAR(*read_hot(fields, *engine)->deck_height_mm[1], 201.0, 1e-9);
    fields["running/rods/intake/wall"] = {".4", "in"};
    EXPECT_EQ(refusal(fields).field, "running/rods/intake/wall");
}

TEST(RunningFields, WrongOnesAreRefusedByName) {
    EXPECT_EQ(refusal(with({{"running/rods/9I/wall", {".080", "in"}}})).field, "running/rods/9I");
    EXPECT_EQ(refusal(with({{"running/masses/left/rod", {"60", "g"}}})).code,
              ErrorCode::not_a_position);
    EXPECT_EQ(refusal(with({{"running/speed", {"99", "rpm"}}})).code, ErrorCode::out_of_range);
    EXPECT_EQ(refusal(with({{"running/speed", {"fast", "rpm"}}})).code, ErrorCode::not_a_number);
    EXPECT_EQ(refusal(with({{"running/speed", {"6500", ""}}})).code, ErrorCode::wrong_type);
    EXPECT_EQ(refusal(with({{"running/rods/intake/modulus", {"30", "GPa/in"}}})).code,
              ErrorCode::wrong_type);
    const Error modulus = refusal(with({{"running/rods/intake/modulus", {"1", "Mpsi"}}}));
    EXPECT_EQ(modulus.code, ErrorCode::out_of_range);
    EXPECT_NEAR(modulus.limits->low, 10.0 / 6.894757293168361, 1e-9) << "in the unit typed";
    EXPECT_EQ(modulus.limits->unit, "Mpsi");
    // A 5/16 rod has no wall of more than 5/32.
    const Error wall = refusal(with({{"running/rods/exhaust/wall", {".157", "in"}}}));
    EXPECT_EQ(wall.code, ErrorCode::out_of_range);
    EXPECT_EQ(wall.field, "running/rods/exhaust/wall");
    EXPECT_NEAR(wall.limits->high, 0.15625, 1e-12);
    EXPECT_TRUE(make_engine(with({{"running/rods/exhaust/wall", {".15625", "in"}}})).ok());
}

TEST(RunningFields, GoThroughTheFileAndBack) {
    const SetUpFields fields = with({{"running/speed", {"6500", "rpm"}},
                                     {"running/rods/intake/wall", {".080", "in"}},
                                     {"running/rods/exhaust/modulus", {"30.0", "Mpsi"}},
                                     {"running/rods/intake/modulus", {"207", "GPa"}},
                                     {"running/masses/intake/valve_side", {"6", "oz"}},
                                     {"running/masses/intake/rod", {"61.50", "g"}}});
    const auto back = read_set_up_file(write_set_up_file(fields));
    ASSERT_TRUE(back.ok()) << back.error().field;
    EXPECT_EQ(*back, fields);
}

} // namespace
} // namespace rodway
