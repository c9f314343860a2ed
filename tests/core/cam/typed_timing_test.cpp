#include "core/cam/typed_timing.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr ValveKind I = ValveKind::intake;
constexpr ValveKind E = ValveKind::exhaust;

void expect_card(const char* text, double io, double ic, double eo, double ec) {
    const auto card = parse_card(text);
    ASSERT_TRUE(card.ok()) << text;
    EXPECT_EQ(card->intake.opens_crank_deg, io) << text;
    EXPECT_EQ(card->intake.closes_crank_deg, ic) << text;
    EXPECT_EQ(card->exhaust.opens_crank_deg, eo) << text;
    EXPECT_EQ(card->exhaust.closes_crank_deg, ec) << text;
    EXPECT_EQ(card->text, text);
}

TEST(TypedCard, ReadsBothWaysOfWritingIt) {
    expect_card("20-60/60-20", 20, 60, 60, 20);
    expect_card("31/77/63/29", 31, 77, 63, 29);
    expect_card(" 20 - 60 / 60 - 20 ", 20, 60, 60, 20);
    expect_card("20.5-60/60-20,5", 20.5, 60, 60, 20.5);
    expect_card("20\u201360/60\u201320", 20, 60, 60, 20); // en dash
    expect_card("20\u00b0-60\u00b0/60\u00b0-20\u00b0", 20, 60, 60, 20);
}

TEST(TypedCard, ReadsEventsOnTheOtherSide) {
    expect_card("-8-40/48-(-8)", -8, 40, 48, -8);
    expect_card("(-8)-40/48-(-8)", -8, 40, 48, -8);
    expect_card("-8-40/48--8", -8, 40, 48, -8);
    expect_card("-8/40/48/-8", -8, 40, 48, -8);
    expect_card("\u22128/40/48/\u22128", -8, 40, 48, -8); // minus sign
    expect_card("8 ATDC - 40 ABDC / 48 BBDC - 8 BTDC", -8, 40, 48, -8);
    expect_card("20 BTDC - 60 ABDC / 60 BBDC - 20 ATDC", 20, 60, 60, 20);
}

TEST(TypedCard, AUnitBehindTheLastHoldsForAllAndAMixtureIsUnclear) {
    expect_card("20-60/60-20 crank", 20, 60, 60, 20);
    expect_card("10-30/30-10 cam", 20, 60, 60, 20);
    expect_card("10 cam - 30 cam / 30 cam - 10 cam", 20, 60, 60, 20);
    for (const char* text : {"10 cam-60/60-20", "10 cam - 60 crank / 60 - 20",
                             "20-30 cam/30 cam-20", "10 cam-30/30-10 cam"}) {
        const auto card = parse_card(text);
        ASSERT_FALSE(card.ok()) << text;
        EXPECT_EQ(card.error().code, ErrorCode::angle_kind_unclear) << text;
    }
}

TEST(TypedCard, RefusesWhatItCannotRead) {
    const std::pair<const char*, ErrorCode> cases[] = {
        {"", ErrorCode::empty_text},
        {"  ", ErrorCode::empty_text},
        {"20-60", ErrorCode::not_an_angle},
        {"20-60/60", ErrorCode::not_an_angle},
        {"20-60/60-20-5", ErrorCode::not_an_angle},
        {"20-60/60/20", ErrorCode::not_an_angle}, // two ways mixed
        {"20/60/60-20", ErrorCode::not_an_angle},
        {"20-60-60-20", ErrorCode::not_an_angle},
        {"20 60 60 20", ErrorCode::not_an_angle},
        {"20-60/60-(20", ErrorCode::not_an_angle},
        {"20-60/60-20 mm", ErrorCode::not_an_angle},
        {"nan-60/60-20", ErrorCode::not_an_angle},
        {"20-60/60-1e300", ErrorCode::not_an_angle},
        {"20-60/60-9999999999999999999", ErrorCode::not_an_angle},
        {"-8 BTDC-60/60-20", ErrorCode::not_an_angle}, // which side?
        {"20 BBDC-60/60-20", ErrorCode::not_a_choice},
        {"20-60 ATDC/60-20", ErrorCode::not_a_choice},
        {"200-60/60-20", ErrorCode::out_of_range},
        {"-100/-90/60/20", ErrorCode::out_of_range}, // closes before it opens
    };
    for (const auto& [text, code] : cases) {
        const auto card = parse_card(text);
        ASSERT_FALSE(card.ok()) << text;
        EXPECT_EQ(static_cast<int>(card.error().code), static_cast<int>(code)) << text;
        EXPECT_EQ(card.error().value, text);
    }
}

