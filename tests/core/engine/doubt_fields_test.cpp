#include "core/engine/doubt_fields.h"

#include <gtest/gtest.h>

#include "core/units/angle.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

SetUpFields with(std::initializer_list<std::pair<std::string, TypedValue>> stated) {
    SetUpFields fields;
    for (const auto& [path, value] : demo_fields("v8-port-tubes")) {
        if (path.rfind("doubt/", 0) != 0) {
            fields.emplace(path, value);
        }
    }
    for (const auto& [path, value] : stated) {
        fields[path] = value;
    }
    return fields;
}

Error refusal(const SetUpFields& fields) {
    const auto made = make_engine(fields);
    EXPECT_FALSE(made.ok());
    return made ? Error{} : made.error();
}

TEST(DoubtFields, WhatNobodyStatedIsNotKnown) {
    const auto engine = make_engine(with({}));
    ASSERT_TRUE(engine.ok());
    EXPECT_FALSE(engine->doubt.lash_float || engine->doubt.seat_off_axis ||
                 engine->doubt.rod_runout || engine->doubt.lifter_bore_slop ||
                 engine->doubt.leak_down || engine->assumed_doubt_mm);
    EXPECT_TRUE(engine->doubt.inputs.empty());
}

TEST(DoubtFields, SizesAnglesAndSourcesAreReadAsTyped) {
    const auto engine =
        make_engine(with({{"doubt/seat_off_axis/size", {".002", "in"}},
                          {"doubt/seat_off_axis/source", {"measured", ""}},
                          {"doubt/rod_runout/size", {"4", "thou"}},
                          {"doubt/lash_float/source", {"common_practice", ""}},
                          {"doubt/inputs/lifter_height/size", {".05", "mm"}},
                          {"doubt/inputs/passage_lean_rearward/angle", {"0.2", "deg"}},
                          {"doubt/inputs/passage_lean_rearward/source", {"from_the_box", ""}}}));
    ASSERT_TRUE(engine.ok()) << engine.error().field;
    const EngineDoubt& doubt = engine->doubt;
    ASSERT_TRUE(doubt.seat_off_axis && doubt.rod_runout && doubt.lash_float);
    // Rounding of the conversion from inches dominates all three tolerances.
    EXPECT_NEAR(doubt.seat_off_axis->size, 0.0508, 1e-12);
    EXPECT_EQ(doubt.seat_off_axis->source, DoubtSource::measured);
    EXPECT_NEAR(doubt.rod_runout->size, 0.1016, 1e-12);
    EXPECT_EQ(doubt.rod_runout->source, DoubtSource::assumed);
    EXPECT_EQ(*doubt.lash_float, DoubtSource::common_practice);
    EXPECT_FALSE(doubt.leak_down);
    ASSERT_EQ(doubt.inputs.size(), 2u);
    EXPECT_NEAR(doubt.inputs.at(ParameterKind::lifter_height).size, 0.05, 1e-12);
    EXPECT_NEAR(doubt.inputs.at(ParameterKind::passage_lean_rearward).size, radians(0.2), 1e-12);
    EXPECT_EQ(doubt.inputs.at(ParameterKind::passage_lean_rearward).source,
              DoubtSource::from_the_box);
}

TEST(DoubtFields, WrongOnesAreRefusedByName) {
    EXPECT_EQ(refusal(with({{"doubt/inputs/lifter_hight/size", {".002", "in"}}})).field,
              "doubt/inputs/lifter_hight");
    EXPECT_EQ(refusal(with({{"doubt/inputs/passage_lean_rearward/size", {".002", "in"}}})).code,
              ErrorCode::not_of_this_kind);
    EXPECT_EQ(refusal(with({{"doubt/inputs/lash/angle", {"1", "deg"}}})).field,
              "doubt/inputs/lash/angle");
    EXPECT_EQ(refusal(with({{"doubt/inputs/lash/size", {"-.001", "in"}}})).code,
              ErrorCode::out_of_range);
    EXPECT_EQ(refusal(with({{"doubt/rod_runout/source", {"measured", ""}}})).field,
              "doubt/rod_runout/size");
    EXPECT_EQ(refusal(with({{"doubt/rod_runout/size", {".002", "in"}},
                            {"doubt/rod_runout/source", {"guessed", ""}}}))
                  .field,
              "doubt/rod_runout/source");
}

} // namespace
} // namespace rodway
