#include "core/units/other_unit.h"

#include <gtest/gtest.h>

#include <charconv>
#include <cmath>
#include <random>

#include "core/units/typed_amount.h"

namespace rodway {
namespace {

const MeasureUnit& unit(Dimension dimension, const char* id) {
    const MeasureUnit* found = find_unit(dimension, id);
    EXPECT_NE(found, nullptr) << id;
    return *found;
}

// Both ways round, and never to itself; what all the world measures alike has no other.
TEST(OtherUnit, IsThatOfTheOtherSystem) {
    using D = Dimension;
    struct Both {
        Dimension dimension;
        const char* from;
        const char* to;
    };
    for (const Both& one :
         {Both{D::length, "in", "mm"}, Both{D::length, "mm", "in"}, Both{D::force, "lbf", "N"},
          Both{D::mass, "oz", "g"}, Both{D::mass, "g", "oz"}, Both{D::pressure, "psi", "kPa"},
          Both{D::pressure, "inHg", "mbar"}, Both{D::torque, "Nm", "lb-ft"},
          Both{D::torque, "in-lb", "Nm"}, Both{D::volume, "cc", "ci"},
          Both{D::temperature, "degF", "degC"}, Both{D::power, "PS", "hp"}}) {
        const MeasureUnit* other = other_unit(one.dimension, one.from);
        ASSERT_NE(other, nullptr) << one.from;
        EXPECT_EQ(other->id, one.to) << one.from;
    }
    EXPECT_EQ(other_unit(D::speed, "rpm"), nullptr);
    EXPECT_EQ(other_unit(D::angle, "deg"), nullptr);
    EXPECT_EQ(other_unit(D::length, "psi"), nullptr);
    for (const Dimension dimension : {D::length, D::force, D::mass, D::volume, D::pressure,
                                      D::temperature, D::torque, D::power}) {
        for (const MeasureUnit& one : units_of(dimension)) {
            const MeasureUnit* other = other_unit(dimension, one.id);
            ASSERT_NE(other, nullptr) << one.id;
            EXPECT_NE(other->id, one.id);
        }
    }
}

// By hand: one decimal of a millimetre is 0.0039 in, so a thousandth needs two; and so on.
TEST(OtherUnitDigits, AreAsManyAsTheTypedStepNeeds) {
    using D = Dimension;
    const MeasureUnit& mm = unit(D::length, "mm");
    const MeasureUnit& in = unit(D::length, "in");
    EXPECT_EQ(other_unit_digits(0.0254, mm), 2);    // .001 in; 0.01 mm is 0.00039 in
    EXPECT_EQ(other_unit_digits(0.00254, mm), 3);   // .0001 in
    EXPECT_EQ(other_unit_digits(0.254, mm), 1);     // .01 in
    EXPECT_EQ(other_unit_digits(25.4, mm), 0);      // 1 in
    EXPECT_EQ(other_unit_digits(25.4 / 64, mm), 1); // 1/64 in
    EXPECT_EQ(other_unit_digits(0.01, in), 4);      // .0001 in is 0.00254 mm
    EXPECT_EQ(other_unit_digits(0.001, in), 5);
    EXPECT_EQ(other_unit_digits(1.0, in), 2);    // .01 in is 0.254 mm; .1 in is 2.54
    EXPECT_EQ(other_unit_digits(0.0254, in), 3); // the same unit: as typed
    EXPECT_EQ(other_unit_digits(0.01, mm), 2);
    EXPECT_EQ(other_unit_digits(1.0, unit(D::torque, "lb-ft")), 1);    // 1 N m is 0.74 lb-ft
    EXPECT_EQ(other_unit_digits(1.3558179, unit(D::torque, "Nm")), 0); // 1 lb-ft is 1.36 N m
    EXPECT_EQ(other_unit_digits(5.0 / 9.0, unit(D::temperature, "degC")), 1);
    EXPECT_EQ(other_unit_digits(1.0, unit(D::temperature, "degF")), 0);
    EXPECT_EQ(other_unit_digits(1.0, unit(D::pressure, "psi")), 1); // 1 kPa is 0.145 psi
    EXPECT_EQ(other_unit_digits(1000.0, unit(D::mass, "g")), 0);
    EXPECT_EQ(other_unit_digits(0.0, mm), 0);
}

TEST(NumberInUnit, ShowsDecimalsAsAsked) {
    const MeasureUnit& in = unit(Dimension::length, "in");
    EXPECT_EQ(number_in_unit(0.254, in, 3), "0.010");
    EXPECT_EQ(number_in_unit(-0.127, in, 4), "-0.0050");
    EXPECT_EQ(number_in_unit(-0.0001, in, 3), "0.000");
    EXPECT_EQ(number_in_unit(25.0, unit(Dimension::temperature, "degF"), 0), "77");
    EXPECT_EQ(number_in_unit(-20.0, unit(Dimension::crank_angle, "btdc"), 1), "20.0");
    EXPECT_EQ(number_in_unit(1e308, unit(Dimension::length, "mm"), 99).substr(0, 6), "100000");
}

TEST(CommonStep, DividesBoth) {
    EXPECT_NEAR(common_step(0.1, 0.001), 0.001, 1e-15);
    EXPECT_NEAR(common_step(0.1, 0.25), 0.05, 1e-15);
    EXPECT_NEAR(common_step(1.0 / 3.0, 0.1), 1.0 / 30.0, 1e-15);
    EXPECT_NEAR(common_step(0.0254, 0.05), 0.0002, 1e-12); // .001 in and 0.05 mm
    EXPECT_EQ(common_step(0.5, 0.5), 0.5);
}

/// One end as typed, again from what is shown in another unit; in steps, which it must be whole.
double steps_from_shown(const std::string& shown, const MeasureUnit& shown_in,
                        const MeasureUnit& typed_in, double step) {
    double number = 0.0;
    std::from_chars(shown.data(), shown.data() + shown.size(), number);
    const double held = number * shown_in.factor + shown_in.offset;
    return std::round((held - typed_in.offset) / typed_in.factor / step);
}

struct Shown {
    int right = 0;
    int wrong = 0;
};

/// Numbers typed with a step in one unit, shown in another with so many decimals.
Shown shown_with(int decimals, double step, const MeasureUnit& typed_in,
                 const MeasureUnit& shown_in, std::uint64_t seed) {
    std::mt19937_64 random(seed);
    std::uniform_int_distribution<long> whole(-20000, 20000);
    Shown shown;
    for (int round = 0; round < 300; ++round) {
        const double steps = round == 0 ? 0.0 : static_cast<double>(whole(random));
        const double held = steps * step * typed_in.factor + typed_in.offset;
        const std::string text = number_in_unit(held, shown_in, decimals);
        const bool same = steps_from_shown(text, shown_in, typed_in, step) == steps;
        ++(same ? shown.right : shown.wrong);
    }
    return shown;
}

// Every dimension, every pair of its units, decimals and fractions. One decimal fewer must lose
// some number, or a program that always shows ten would pass.
TEST(OtherUnitDigits, GiveBackWhateverWasTypedAndNoneIsTooMany) {
    const std::uint64_t seed = 20261129;
    std::cout << "seed " << seed << '\n';
    int pairs = 0;
    int one_fewer = 0;
    for (int of = 1; of <= static_cast<int>(Dimension::percent); ++of) {
        const auto units = units_of(static_cast<Dimension>(of));
        for (const MeasureUnit& typed_in : units) {
            for (const MeasureUnit& shown_in : units) {
                for (const double step : {1.0, 0.1, 0.01, 0.001, 0.0001, 0.5, 0.125, 1.0 / 64.0}) {
                    const double held_step = step * std::abs(typed_in.factor);
                    const int digits = other_unit_digits(held_step, shown_in);
                    EXPECT_EQ(shown_with(digits, step, typed_in, shown_in, seed).wrong, 0)
                        << typed_in.id << " in " << shown_in.id << ", step " << step;
                    // Where one fewer would only just not do, few numbers are lost by it.
                    const double coarser =
                        std::pow(10.0, 1 - digits) * std::abs(shown_in.factor) / held_step;
                    if (digits > 0 && coarser > 1.05) {
                        EXPECT_GT(shown_with(digits - 1, step, typed_in, shown_in, seed).wrong, 0)
                            << typed_in.id << " in " << shown_in.id << ", step " << step;
                        ++one_fewer;
                    }
                    ++pairs;
                }
            }
        }
    }
    EXPECT_GT(pairs, 500);
    EXPECT_GT(one_fewer, 400);
}

struct TypedCase {
    Dimension dimension;
    const char* text;
    const char* bare_unit;
};

// Texts as typed, each end of them, through every unit of their dimension.
TEST(OtherUnitDigits, GiveBackBothEndsOfTypedTexts) {
    using D = Dimension;
    const TypedCase cases[] = {
        {D::length, ".010", "in"},
        {D::length, "1.8500", "in"},
        {D::length, "1/8", "in"},
        {D::length, "2-1/2\"", "in"},
        {D::length, "-.005", "in"},
        {D::length, "0", "in"},
        {D::length, ".0015-.0030", "in"},
        {D::length, "2.100 +.003/-.001", "in"},
        {D::length, "10.2\u00b1.1", "mm"},
        {D::length, "10\u00b1.05 mm", "in"},
        {D::length, "1/8\u00b1.005", "in"},
        {D::length, "250 um", "mm"},
        {D::length, "2.5 thou", "mm"},
        {D::angle, "1/3 turn", "deg"},
        {D::angle, "1/4-1/3 turn", "deg"},
        {D::crank_angle, "19.5 ATDC", "deg"},
        {D::crank_angle, "60 ABDC", "deg"},
        {D::force, "125 lbs", "lbf"},
        {D::mass, "583.9", "g"},
        {D::volume, "64\u00b1.5", "cc"},
        {D::volume, "-12", "cc"},
        {D::pressure, "29.92", "inHg"},
        {D::temperature, "77 F", "degF"},
        {D::temperature, "-40", "degF"},
        {D::temperature, "0", "degF"},
        {D::temperature, "-5.5 C", "degC"},
        {D::torque, "110 +5/-0 lb-ft", "Nm"},
        {D::power, "442.0", "hp"},
        {D::time, "1 1/2 hours", "min"},
        {D::percent, "8.5", "%"},
    };
    for (const TypedCase& each : cases) {
        const auto typed = parse_amount(each.text, each.dimension, each.bare_unit);
        ASSERT_TRUE(typed.ok()) << each.text;
        const MeasureUnit& typed_in = unit(each.dimension, typed->unit.c_str());
        const double step = typed->finest > 0.0 ? typed->finest / std::abs(typed_in.factor) : 1.0;
        for (const MeasureUnit& shown_in : units_of(each.dimension)) {
            const int digits = other_unit_digits(typed->finest, shown_in);
            for (const double held : {typed->low, typed->high}) {
                const double steps = (held - typed_in.offset) / typed_in.factor / step;
                EXPECT_NEAR(steps, std::round(steps), 1e-6) << each.text; // a multiple of its step
                const std::string shown = number_in_unit(held, shown_in, digits);
                EXPECT_EQ(steps_from_shown(shown, shown_in, typed_in, step), std::round(steps))
                    << each.text << " is shown as " << shown << ' ' << shown_in.id;
            }
        }
    }
}

} // namespace
} // namespace rodway
