#include "core/units/typed_amount.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

struct TypedCase {
    Dimension dimension;
    const char* text;
    const char* bare_unit;
    double low;
    double high;
    const char* unit;
};

// Factors as in NIST SP 811, App. B, to seven digits at least; the spellings are common practice,
// no source.
TEST(TypedAmount, ReadsWhatTheTradeWrites) {
    using D = Dimension;
    const TypedCase cases[] = {
        {D::torque, "45 lb-ft", "Nm", 61.0118077, 61.0118077, "lb-ft"},
        {D::torque, "45 ft-lbs", "Nm", 61.0118077, 61.0118077, "lb-ft"},
        {D::torque, "45 ft. lb.", "Nm", 61.0118077, 61.0118077, "lb-ft"},
        {D::torque, "45 foot pounds", "Nm", 61.0118077, 61.0118077, "lb-ft"},
        {D::torque, "45", "lb-ft", 61.0118077, 61.0118077, "lb-ft"},
        {D::torque, "45 in-lb", "lb-ft", 5.08431731, 5.08431731, "in-lb"},
        {D::torque, "88 N\u00b7m", "lb-ft", 88.0, 88.0, "Nm"},
        {D::torque, "9 kgf-m", "lb-ft", 88.25985, 88.25985, "kgf-m"},
        {D::torque, "40-45 lb-ft", "Nm", 54.2327179, 61.0118077, "lb-ft"},
        {D::torque, "40 lb-ft to 45 lb-ft", "Nm", 54.2327179, 61.0118077, "lb-ft"},
        {D::force, "125 lbs", "N", 556.027702, 556.027702, "lbf"},
        {D::force, "125#", "N", 556.027702, 556.027702, "lbf"},
        {D::force, "340 N", "lbf", 340.0, 340.0, "N"},
        {D::mass, "583.9", "g", 583.9, 583.9, "g"},
        {D::mass, "2 oz", "g", 56.6990463, 56.6990463, "oz"},
        {D::mass, "1,2 kg", "g", 1200.0, 1200.0, "kg"},
        {D::volume, "64 cm\u00b3", "ci", 64.0, 64.0, "cc"},
        {D::volume, "43.731 cu in", "cc", 716.622696, 716.622696, "ci"},
        {D::volume, "64\u00b1.5", "cc", 63.5, 64.5, "cc"},
        {D::volume, "-12 cc", "cc", -12.0, -12.0, "cc"},
        {D::volume, "5 qts", "cc", 4731.76473, 4731.76473, "qt"},
        {D::pressure, "60 psi", "kPa", 413.685438, 413.685438, "psi"},
        {D::pressure, "4.1 bar", "psi", 410.0, 410.0, "bar"},
        {D::pressure, "1013 mbar", "psi", 101.3, 101.3, "mbar"},
        {D::pressure, "29.92 in Hg", "kPa", 101.320759, 101.320759, "inHg"},
        {D::pressure, "29.92\"Hg", "kPa", 101.320759, 101.320759, "inHg"},
        {D::temperature, "77 F", "degC", 25.0, 25.0, "degF"},
        {D::temperature, "77\u00b0F", "degC", 25.0, 25.0, "degF"},
        {D::temperature, "-5 deg C", "degF", -5.0, -5.0, "degC"},
        {D::temperature, "160-180", "degF", 71.1111111, 82.2222222, "degF"},
        {D::angle, "45\u00b0", "deg", 45.0, 45.0, "deg"},
        {D::angle, "1/4 turn", "deg", 90.0, 90.0, "turn"},
        {D::angle, "1-1/2 turns", "deg", 540.0, 540.0, "turn"},
        {D::angle, "1 1/2 turns", "deg", 540.0, 540.0, "turn"},
        {D::crank_angle, "106 deg", "deg", 106.0, 106.0, "deg"},
        {D::crank_angle, "106 crank degrees", "deg", 106.0, 106.0, "deg"},
        {D::crank_angle, "-4", "deg", -4.0, -4.0, "deg"},
        {D::crank_angle, "53 cam", "deg", 106.0, 106.0, "cam"},
        {D::crank_angle, "20 BTDC", "deg", -20.0, -20.0, "btdc"},
        {D::crank_angle, "20 deg BTDC", "deg", -20.0, -20.0, "btdc"},
        {D::crank_angle, "60 ABDC", "deg", 240.0, 240.0, "abdc"},
        {D::crank_angle, "40 bbdc", "deg", 140.0, 140.0, "bbdc"},
        {D::crank_angle, "10-12 btdc", "deg", -12.0, -10.0, "btdc"},
        {D::cam_angle, "216 crank", "deg", 108.0, 108.0, "crank"},
        {D::power, "100 PS", "hp", 73.549875, 73.549875, "PS"},
        {D::power, "400 bhp", "kW", 298.279949, 298.279949, "hp"},
        {D::speed, "2500 rpm", "rpm", 2500.0, 2500.0, "rpm"},
        {D::time, "20 min", "s", 1200.0, 1200.0, "min"},
        {D::time, "1.5 h", "min", 5400.0, 5400.0, "h"},
        {D::percent, "8%", "%", 8.0, 8.0, "%"},
        {D::none, "3.5", "", 3.5, 3.5, ""},
        {D::length, ".010", "in", 0.254, 0.254, "in"},
        {D::length, "0.25", "mm", 0.25, 0.25, "mm"},
        {D::length, ".008-.010", "in", 0.2032, 0.254, "in"},
    };
    for (const TypedCase& each : cases) {
        const auto read = parse_amount(each.text, each.dimension, each.bare_unit);
        ASSERT_TRUE(read.ok()) << each.text;
        EXPECT_NEAR(read->low, each.low, 1e-8 * std::abs(each.low) + 1e-12) << each.text;
        EXPECT_NEAR(read->high, each.high, 1e-8 * std::abs(each.high) + 1e-12) << each.text;
        EXPECT_EQ(read->unit, each.unit) << each.text;
    }
}