TEST(TypedCard, WhatIsReadIsWhatWasWritten) {
    const std::uint64_t seed = 12;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_int_distribution<int> tenths(-300, 900);
    for (int time = 0; time < 500; ++time) {
        const double a = tenths(random) / 10.0;
        const double b = tenths(random) / 10.0;
        const double c = tenths(random) / 10.0;
        const double d = tenths(random) / 10.0;
        const std::string slashes =
            exact_text(a) + "/" + exact_text(b) + "/" + exact_text(c) + "/" + exact_text(d);
        const std::string dashes =
            exact_text(a) + "-" + exact_text(b) + "/" + exact_text(c) + "-" + exact_text(d);
        expect_card(slashes.c_str(), a, b, c, d);
        expect_card(dashes.c_str(), a, b, c, d);
    }
}

TEST(TypedEvent, TakesTheSignFromTheDeadCentre) {
    const std::tuple<const char*, CamEvent, double> cases[] = {
        {"20", CamEvent::intake_opens, 20.0},
        {"-8", CamEvent::intake_opens, -8.0},
        {"(-8)", CamEvent::intake_opens, -8.0},
        {"8 ATDC", CamEvent::intake_opens, -8.0},
        {"20 BTDC", CamEvent::intake_opens, 20.0},
        {"20btdc", CamEvent::intake_opens, 20.0},
        {"60 ABDC", CamEvent::intake_closes, 60.0},
        {"5 bbdc", CamEvent::intake_closes, -5.0},
        {"60 BBDC", CamEvent::exhaust_opens, 60.0},
        {"5 ABDC", CamEvent::exhaust_opens, -5.0},
        {"20 ATDC", CamEvent::exhaust_closes, 20.0},
        {"8 BTDC", CamEvent::exhaust_closes, -8.0},
        {"10 cam ATDC", CamEvent::exhaust_closes, 20.0},
        {"10 deg. cam atdc", CamEvent::exhaust_closes, 20.0},
        {"8 BTDC cam", CamEvent::exhaust_closes, -16.0},
    };
    for (const auto& [text, event, deg] : cases) {
        const auto read = parse_event(text, event);
        ASSERT_TRUE(read.ok()) << text;
        EXPECT_EQ(read->deg, deg) << text;
        EXPECT_EQ(read->text, text);
    }
    const auto wrong = parse_event("8 ABDC", CamEvent::intake_opens);
    ASSERT_FALSE(wrong.ok());
    EXPECT_EQ(wrong.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(wrong.error().expected, "BTDC ATDC");
    EXPECT_EQ(parse_event("eight", CamEvent::intake_opens).error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(parse_event("181", CamEvent::intake_opens).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_event("8 ATDC BTDC", CamEvent::intake_opens).error().code,
              ErrorCode::not_an_angle);
}

TEST(TypedValveEvents, ReadsOneValve) {
    const auto intake = parse_valve_events("-8-40", I);
    ASSERT_TRUE(intake.ok());
    EXPECT_EQ(intake->events.opens_crank_deg, -8.0);
    EXPECT_EQ(intake->events.closes_crank_deg, 40.0);
    const auto exhaust = parse_valve_events("48 BBDC / 8 BTDC", E);
    ASSERT_TRUE(exhaust.ok());
    EXPECT_EQ(exhaust->events.opens_crank_deg, 48.0);
    EXPECT_EQ(exhaust->events.closes_crank_deg, -8.0);
    EXPECT_EQ(parse_valve_events("20-60/60-20", I).error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(parse_valve_events("48 BBDC/8", I).error().code, ErrorCode::not_a_choice);
}

TEST(TypedCentreline, ReadsWhatBuildersSay) {
    struct Case {
        const char* text;
        ValveKind kind;
        std::optional<double> centreline, separation, advance;
    };
    const Case cases[] = {
        {"106", I, 106.0, {}, {}},
        {"106.5", I, 106.5, {}, {}},
        {"106,5", I, 106.5, {}, {}},
        {"106\u00b0 ATDC", I, 106.0, {}, {}},
        {"112 btdc", E, 112.0, {}, {}},
        {"53 cam", I, 106.0, {}, {}},
        {"106 crank", I, 106.0, {}, {}},
        {"110+4", I, 106.0, 110.0, 4.0},
        {"110 + 4", E, 114.0, 110.0, 4.0},
        {"108-4", I, 112.0, 108.0, -4.0},
        {"108\u22124", E, 104.0, 108.0, -4.0},
        {"110+0", I, 110.0, 110.0, 0.0},
        {"110 4 advanced", I, 106.0, 110.0, 4.0},
        {"110, 4 retarded", I, 114.0, 110.0, -4.0},
        {"110+4 advanced", I, 106.0, 110.0, 4.0},
        {"108-4 retarded", I, 112.0, 108.0, -4.0},
        {"4 retarded", I, {}, {}, -4.0},
        {"4 advanced", E, {}, {}, 4.0},
        {"2.5 Adv.", I, {}, {}, 2.5},
        {"2 cam retarded", I, {}, {}, -4.0},
    };
    for (const Case& known : cases) {
        const auto read = parse_centreline(known.text, known.kind);
        ASSERT_TRUE(read.ok()) << known.text;
        EXPECT_EQ(read->centreline_crank_deg, known.centreline) << known.text;
        EXPECT_EQ(read->lobe_separation_cam_deg, known.separation) << known.text;
        EXPECT_EQ(read->advance_crank_deg, known.advance) << known.text;
        EXPECT_EQ(read->text, known.text);
    }
}

TEST(TypedCentreline, RefusesWhatItCannotReadAndWhatContradictsItself) {
    const std::pair<const char*, ErrorCode> cases[] = {
        {"", ErrorCode::empty_text},
        {"about 106", ErrorCode::not_an_angle},
        {"106 mm", ErrorCode::not_an_angle},
        {"110+", ErrorCode::not_an_angle},
        {"110 4", ErrorCode::not_an_angle},
        {"110+4+2", ErrorCode::not_an_angle},
        {"108-4 advanced", ErrorCode::not_an_angle},
        {"110+4 retarded", ErrorCode::not_an_angle},
        {"-4 advanced", ErrorCode::not_an_angle},
        {"106 BTDC", ErrorCode::not_a_choice}, // an intake's comes after
        {"75", ErrorCode::out_of_range},
        {"350", ErrorCode::out_of_range},
        {"105-110", ErrorCode::out_of_range}, // an interval, or 110 retarded?
        {"30 advanced", ErrorCode::out_of_range},
        {"53", ErrorCode::angle_kind_unclear},
        {"106 cam", ErrorCode::angle_kind_unclear},
        {"53 crank", ErrorCode::angle_kind_unclear},
        {"55+4", ErrorCode::angle_kind_unclear},
        {"220+4", ErrorCode::angle_kind_unclear},
        {"110+2 cam", ErrorCode::angle_kind_unclear},
        {"110 cam+4", ErrorCode::angle_kind_unclear},
        {"110+4 crank advanced", ErrorCode::angle_kind_unclear},
        {"110+4 advanced crank", ErrorCode::angle_kind_unclear},
    };
    for (const auto& [text, code] : cases) {
        const auto read = parse_centreline(text, I);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(static_cast<int>(read.error().code), static_cast<int>(code)) << text;
        EXPECT_EQ(read.error().value, text);
    }
    EXPECT_EQ(parse_centreline("106 ATDC", E).error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(parse_centreline("53", I).error().expected, "crank cam");
}

TEST(TypedDuration, IsInCrankDegreesAndNeverGuessed) {
    EXPECT_EQ(parse_duration("252")->deg, 252.0);
    EXPECT_EQ(parse_duration("252\u00b0")->deg, 252.0);
    EXPECT_EQ(parse_duration("126 cam")->deg, 252.0);
    EXPECT_EQ(parse_duration("120 cam")->deg, 240.0);
    EXPECT_EQ(parse_duration("120 crank")->deg, 120.0); // high on the nose it may be so
    EXPECT_EQ(parse_duration("252 crank")->text, "252 crank");
    EXPECT_EQ(parse_duration("120").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_duration("252 cam").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_duration("900").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_duration("-120").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_duration("252 ATDC").error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(parse_duration("").error().code, ErrorCode::empty_text);
}

TEST(TypedLobeSeparation, IsInCamDegrees) {
    EXPECT_EQ(parse_lobe_separation("108")->deg, 108.0);
    EXPECT_EQ(parse_lobe_separation("108 cam")->deg, 108.0);
    EXPECT_EQ(parse_lobe_separation("216 crank")->deg, 108.0);
    EXPECT_EQ(parse_lobe_separation("55").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_lobe_separation("216").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_lobe_separation("108 crank").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_lobe_separation("75").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_lobe_separation("108 ABDC").error().code, ErrorCode::not_an_angle);
}

TEST(TypedWheelMark, CountsFromTheWheelsTopDeadCentre) {
    const std::pair<const char*, double> cases[] = {
        {"19.5 ATDC", 19.5}, {"22 BTDC", -22.0}, {"60 ABDC", 240.0},
        {"40 BBDC", 140.0},  {"340", 340.0},     {"-20", -20.0},
        {"0", 0.0},          {"(-20)", -20.0},   {"20 crank", 20.0},
    };
    for (const auto& [text, deg] : cases) {
        const auto read = parse_wheel_mark(text);
        ASSERT_TRUE(read.ok()) << text;
        EXPECT_EQ(read->deg, deg) << text;
    }
    EXPECT_EQ(parse_wheel_mark("361").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_wheel_mark("200 ATDC").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_wheel_mark("-20 BTDC").error().code, ErrorCode::not_an_angle);
    EXPECT_EQ(parse_wheel_mark("10 cam").error().code, ErrorCode::angle_kind_unclear);
    EXPECT_EQ(parse_wheel_mark("").error().code, ErrorCode::empty_text);
}

// Whatever is typed, an answer comes back: no crash, and a number only where there is one.
TEST(TypedTiming, RandomTextNeitherCrashesNorReadsAsMoreThanAnAngle) {
    const std::uint64_t seed = 77;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const std::string letters = "0123456789-+/(). ,abcdtmk\xc2\xb0\xe2\x88\x92\xff";
    std::uniform_int_distribution<std::size_t> letter(0, letters.size() - 1);
    int read = 0;
    for (int time = 0; time < 20000; ++time) {
        std::string text;
        for (std::size_t length = letter(random) / 2; length > 0; --length) {
            text += letters[letter(random)];
        }
        const auto card = parse_card(text);
        const auto centreline = parse_centreline(text, I);
        const auto mark = parse_wheel_mark(text);
        const auto duration = parse_duration(text);
        if (mark.ok()) {
            ++read;
            EXPECT_LE(std::abs(mark->deg), 360.0) << text;
        }
        if (card.ok()) {
            EXPECT_GT(card->intake.duration_crank_deg(), 0.0) << text;
        }
        EXPECT_TRUE(centreline.ok() || centreline.error().value == text);
        EXPECT_TRUE(duration.ok() || duration.error().value == text);
    }
    EXPECT_GT(read, 100);
}

} // namespace
} // namespace rodway
