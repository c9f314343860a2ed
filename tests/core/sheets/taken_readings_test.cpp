#include "core/sheets/taken_readings.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/sheets/sheet_readings.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double bits = 1e-9; // of the conversion from inches

TEST(TakenReadings, TheLastOfRetakesCountsAndTheOthersAreKept) {
    WrittenReadings written;
    written.write("main_diameter", "J2 vertical", "2.4480")
        .write("main_diameter", "J3", "2.4481")
        .write("main_diameter", "j2 vertical", "2.4479");
    const TakenReadings taken(written.all());
    ASSERT_THAT(taken.of("main_diameter"), SizeIs(2));
    const Taken& second = taken.of("main_diameter")[0];
    EXPECT_EQ(second.reading.text, "2.4479");
    EXPECT_THAT(second.retaken, ElementsAre(1));
    EXPECT_EQ(taken.at("main_diameter", "J2 vertical"), &second);
    EXPECT_EQ(taken.at("main_diameter", "J2"), nullptr);
}

TEST(TakenReadings, ANumberMayBeHalfAStepOfItsLastDigitEitherSide) {
    WrittenReadings written;
    written.write("main_diameter", "J1", "2.4480")
        .write("main_diameter", "J2", "2.448")
        .write("main_diameter", "J3", "2.4475-2.4480")
        .write("main_diameter", "J4", ">2.44");
    const TakenReadings taken(written.all());
    const auto fine = taken.number("main_diameter", "J1");
    const auto coarse = taken.number("main_diameter", "J2");
    ASSERT_TRUE(fine && coarse);
    EXPECT_NEAR(fine->half_width(), 0.00005 * 25.4, bits);
    EXPECT_NEAR(coarse->half_width(), 0.0005 * 25.4, bits);
    EXPECT_NEAR(fine->middle(), 2.448 * 25.4, bits);
    const auto interval = taken.number("main_diameter", "J3");
    ASSERT_TRUE(interval);
    EXPECT_NEAR(interval->low, 2.4475 * 25.4, bits);
    EXPECT_NEAR(interval->high, 2.4480 * 25.4, bits);
    // No size, but enough for a limit that it reaches past.
    EXPECT_FALSE(taken.number("main_diameter", "J4"));
    const auto above = taken.at("main_diameter", "J4")->reach();
    ASSERT_TRUE(above);
    EXPECT_NEAR(above->low, 2.44 * 25.4, bits);
    EXPECT_TRUE(std::isinf(above->high));
}

TEST(TakenReadings, SameRepeatsTheReadingBeforeItWhereverThatStands) {
    WrittenReadings written;
    written.write("main_diameter", "J1", "2.4480")
        .write("main_bearing_bore", "J1", "2.4505")
        .write("main_diameter", "J2", "same")
        .write("main_diameter", "J3", "\"")
        .write("main_diameter", "J1", "2.4490");
    const TakenReadings taken(written.all());
    for (const char* position : {"J2", "J3"}) {
        const auto number = taken.number("main_diameter", position);
        ASSERT_TRUE(number) << position;
        EXPECT_NEAR(number->middle(), 2.4480 * 25.4, bits) << position;
    }
    EXPECT_NEAR(taken.number("main_diameter", "J1")->middle(), 2.4490 * 25.4, bits);
}

TEST(TakenReadings, SameWithNothingBeforeItIsNoNumber) {
    WrittenReadings written;
    written.write("main_diameter", "J1", "same");
    const TakenReadings taken(written.all());
    ASSERT_THAT(taken.of("main_diameter"), SizeIs(1));
    EXPECT_FALSE(taken.number("main_diameter", "J1"));
}

TEST(TakenReadings, NotMeasuredIsNoNumberAndNeverZero) {
    WrittenReadings written;
    written.write("main_diameter", "J1", "n/m").write("main_diameter", "J2", "ok");
    const TakenReadings taken(written.all());
    EXPECT_FALSE(taken.number("main_diameter", "J1"));
    EXPECT_FALSE(taken.number("main_diameter", "J2"));
    EXPECT_THAT(taken.not_read(), IsEmpty());
}

TEST(TakenReadings, WhatCannotBeReadIsNamedWithItsReason) {
    WrittenReadings written;
    written.write("main_diameter", "J1", "wide")
        .write("main_diameter", "nowhere", "2.4480")
        .write("waffle_height", "", "1");
    const TakenReadings taken(written.all());
    ASSERT_THAT(taken.not_read(), SizeIs(3));
    EXPECT_EQ(taken.not_read()[0].error.field, "text");
    EXPECT_EQ(taken.not_read()[1].error.code, ErrorCode::not_a_place);
    EXPECT_EQ(taken.not_read()[2].error.field, "quantity");
    EXPECT_THAT(taken.of("main_diameter"), IsEmpty());
}

TEST(TakenReadings, AShopsOwnQuantityIsReadLikeABuiltInOne) {
    const std::vector<Quantity> own{{"waffle_height", Form::length, Place::cylinder, "mm"}};
    WrittenReadings written;
    written.write("waffle_height", "3", "1.25");
    const TakenReadings taken(written.all(), own);
    ASSERT_TRUE(taken.number("waffle_height", "3"));
    EXPECT_NEAR(taken.number("waffle_height", "3")->middle(), 1.25, bits);
}

TEST(TakenReadings, WordsAreTheChosenWord) {
    WrittenReadings written;
    written.write("main_clearance_method", "J1", "Plastic strip");
    const TakenReadings taken(written.all());
    EXPECT_EQ(taken.word("main_clearance_method", "J1"), "plastic_strip");
    EXPECT_FALSE(taken.word("main_clearance_method", "J2"));
}

} // namespace
} // namespace rodway
