#include "core/bottom_end/end_play.h"

#include <gtest/gtest.h>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double value, double step = 0.0005) {
    return Interval::around(Length::inches(value).in_mm(), Length::inches(step).in_mm());
}
double inches(double mm) {
    return Length::mm(mm).in_inches();
}

// Invented; the band is common practice, no source.
TEST(EndPlay, IsTheDialsTravelWhicheverWayItCounts) {
    const auto one_way = end_play({{in(0.0), in(0.0065)}}, common_crank_end_play());
    const auto other_way = end_play({{in(0.0065), in(0.0)}}, common_crank_end_play());
    ASSERT_TRUE(one_way.ok() && other_way.ok());
    EXPECT_NEAR(inches(one_way->play_mm.middle()), 0.0065, 1e-9);
    EXPECT_NEAR(inches(one_way->play_mm.width()), 0.001, 1e-9);
    EXPECT_NEAR(one_way->play_mm.low, other_way->play_mm.low, 1e-12);
    EXPECT_NEAR(one_way->play_mm.high, other_way->play_mm.high, 1e-12);
    const auto dial_not_zeroed = end_play({{in(0.0165), in(0.0100)}}, common_crank_end_play());
    EXPECT_NEAR(inches(dial_not_zeroed->play_mm.middle()), 0.0065, 1e-9);
    EXPECT_EQ(one_way->standing, SizeStanding::within);
    EXPECT_FALSE(one_way->trials_apart_mm.has_value());
    EXPECT_EQ(end_play({{in(0.0), in(0.0035)}}, common_crank_end_play())->standing,
              SizeStanding::too_close_to_call);
    EXPECT_EQ(end_play({{in(0.0), in(0.0025)}}, common_crank_end_play())->standing,
              SizeStanding::below);
    EXPECT_EQ(end_play({{in(0.0), in(0.0250)}}, common_rod_side_clearance())->standing,
              SizeStanding::above);
}

TEST(EndPlay, TrialsThatDoNotRepeatAreToldFromRounding) {
    const auto rounding =
        end_play({{in(0.0), in(0.0060)}, {in(0.0), in(0.0065)}}, common_crank_end_play());
    EXPECT_NEAR(inches(rounding->play_mm.middle()), 0.00625, 1e-9);
    EXPECT_NEAR(inches(*rounding->trials_apart_mm), 0.0005, 1e-9);
    EXPECT_FALSE(rounding->does_not_repeat);
    const auto loose = end_play({{in(0.0), in(0.0050)}, {in(0.0), in(0.0065)}, {in(0), in(0.009)}},
                                common_crank_end_play());
    EXPECT_TRUE(loose->does_not_repeat);
    EXPECT_NEAR(inches(*loose->trials_apart_mm), 0.004, 1e-9);
}

TEST(EndPlay, NamesWhatIsWrong) {
    EXPECT_EQ(end_play({}, {}).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(end_play({{in(0), in(0)}, {in(0), {1.0, 0.5}}}, {}).error().field, "backward");
    EXPECT_EQ(end_play({{in(0), in(0)}, {in(0), {1.0, 0.5}}}, {}).error().line, 2);
    EXPECT_EQ(end_play({{in(5.0), in(0)}}, {}).error().field, "forward"); // thousandths as inches
    EXPECT_EQ(common_cam_end_play().source, FigureSource::common_practice);
}

} // namespace
} // namespace rodway
