#include "core/bottom_end/piston_wall.h"

#include <gtest/gtest.h>

#include "core/units/length.h"

namespace rodway {
namespace {

double mm(double inches) {
    return Length::inches(inches).in_mm();
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}
Interval in(double value) {
    return Interval::around(mm(value), mm(0.0001));
}
const SizeBand wanted{0.0045 * 25.4, 0.0055 * 25.4, FigureSource::makers_instructions};

// Invented figures; by hand.
TEST(PistonWall, IsBoreLessPistonWithTheDoubtOfBoth) {
    const auto walls = piston_walls({{1, in(4.0250), 12.7, in(4.0300)},
                                     {2, in(4.0252), 12.7, in(4.0290)},
                                     {3, in(4.0250), 12.7, in(4.0295)},
                                     {4, in(4.0250), 12.7, {}},
                                     {5, {}, {}, in(4.03)}},
                                    wanted);
    ASSERT_TRUE(walls.ok());
    ASSERT_EQ(walls->size(), 5u);
    EXPECT_NEAR(inches((*walls)[0].clearance_mm->low), 0.0049, 1e-9);
    EXPECT_NEAR(inches((*walls)[0].clearance_mm->high), 0.0051, 1e-9);
    EXPECT_EQ((*walls)[0].standing, SizeStanding::within);
    EXPECT_EQ(*(*walls)[0].hone_mm, 0.0);
    EXPECT_EQ((*walls)[1].standing, SizeStanding::below);
    EXPECT_NEAR(inches(*(*walls)[1].hone_mm), 0.0045 - 0.0037, 1e-9);
    EXPECT_EQ((*walls)[2].standing, SizeStanding::too_close_to_call);
    EXPECT_NEAR(inches(*(*walls)[2].hone_mm), 0.0001, 1e-9);
    EXPECT_FALSE((*walls)[3].clearance_mm.has_value());
    EXPECT_FALSE((*walls)[3].standing.has_value());
    EXPECT_FALSE((*walls)[3].hone_mm.has_value());
    EXPECT_FALSE((*walls)[4].clearance_mm.has_value());
    EXPECT_FALSE((*walls)[4].gauge_height_unsure);
}

TEST(PistonWall, ASkirtMeasuredElsewhereIsNotComparable) {
    const auto walls = piston_walls({{1, in(4.025), 12.7, in(4.03)},
                                     {2, in(4.025), {}, in(4.03)},
                                     {3, in(4.025), 19.0, in(4.03)},
                                     {4, in(4.025), 12.7, in(4.03)}},
                                    wanted);
    EXPECT_FALSE((*walls)[0].gauge_height_unsure);
    EXPECT_TRUE((*walls)[1].gauge_height_unsure);
    EXPECT_TRUE((*walls)[2].gauge_height_unsure);
    EXPECT_FALSE((*walls)[3].gauge_height_unsure);
    // If nobody wrote one down, none is sure.
    EXPECT_TRUE(piston_walls({{1, in(4.025), {}, in(4.03)}}, wanted)->front().gauge_height_unsure);
}

TEST(PistonWall, NamesWhatIsWrong) {
    const auto wrong = [&](PistonInBore piston) {
        return piston_walls({{1, in(4.025), 12.7, in(4.03)}, piston}, wanted).error();
    };
    EXPECT_EQ(wrong({2, Interval{4.0, 4.0}, 12.7, in(4.03)}).field, "piston");
    EXPECT_EQ(wrong({2, Interval{4.0, 4.0}, 12.7, in(4.03)}).line, 2);
    EXPECT_EQ(wrong({2, in(4.0), 12.7, Interval{103.0, 102.0}}).field, "bore");
    EXPECT_EQ(wrong({2, in(4.0), -1.0, in(4.03)}).field, "gauge_height");
}

} // namespace
} // namespace rodway
