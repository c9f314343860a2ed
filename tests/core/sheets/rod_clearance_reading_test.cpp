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
    for (const char* text : {"touch", "Touch ", "touches", "CONTACT", "rubs", "0", ".000"}) {
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

// How builders say what a gauge did: common practice, no source.
TEST(RodClearanceReading, ReadsWhichGaugeGoesAndWhichDoesNot) {
    struct Read {
        const char* text;
        double low_in, high_in;
    };
    for (const Read& each : {Read{".008 goes, .010 no", 0.008, 0.010},
                             {".008 goes .010 no go", 0.008, 0.010},
                             {"Goes .008 no .010", 0.008, 0.010},
                             {"8 thou goes, 10 thou no-go", 0.008, 0.010},
                             {".010 no, .008 go", 0.008, 0.010},
                             {".006 goes .008 goes .010 no", 0.008, 0.010},
                             {".010 no", 0.0, 0.010},
                             {"0.2032mm goes 0.254 mm no", 0.008, 0.010}}) {
        const auto reading = parse_rod_clearance(each.text, true);
        ASSERT_TRUE(reading.ok()) << each.text;
        EXPECT_FALSE(reading->touch) << each.text;
        EXPECT_TRUE(reading->has_high_limit()) << each.text;
        EXPECT_NEAR(reading->low_mm, each.low_in * inch, 1e-12) << each.text;
        EXPECT_NEAR(reading->high_mm, each.high_in * inch, 1e-12) << each.text;
    }
    for (const char* text :
         {".008 goes", "goes .008", "tape .008", "tape .008 survived", ".008 tape held", ">.008"}) {
        const auto reading = parse_rod_clearance(text, true);
        ASSERT_TRUE(reading.ok()) << text;
        EXPECT_NEAR(reading->low_mm, 0.008 * inch, 1e-12) << text;
        EXPECT_FALSE(reading->has_high_limit()) << text;
    }
    EXPECT_NEAR(parse_rod_clearance("0,2 goes, 0,25 no", false)->high_mm, 0.25, 1e-12);
}

// A gauge that is felt is as thick as the gap, to half a step (common practice, no source).
TEST(RodClearanceReading, AGaugeWithLightDragIsTheGap) {
    for (const char* text :
         {".010 light drag", "light drag .010", ".010, slight drag", ".010 drag"}) {
        const auto reading = parse_rod_clearance(text, true);
        ASSERT_TRUE(reading.ok()) << text;
        EXPECT_NEAR(reading->low_mm, 0.0095 * inch, 1e-12) << text;
        EXPECT_NEAR(reading->high_mm, 0.0105 * inch, 1e-12) << text;
        EXPECT_NEAR(reading->finest_mm, 0.001 * inch, 1e-12) << text;
    }
    EXPECT_EQ(parse_rod_clearance("light drag", true).error().code, ErrorCode::gauge_needed);
    EXPECT_EQ(parse_rod_clearance("10 light drag", true).error().code, ErrorCode::unit_needed);
    EXPECT_EQ(parse_rod_clearance("moonlight drag", true).error().code, ErrorCode::not_a_length);
    EXPECT_EQ(without_drag(".010"), ".010");
    EXPECT_NEAR(parse_rod_clearance(".008 goes, .0105 no", true)->finest_mm, 0.0001 * inch, 1e-12);
    EXPECT_EQ(parse_rod_clearance("touch", true)->finest_mm, 0.0);
}

// Nothing typed but a 0 has no last digit, so "about 0" isn't an inch.
TEST(RodClearanceReading, AboutNothingIsNothing) {
    EXPECT_EQ(parse_rod_clearance("~0", true)->high_mm, 0.0);
    EXPECT_NEAR(parse_rod_clearance("~.000", true)->high_mm, 0.001 * inch, 1e-12);
}

TEST(RodClearanceReading, RefusesGaugesThatSayNothing) {
    const auto code = [](const char* text) { return parse_rod_clearance(text, true).error().code; };
    EXPECT_EQ(code(".010 goes .008 no"), ErrorCode::out_of_range);
    EXPECT_NEAR(parse_rod_clearance(".010 goes .008 no", true).error().limits->high, 0.008, 1e-12);
    EXPECT_EQ(code("goes"), ErrorCode::gauge_needed);
    EXPECT_EQ(code("no"), ErrorCode::gauge_needed);
    EXPECT_EQ(code(".008 goes .010"), ErrorCode::not_a_length); // what of the second?
    EXPECT_EQ(code(".008-.010 goes"), ErrorCode::not_a_length);
    EXPECT_EQ(code("2 in goes"), ErrorCode::out_of_range);
    EXPECT_EQ(code("8 goes"), ErrorCode::unit_needed);
    EXPECT_EQ(code("tape survived"), ErrorCode::gauge_needed);
    EXPECT_EQ(code("no idea"), ErrorCode::not_a_length);
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
    EXPECT_FALSE(is_pass(verdict(".008 goes")));
    EXPECT_FALSE(is_pass(verdict("tape .006 survived")));
    EXPECT_EQ(verdict(".010 goes, .012 no"), Verdict::passed_little_room);
    EXPECT_EQ(verdict(".008 no"), Verdict::failed);
}

} // namespace
} // namespace rodway
