#include "core/heads/retainer_room.h"

#include <gtest/gtest.h>

#include "core/loads/valve_spring.h"
#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double inches, double step) {
    return Interval::read(inches, inches, step) * Length::mm_per_inch;
}
void expect_inches(const Interval& found, double low, double high) {
    EXPECT_NEAR(Length::mm(found.low).in_inches(), low, 1e-9); // rounding
    EXPECT_NEAR(Length::mm(found.high).in_inches(), high, 1e-9);
}

const RetainerReadings readings{in(0.620, 0.010), in(0.560, 0.002), in(0.020, 0.002)};

// Worked by hand; the readings leave ±.005, ±.001 and ±.001 in.
TEST(RetainerRoom, IsWhatNetLiftLeavesAndLessWithTheLashGone) {
    const auto room = retainer_room(readings, Length::inches(0.100).in_mm());
    ASSERT_TRUE(room.ok());
    expect_inches(room->net_valve_lift_mm, 0.538, 0.542);
    expect_inches(room->at_full_lift_mm, 0.073, 0.087);
    expect_inches(room->with_lash_gone_mm, 0.054, 0.066);
    expect_inches(room->to_take_off_mm, 0.013, 0.027);
    EXPECT_EQ(retainer_room(readings, 0.5)->to_take_off_mm, Interval::exactly(0.0));
}

// The spring's own arithmetic, without doubt, must say the same.
TEST(RetainerRoom, AgreesWithTheSpringAtFullLift) {
    ValveSpring spring = *spring_from_rate(46.0, 400.0, 50.0);
    spring.retainer_to_seal_mm = 15.0;
    const auto room = retainer_room(
        {Interval::exactly(15.0), Interval::exactly(13.5), Interval::exactly(0.5)}, 1.0);
    EXPECT_NEAR(room->at_full_lift_mm.middle(), *at_full_lift(spring, 13.0).retainer_to_seal_mm,
                1e-12);
}

// TP-6: .050 in or more (common practice, no source).
TEST(RetainerRoom, IsJudgedByTheUsualFigure) {
    const auto room = retainer_room(readings, 1.0);
    EXPECT_EQ(standing(room->at_full_lift_mm, usual_retainer_room_mm()), BandStanding::inside);
    RetainerReadings tight = readings;
    tight.closed_mm = in(0.590, 0.010);
    EXPECT_EQ(standing(retainer_room(tight, 1.0)->at_full_lift_mm, usual_retainer_room_mm()),
              BandStanding::may_be_below);
    tight.closed_mm = in(0.500, 0.010);
    EXPECT_EQ(standing(retainer_room(tight, 1.0)->at_full_lift_mm, usual_retainer_room_mm()),
              BandStanding::below);
    EXPECT_LT(retainer_room(tight, 1.0)->at_full_lift_mm.high, 0.0) << "they touch";
    EXPECT_EQ(usual_retainer_room_mm().source, FigureSource::common_practice);
}

TEST(RetainerRoom, BadReadingsAreNamed) {
    RetainerReadings bad = readings;
    bad.closed_mm = {-1.0, 1.0};
    EXPECT_EQ(retainer_room(bad, 1.0).error().field, "closed");
    bad = readings;
    bad.gross_valve_lift_mm = Interval::exactly(56.0);
    EXPECT_EQ(retainer_room(bad, 1.0).error().field, "gross_valve_lift");
    bad = readings;
    bad.lash_mm = {0.5, 0.4};
    EXPECT_EQ(retainer_room(bad, 1.0).error().code, ErrorCode::order_wrong);
    EXPECT_EQ(retainer_room(readings, -0.1).error().field, "wanted");
}

} // namespace
} // namespace rodway