TEST(TypedAmount, KeepsStepAndFirmness) {
    EXPECT_NEAR(parse_amount("64.50", Dimension::volume, "cc")->resolution, 0.01, 1e-15);
    EXPECT_NEAR(parse_amount("45", Dimension::torque, "in-lb")->resolution, 0.1129848, 1e-7);
    EXPECT_NEAR(parse_amount("77 F", Dimension::temperature, "degC")->resolution, 5.0 / 9.0, 1e-12);
    EXPECT_EQ(parse_amount("~40 psi", Dimension::pressure, "psi")->firmness, Firmness::about);
    EXPECT_EQ(parse_amount("<40", Dimension::pressure, "psi")->firmness, Firmness::below);
    EXPECT_EQ(parse_amount("> 40", Dimension::pressure, "psi")->firmness, Firmness::above);
    EXPECT_EQ(parse_amount("40", Dimension::pressure, "psi")->firmness, Firmness::plain);
}

// Both ends are whole multiples of the finest step, whatever stands behind the middle's point.
TEST(TypedAmount, KnowsTheStepOfWhichBothEndsAreMultiples) {
    EXPECT_NEAR(parse_amount("64.5", Dimension::volume, "cc")->finest, 0.1, 1e-15);
    EXPECT_NEAR(parse_amount("64\u00b1.5", Dimension::volume, "cc")->finest, 0.1, 1e-15);
    EXPECT_NEAR(parse_amount("64 +.25/-1", Dimension::volume, "cc")->finest, 0.01, 1e-15);
    EXPECT_NEAR(parse_amount("1/4-1/3 turn", Dimension::angle, "deg")->finest, 30.0, 1e-12);
    EXPECT_NEAR(parse_amount("10.2\u00b1.1 mm", Dimension::length, "in")->finest, 0.1, 1e-15);
    EXPECT_NEAR(parse_amount("10.0\u00b1.05 mm", Dimension::length, "in")->finest, 0.01, 1e-15);
    // An eighth, less and more by five thousandths: .120 and .130.
    const auto eighth = parse_amount("1/8\u00b1.005", Dimension::length, "in");
    EXPECT_NEAR(std::remainder(eighth->low, eighth->finest), 0.0, 1e-12);
    EXPECT_NEAR(std::remainder(eighth->high, eighth->finest), 0.0, 1e-12);
    EXPECT_EQ(parse_amount("0", Dimension::length, "in")->finest, 0.0);
}

// Less than 20 before top dead centre is later than 20 before it.
TEST(TypedAmount, LessOfWhatIsCountedBackIsMore) {
    EXPECT_EQ(parse_amount("<20 BTDC", Dimension::crank_angle, "deg")->firmness, Firmness::above);
    EXPECT_EQ(parse_amount("<20 ATDC", Dimension::crank_angle, "deg")->firmness, Firmness::below);
    EXPECT_EQ(parse_amount("<20", Dimension::crank_angle, "btdc")->firmness, Firmness::above);
}

TEST(TypedAmount, RefusesWhatItCannotBeSureOf) {
    using D = Dimension;
    const std::pair<D, const char*> cases[] = {
        {D::torque, "snug"},
        {D::torque, "45 psi"},
        {D::torque, "45-40"},
        {D::torque, "45 lb-ft x"},
        {D::torque, "45 lb-ft 3"},
        {D::torque, "4.5.6"},
        {D::torque, "40 Nm-45 lb-ft"},
        {D::torque, "40-"},
        {D::torque, "--40"},
        {D::torque, "nan"},
        {D::torque, "inf"},
        {D::torque, "1e5"},
        {D::torque, "lb-ft"},
        {D::speed, "2,500"},
        {D::speed, "2,500 rpm"},
        {D::crank_angle, "-8 ATDC"},
        {D::crank_angle, "8 ATDC ATDC"},
        {D::volume, "64+-"},
        {D::volume, "64+--1"},
        {D::angle, "1/0 turn"},
        {D::mass, "5 grams of oil"},
        {D::none, "3 mm"},
    };
    for (const auto& [dimension, text] : cases) {
        const auto units = units_of(dimension);
        const auto read = parse_amount(text, dimension, units.empty() ? "" : units.front().id);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().code, ErrorCode::not_an_amount) << text;
        EXPECT_EQ(read.error().value, text);
        EXPECT_EQ(read.error().expected, unit_ids(dimension));
    }
    EXPECT_EQ(parse_amount("  ", D::torque, "Nm").error().code, ErrorCode::empty_text);
    EXPECT_EQ(parse_amount("10", D::length, "in").error().code, ErrorCode::unit_needed);
}

// Both ways of writing a number with three digits behind its comma are right somewhere.
TEST(TypedAmount, ReadsACommaOnlyWhereItCanOnlyBeDecimal) {
    EXPECT_DOUBLE_EQ(parse_amount("0,250", Dimension::mass, "kg")->low, 250.0);
    EXPECT_DOUBLE_EQ(parse_amount("64,25", Dimension::volume, "cc")->low, 64.25);
    EXPECT_FALSE(parse_amount("64,250", Dimension::volume, "cc").ok());
}

} // namespace
} // namespace rodway
