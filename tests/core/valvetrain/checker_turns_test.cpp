#include "core/valvetrain/checker_turns.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/length.h"
#include "core/valvetrain/lash_setting.h"

namespace rodway {
namespace {

double inches(double value) {
    return Length::inches(value).in_mm();
}

// Worked by hand: 7.000 in closed and 3 1/2 turns of .050 in: 7.175; an eighth of a turn either way
// is .00625.
TEST(CheckerTurns, MakeALengthWithItsDoubt) {
    const auto length = checker_length_mm(
        {Interval::about(inches(7.0), inches(0.001)), Interval::about(3.5, 0.125), inches(0.050)});
    ASSERT_TRUE(length.ok());
    EXPECT_NEAR(Length::mm(length->middle()).in_inches(), 7.175, 1e-9);
    EXPECT_NEAR(Length::mm(length->half_width()).in_inches(), 0.00725, 1e-9);
}

// ls1tech.com 274125-lifter-pre-load-measurements: .008 in by a thread of 1.0 mm pitch is 73.15
// degrees; for 5/16-18 the page prints 52.36, while .008·18·360 is 51.84. A checker's thread has
// no lever in it, as the page has none.
TEST(CheckerTurns, EightThousandthsOfAPublishedPage) {
    const auto deg = [](const char* thread) {
        return checker_turns_for_length(Interval::exactly(inches(7.0)), inches(7.008),
                                        *parse_thread_pitch(thread))
                   ->middle() *
               360.0;
    };
    EXPECT_NEAR(deg("1.0 mm"), 73.15, 0.005); // print
    EXPECT_NEAR(deg("5/16-18"), 51.84, 1e-6); // rounding of lengths
    EXPECT_GT(std::abs(deg("5/16-18") - 52.36), 0.5);
}

TEST(CheckerTurns, LengthAndTurnsAreEachOthersInverse) {
    const Interval closed = Interval::about(180.0, 0.02);
    for (const double wanted : {180.02, 183.4, 196.0}) {
        const auto turns = checker_turns_for_length(closed, wanted, 1.27);
        ASSERT_TRUE(turns.ok());
        EXPECT_NEAR(turns->half_width(), 0.02 / 1.27, 1e-9);
        const auto back =
            checker_length_mm({Interval::exactly(180.0), Interval::exactly(turns->middle()), 1.27});
        EXPECT_NEAR(back->middle(), wanted, 1e-9);
    }
}

TEST(CheckerTurns, AUsualPitchIsNoMoreThanThat) {
    EXPECT_EQ(usual_checker_pitch_mm().source, FigureSource::common_practice);
    EXPECT_EQ(standing(Interval::exactly(inches(0.050)), usual_checker_pitch_mm()),
              BandStanding::inside);
    EXPECT_EQ(standing(Interval::exactly(1.0), usual_checker_pitch_mm()), BandStanding::below);
}

TEST(CheckerTurns, BadReadingsAreNamed) {
    const Interval closed = Interval::exactly(180.0);
    const Interval turns = Interval::exactly(3.0);
    EXPECT_EQ(checker_length_mm({Interval::exactly(7.0), turns, 1.0}).error().field,
              "closed_length");
    EXPECT_EQ(checker_length_mm({closed, {-1.0, 0.0}, 1.0}).error().field, "turns");
    EXPECT_EQ(checker_length_mm({closed, turns, 0.0}).error().field, "pitch");
    EXPECT_EQ(checker_length_mm({closed, turns, std::nan("")}).error().field, "pitch");
    EXPECT_EQ(checker_turns_for_length(closed, 179.0, 1.0).error().field, "length");
    EXPECT_EQ(checker_turns_for_length({179.9, 180.1}, 180.0, 1.0).error().field, "length")
        << "it may be longer closed";
    EXPECT_EQ(checker_turns_for_length(closed, 190.0, 20.0).error().field, "pitch");
}

} // namespace
} // namespace rodway
