#include "core/engine/rod_length_fields.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/valvetrain/train_motion.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

constexpr double inch = 25.4;
constexpr double rounding_mm = 1e-9;
const ValvePosition intake_1{1, ValveKind::intake, 1};
const std::string rod_1I = "trains/1I/rod/";

using Sizes = std::vector<std::pair<std::string, TypedValue>>;

/// The V8 with 1I's length taken away and these given instead.
Result<Engine> made_with(const Sizes& sizes) {
    static const SetUpFields good = [] {
        SetUpFields fields = demo_fields("v8-port-tubes");
        // A rod is read alike whatever the other trains are; without them it is quicker.
        std::erase_if(fields, [](const auto& field) {
            return field.first.rfind("trains/", 0) == 0 && field.first.rfind("trains/1I/", 0) != 0;
        });
        fields.erase(rod_1I + "length");
        std::erase_if(fields, [](const auto& field) {
            return field.first.rfind("piston_to_valve/", 0) == 0;
        });
        return fields;
    }();
    SetUpFields fields = good;
    for (const auto& [leaf, value] : sizes) {
        fields[rod_1I + leaf] = value;
    }
    const auto engine = make_engine(fields);
    if (engine.ok()) {
        // Every way of giving it must also survive its file.
        const auto again = read_set_up_file(write_set_up_file(fields));
        EXPECT_TRUE(again.ok());
        EXPECT_TRUE(again.ok() && *again == fields);
    }
    return engine;
}

Sizes with(Sizes sizes, const Sizes& more) {
    sizes.insert(sizes.end(), more.begin(), more.end());
    return sizes;
}

const Sizes two_balls{{"lower_ball", {"5/16", "in"}}, {"upper_ball", {"5/16", "in"}}};
const Sizes with_cup{{"lower_ball", {"5/16", "in"}},
                     {"upper_ball", {"3/8", "in"}},
                     {"top_end", {"cup", ""}},
                     {"cup_depth", {".150", "in"}}};

void expect_refused(const Result<Engine>& engine, ErrorCode code, const std::string& leaf) {
    ASSERT_FALSE(engine.ok()) << leaf;
    EXPECT_EQ(static_cast<int>(engine.error().code), static_cast<int>(code)) << leaf;
    EXPECT_EQ(engine.error().field, rod_1I + leaf);
}

// The same rod, 8.97 between centres, given in all four ways: worked by hand as in
// tests/core/valvetrain/rod_ends_test.cpp.
TEST(RodLengthFields, AnyOneLengthMakesTheSameRod) {
    const double seat = std::sqrt(0.15625 * 0.15625 - 0.07 * 0.07);
    const auto typed = [](double length_in) {
        return TypedValue{std::to_string(length_in), "in"}; // six decimals
    };
    const Sizes ways[] = {
        {{"length", {"8.970", "in"}}},
        with(two_balls, {{"overall_length", {"9.2825", "in"}}}),
        with(two_balls, {{"effective_length", {"9.2825", "in"}}}),
        with(two_balls,
             {{"gauge_length", typed(8.970 + 2.0 * seat)}, {"gauge_hole", {".140", "in"}}}),
        with(with_cup, {{"overall_length", {"9.08875", "in"}}}),
        with(with_cup, {{"effective_length", {"8.93875", "in"}}}),
        with(two_balls, {{"overall_length", {"235.7755", "mm"}}}),
    };
    std::optional<double> gross_lift_mm;
    for (const Sizes& way : ways) {
        const auto engine = made_with(way);
        ASSERT_TRUE(engine.ok()) << way.back().first << ' ' << engine.error().field;
        const Train& train = *engine->train(intake_1);
        // Six decimals of an inch, twice.
        EXPECT_NEAR(train.rod.length_mm, 8.970 * inch, 1e-6 * inch) << way.back().first;
        const TrainMotion motion = train_motion(train, 9.0);
        ASSERT_EQ(motion.status, TrainStatus::answered);
        if (!gross_lift_mm) {
            gross_lift_mm = motion.full_lift->gross_lift_mm;
        }
        EXPECT_NEAR(motion.full_lift->gross_lift_mm, *gross_lift_mm, 1e-6 * inch);
    }
}

