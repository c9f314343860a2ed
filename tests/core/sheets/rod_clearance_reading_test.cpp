#include "core/sheets/rod_clearance_reading.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

constexpr double inch = 25.4;
const RodClearanceLimits limits;

// A plain reading is known to half a step of its last digit either way (JCGM 100, F.2.2.1).
TEST(RodClearanceReading, HoldsTheIntervalInWhichTheClearanceLies) {
    struct Read {
        const char* text;
        double low_in, high_in;
    };
    for (const Read& each : {Read{".012", 0.0115, 0.0125},
                             {"0.0120", 0.01195, 0.01205},
                             {".008-.010", 0.008, 0.010},
                             {"~.010", 0.009, 0.011},
                             {"<.002", 0.0, 0.002},
                             {"10 thou", 0.0095, 0.0105},
                             {".0001", 0.00005, 0.00015}}) {
        const auto reading = parse_rod_clearance(each.text, true);
        ASSERT_TRUE(reading.ok()) << each.text;
        EXPECT_FALSE(reading->touch) << each.text;
        EXPECT_NEAR(reading->low_mm, each.low_in * inch, 1e-12) << each.text;
        EXPECT_NEAR(reading->high_mm, each.high_in * inch, 1e-12) << each.text;
    }
    const auto above = parse_rod_clearance(">.030", true);
    EXPECT_NEAR(above->low_mm, 0.030 * inch, 1e-12);
    EXPECT_GT(above->high_mm, 20.0);
    EXPECT_NEAR(parse_rod_clearance("0,3", false)->high_mm, 0.35, 1e-12);
}

TEST(RodClearanceReading, TouchIsAWordOrNothingLeft) {
    for (const char* text : {"touch", "Touch ", "touches", "CONTACT", "0", ".000"}) {
        const auto reading = parse_rod_clearance(text, true);
        ASSERT_TRUE(reading.ok()) << text;
        EXPECT_TRUE(reading->touch) << text;
        EXPECT_EQ(judge(*reading, limits), Verdict::contact) << text;
    }
}

TEST(RodClearanceReading, RefusesWhatIsNoClearance) {
    EXPECT_EQ(parse_rod_clearance("-.005", true).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_rod_clearance("2.5", true).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_rod_clearance("2.5", true).error().limits->unit, "in");
    EXPECT_EQ(parse_rod_clearance("-.005-.005", true).ok(), false);
    EXPECT_EQ(parse_rod_clearance("12", true).error().code, ErrorCode::unit_needed);
    EXPECT_EQ(parse_rod_clearance("", true).error().code, ErrorCode::empty_text);
    EXPECT_EQ(parse_rod_clearance("snug", true).error().code, ErrorCode::not_a_length);
}

TEST(RodClearanceReading, IsJudgedByItsWholeInterval) {
    const auto verdict = [](const char* text) {
        return judge(*parse_rod_clearance(text, true), limits);
    };
    EXPECT_EQ(verdict(".008"), Verdict::failed);
    EXPECT_EQ(verdict(".010"), Verdict::too_close_to_call); // .0095 to .0105
    EXPECT_EQ(verdict(".0105"), Verdict::passed_little_room);
    EXPECT_EQ(verdict(".010-.012"), Verdict::passed_little_room); // the .010 gauge goes
    EXPECT_EQ(verdict(".008-.010"), Verdict::too_close_to_call);  // .010 itself is not excluded
    EXPECT_EQ(verdict(".008-.012"), Verdict::too_close_to_call);
    EXPECT_EQ(verdict(".020"), Verdict::passed_for_now);
    EXPECT_EQ(verdict(".035"), Verdict::passed);
    EXPECT_EQ(verdict(">.030"), Verdict::passed);
    EXPECT_EQ(verdict("<.002"), Verdict::failed);
    EXPECT_FALSE(is_pass(verdict(">.005"))); // it may be anything above
    EXPECT_TRUE(is_pass(verdict(">.010")));
}

} // namespace
} // namespace rodway
