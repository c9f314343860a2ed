#include "core/sheets/rod_gap_position.h"

#include <gtest/gtest.h>

#include <iostream>
#include <limits>
#include <random>
#include <set>

namespace rodway {
namespace {

RodGapPosition place(const std::string& valve, BoreEnd end, std::optional<int> minutes,
                     TurnPlace turn, double crank_deg = 0.0) {
    RodGapPosition position;
    position.valve = *parse_position(valve);
    position.end = end;
    position.clock_minutes = minutes;
    position.place = turn;
    position.crank = CrankAngle::deg(crank_deg);
    return position;
}

std::string text_of(const RodGapPosition& position) {
    const auto text = rod_gap_position_text(position);
    EXPECT_TRUE(text.ok());
    return text.ok() ? *text : std::string();
}

// These texts stand in shop files: they may never change.
TEST(RodGapPosition, IsWrittenAsShopFilesHaveIt) {
    EXPECT_EQ(rod_gap_quantity, "rod_gap");
    EXPECT_EQ(text_of(place("3I", BoreEnd::top, 180, TurnPlace::at_full_lift)),
              "3I/tube/rocker/3/full_lift");
    EXPECT_EQ(text_of(place("5E", BoreEnd::bottom, {}, TurnPlace::on_heel)),
              "5E/tube/lifter/tightest/heel");
    EXPECT_EQ(text_of(place("3I2", BoreEnd::top, 210, TurnPlace::at_crank_angle, 120.5)),
              "3I2/tube/rocker/3:30/120.5_crank_deg");
    // The half hour after twelve is the first of the round; a minute has two digits.
    EXPECT_EQ(text_of(place("1I", BoreEnd::top, 30, TurnPlace::on_heel)),
              "1I/tube/rocker/12:30/heel");
    EXPECT_EQ(text_of(place("1I", BoreEnd::top, 720, TurnPlace::on_heel)),
              "1I/tube/rocker/12/heel");
    EXPECT_EQ(text_of(place("1I", BoreEnd::top, 605, TurnPlace::on_heel)),
              "1I/tube/rocker/10:05/heel");
    RodGapPosition plate = place("1I", BoreEnd::top, 60, TurnPlace::on_heel);
    plate.passage = "guide plate";
    EXPECT_EQ(text_of(plate), "1I/guide plate/rocker/1/heel");
}

// One text for one place, by which a retake is known: an angle within the cycle, to 0.001 degree.
TEST(RodGapPosition, OneCrankAngleHasOneText) {
    for (const double deg : {120.5, 840.5, -599.5, 120.5000001, 120.4999999}) {
        EXPECT_EQ(text_of(place("1I", BoreEnd::top, 60, TurnPlace::at_crank_angle, deg)),
                  "1I/tube/rocker/1/120.5_crank_deg")
            << deg;
    }
    for (const double deg : {0.0, 720.0, -720.0, 719.9999, -0.0001}) {
        EXPECT_EQ(text_of(place("1I", BoreEnd::top, 60, TurnPlace::at_crank_angle, deg)),
                  "1I/tube/rocker/1/0_crank_deg")
            << deg;
    }
}

TEST(RodGapPosition, EveryPlaceReadsBackAsItself) {
    const std::uint64_t seed = 20261125;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_int_distribution<int> thousandths(0, 719999);
    std::set<std::string> texts;
    std::size_t places = 0;
    for (const char* valve : {"1I", "12E", "3I2"}) {
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            for (int minutes = 0; minutes <= 720; ++minutes) {
                for (const TurnPlace turn :
                     {TurnPlace::on_heel, TurnPlace::at_full_lift, TurnPlace::at_crank_angle}) {
                    const double deg = thousandths(random) / 1000.0;
                    const RodGapPosition given =
                        place(valve, end, minutes == 0 ? std::nullopt : std::optional(minutes),
                              turn, deg);
                    const std::string text = text_of(given);
                    const auto read = parse_rod_gap_position(text);
                    ASSERT_TRUE(read.ok()) << text;
                    EXPECT_EQ(read->valve, given.valve);
                    EXPECT_EQ(read->passage, given.passage);
                    EXPECT_EQ(read->end, given.end) << text;
                    EXPECT_EQ(read->clock_minutes, given.clock_minutes) << text;
                    EXPECT_EQ(read->place, given.place) << text;
                    if (turn == TurnPlace::at_crank_angle) {
                        EXPECT_EQ(read->crank.in_deg(), deg) << text;
                    }
                    texts.insert(text);
                    ++places;
                }
            }
        }
    }
    EXPECT_EQ(texts.size(), places); // no two places share a text
}

TEST(RodGapPosition, EveryOtherTextIsRefused) {
    for (const char* text : {"",
                             "3I",
                             "3I/tube",
                             "3I/tube/rocker/3",
                             "3I/tube/rocker/3/full_lift/",
                             "3I/tube/rocker/3/full_lift/x",
                             "/tube/rocker/3/heel",
                             "3I//rocker/3/heel",
                             "3I/tube//3/heel",
                             "3I/tube/rocker//heel",
                             "3I/tube/rocker/3/",
                             "3X/tube/rocker/3/heel",
                             "3i/tube/rocker/3/heel",
                             "#3I/tube/rocker/3/heel",
                             "3I1/tube/rocker/3/heel",
                             "0I/tube/rocker/3/heel",
                             "3I/tube/top/3/heel",
                             "3I/tube/Rocker/3/heel",
                             "3I/tube/rocker/0/heel",
                             "3I/tube/rocker/13/heel",
                             "3I/tube/rocker/03/heel",
                             "3I/tube/rocker/3:00/heel",
                             "3I/tube/rocker/3:5/heel",
                             "3I/tube/rocker/3:60/heel",
                             "3I/tube/rocker/3:30:00/heel",
                             "3I/tube/rocker/0:30/heel",
                             "3I/tube/rocker/-3/heel",
                             "3I/tube/rocker/+3/heel",
                             "3I/tube/rocker/3.5/heel",
                             "3I/tube/rocker/Tightest/heel",
                             "3I/tube/rocker/3 /heel",
                             " 3I/tube/rocker/3/heel",
                             "3I/tube/rocker/3/heel ",
                             "3I/tube/rocker/3/full",
                             "3I/tube/rocker/3/full lift",
                             "3I/tube/rocker/3/120.5",
                             "3I/tube/rocker/3/_crank_deg",
                             "3I/tube/rocker/3/nan_crank_deg",
                             "3I/tube/rocker/3/inf_crank_deg",
                             "3I/tube/rocker/3/1e400_crank_deg",
                             "3I/tube/rocker/3/720_crank_deg",
                             "3I/tube/rocker/3/-10_crank_deg",
                             "3I/tube/rocker/3/120,5_crank_deg",
                             "3I/tube/rocker/3/120.50_crank_deg",
                             "3I/tube/rocker/3/120.12345_crank_deg",
                             "3I/tube/rocker/3/1e2_crank_deg"}) {
        const auto read = parse_rod_gap_position(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().code, ErrorCode::wrong_type) << text;
        EXPECT_EQ(read.error().field, "position");
        EXPECT_EQ(read.error().value, text);
    }
}

TEST(RodGapPosition, WhatIsNoPlaceHasNoText) {
    const auto refused = [](const auto& change) {
        RodGapPosition position = place("3I", BoreEnd::top, 180, TurnPlace::at_crank_angle, 10.0);
        change(position);
        const auto text = rod_gap_position_text(position);
        EXPECT_FALSE(text.ok());
        return text.ok() ? ErrorCode::empty_text : text.error().code;
    };
    using P = RodGapPosition;
    EXPECT_EQ(refused([](P& p) { p.valve.cylinder = 0; }), ErrorCode::not_a_position);
    EXPECT_EQ(refused([](P& p) { p.valve.which = 0; }), ErrorCode::not_a_position);
    EXPECT_EQ(refused([](P& p) { p.passage = ""; }), ErrorCode::wrong_type);
    EXPECT_EQ(refused([](P& p) { p.passage = "a/b"; }), ErrorCode::wrong_type);
    EXPECT_EQ(refused([](P& p) { p.clock_minutes = 0; }), ErrorCode::out_of_range);
    EXPECT_EQ(refused([](P& p) { p.clock_minutes = 721; }), ErrorCode::out_of_range);
    for (const double deg :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        EXPECT_EQ(refused([&](P& p) { p.crank = CrankAngle::deg(deg); }), ErrorCode::not_an_angle);
    }
}

TEST(RodGapPosition, AClockIsReadAsPeopleTypeIt) {
    EXPECT_EQ(*parse_clock("3"), 180);
    EXPECT_EQ(*parse_clock("3:00"), 180);
    EXPECT_EQ(*parse_clock("03:30"), 210);
    EXPECT_EQ(*parse_clock("12"), 720);
    EXPECT_EQ(*parse_clock("12:30"), 30);
    EXPECT_EQ(*parse_clock("tightest"), std::nullopt);
    for (const char* text : {"", "0", "13", "3:", ":30", "3:60", "3:5", "three", "3.5", "-3"}) {
        const auto read = parse_clock(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().field, "clock");
    }
}

} // namespace
} // namespace rodway