TEST(RodLengthFields, ExactlyOneLengthIsGiven) {
    expect_refused(made_with(two_balls), ErrorCode::missing_field, "length");
    const Sizes both =
        with(two_balls, {{"length", {"8.970", "in"}}, {"overall_length", {"9.2825", "in"}}});
    expect_refused(made_with(both), ErrorCode::not_of_this_kind, "overall_length");
    const Sizes other_two = with(two_balls, {{"effective_length", {"9.2825", "in"}},
                                             {"gauge_length", {"9.2494", "in"}},
                                             {"gauge_hole", {".140", "in"}}});
    expect_refused(made_with(other_two), ErrorCode::not_of_this_kind, "gauge_length");
}

TEST(RodLengthFields, AMissingSizeIsNamed) {
    const TypedValue length{"9.2825", "in"};
    const Sizes lower{{"lower_ball", {"5/16", "in"}}};
    using C = ErrorCode;
    expect_refused(made_with({{"overall_length", length}}), C::missing_field, "lower_ball");
    expect_refused(made_with(with(lower, {{"overall_length", length}})), C::missing_field,
                   "upper_ball");
    expect_refused(made_with(with(lower, {{"effective_length", length}, {"top_end", {"cup", ""}}})),
                   C::missing_field, "upper_ball");
    expect_refused(made_with(with(two_balls, {{"gauge_length", length}})), C::missing_field,
                   "gauge_hole");
    Sizes no_depth = with_cup;
    no_depth.pop_back();
    expect_refused(made_with(with(no_depth, {{"overall_length", length}})), C::missing_field,
                   "cup_depth");
    expect_refused(
        made_with(with(with_cup, {{"gauge_length", length}, {"gauge_hole", {".140", "in"}}})),
        C::not_a_choice, "top_end");
    // Between centres none of them is wanted.
    EXPECT_TRUE(made_with({{"length", {"8.970", "in"}}}).ok());
}

TEST(RodLengthFields, WhatCannotBeIsRefusedAsItWasTyped) {
    const auto hole = made_with(
        with(two_balls, {{"gauge_length", {"9.25", "in"}}, {"gauge_hole", {".35", "in"}}}));
    expect_refused(hole, ErrorCode::out_of_range, "gauge_hole");
    EXPECT_EQ(hole.error().value, ".35");
    ASSERT_TRUE(hole.error().limits.has_value());
    EXPECT_EQ(hole.error().limits->unit, "in");
    EXPECT_NEAR(hole.error().limits->high, 0.3125, rounding_mm);

    Sizes deep = with_cup;
    deep.back().second = {"10", "mm"};
    const auto depth = made_with(with(deep, {{"overall_length", {"9.1", "in"}}}));
    expect_refused(depth, ErrorCode::out_of_range, "cup_depth");
    EXPECT_EQ(depth.error().limits->unit, "mm");
    EXPECT_NEAR(depth.error().limits->high, 9.525, rounding_mm);

    // Too short to hold its balls, though within what an overall length may be.
    const auto too_short = made_with(with(two_balls, {{"overall_length", {"1.2", "in"}}}));
    expect_refused(too_short, ErrorCode::out_of_range, "overall_length");
    EXPECT_EQ(too_short.error().value, "1.2");
    EXPECT_NEAR(too_short.error().limits->low, 25.0 / inch + 0.3125, rounding_mm);

    expect_refused(made_with({{"length", {"8.970", "in"}}, {"cup_depth", {".150", "in"}}}),
                   ErrorCode::not_of_this_kind, "cup_depth");
    for (const char* text : {"", "nan", "inf", "1e400", "long", "8.9-9.1"}) {
        expect_refused(made_with(with(two_balls, {{"overall_length", {text, "in"}}})),
                       ErrorCode::not_a_length, "overall_length");
    }
    expect_refused(made_with(with(two_balls, {{"overall_length", {"9.2825", "deg"}}})),
                   ErrorCode::wrong_type, "overall_length");
}

// A profile is counted from the lower ball's centre up to the upper one's, however the length is
// given.
TEST(RodLengthFields, AProfileEndsAtTheUpperBallsCentre) {
    const auto engine = [] {
        SetUpFields fields = demo_fields("v8-port-tubes");
        fields.erase(rod_1I + "length");
        fields.erase(rod_1I + "diameter");
        for (const auto& [leaf, value] : two_balls) {
            fields[rod_1I + leaf] = value;
        }
        fields[rod_1I + "overall_length"] = {"9.2825", "in"};
        fields[rod_1I + "profile"] = {"0 .3125; 2 .3125; 2 .375", "in"};
        return make_engine(fields);
    }();
    ASSERT_TRUE(engine.ok());
    EXPECT_NEAR(engine->train(intake_1)->rod.profile.back().to_mm, 8.970 * inch, rounding_mm);
}

} // namespace
} // namespace rodway
