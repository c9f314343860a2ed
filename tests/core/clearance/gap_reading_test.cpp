#include "core/clearance/gap_reading.h"

#include <gtest/gtest.h>

#include <limits>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

GapReading good() {
    GapReading reading;
    reading.name = "7";
    reading.valve = {1, ValveKind::intake, 1};
    reading.clock_hours = 3.0;
    reading.low_mm = 0.2;
    reading.high_mm = 0.25;
    return reading;
}

template <typename Change>
Error refused(const Change& change) {
    GapReading reading = good();
    change(reading);
    const auto checked = check_gap_reading(reading);
    EXPECT_FALSE(checked.ok());
    return checked.ok() ? Error{} : checked.error();
}

TEST(GapReading, TakesIntervalsAndOneSidedOnes) {
    EXPECT_TRUE(check_gap_reading(good()).ok());
    GapReading reading = good();
    reading.high_mm = {};
    EXPECT_TRUE(check_gap_reading(reading).ok());
    reading = good();
    reading.low_mm = {};
    EXPECT_TRUE(check_gap_reading(reading).ok());
    reading = good();
    reading.low_mm = reading.high_mm = 0.0; // touch
    reading.clock_hours = {};               // at the tightest place
    EXPECT_TRUE(check_gap_reading(reading).ok());
}

TEST(GapReading, RefusesByName) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinite = std::numeric_limits<double>::infinity();
    EXPECT_EQ(refused([&](GapReading& r) { r.low_mm = nan; }).field, "readings/7/low");
    EXPECT_EQ(refused([&](GapReading& r) { r.low_mm = nan; }).code, ErrorCode::not_a_number);
    EXPECT_EQ(refused([&](GapReading& r) { r.high_mm = infinite; }).code, ErrorCode::not_a_number);
    EXPECT_EQ(refused([&](GapReading& r) { r.high_mm = 30.0; }).code, ErrorCode::out_of_range);
    EXPECT_EQ(refused([&](GapReading& r) { r.low_mm = -0.1; }).code, ErrorCode::out_of_range);
    EXPECT_EQ(refused([&](GapReading& r) { r.clock_hours = nan; }).field, "readings/7/clock");
    EXPECT_EQ(refused([&](GapReading& r) { r.clock_hours = 13.0; }).code, ErrorCode::out_of_range);
    EXPECT_EQ(refused([&](GapReading& r) { r.low_mm = 0.3; }).limits->high, 0.25);
    EXPECT_EQ(refused([&](GapReading& r) { r.low_mm = r.high_mm = {}; }).code,
              ErrorCode::missing_field);
    EXPECT_EQ(refused([&](GapReading& r) {
                  r.place = TurnPlace::at_crank_angle;
                  r.crank = CrankAngle::deg(nan);
              }).code,
              ErrorCode::not_an_angle);
}

TEST(GapReading, StandsAtTheLobeLiftOfItsPlace) {
    const Engine engine = demo_engine("v8-port-tubes");
    GapReading reading = good();
    EXPECT_EQ(lobe_lift_mm(engine, reading), 0.0);
    reading.place = TurnPlace::at_full_lift;
    const double full = engine.intake.lobe.full_lift_mm();
    EXPECT_EQ(lobe_lift_mm(engine, reading), full);
    reading.place = TurnPlace::at_crank_angle;
    reading.crank = engine.full_lift_angle(reading.valve);
    EXPECT_NEAR(lobe_lift_mm(engine, reading), full, 1e-9);
    reading.crank = reading.crank + CrankAngle::deg(60.0);
    EXPECT_LT(lobe_lift_mm(engine, reading), 0.9 * full);
    EXPECT_GT(lobe_lift_mm(engine, reading), 0.1 * full);
}

} // namespace
} // namespace rodway
