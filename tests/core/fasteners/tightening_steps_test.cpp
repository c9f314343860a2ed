#include "core/fasteners/tightening_steps.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

#include "core/units/length.h"
#include "core/units/torque.h"

namespace rodway {
namespace {

using Kind = TighteningKind;

double lb_ft(double value) {
    return Torque::lbf_ft(value).in_Nm();
}

struct Step {
    Kind kind;
    double low;         ///< N m, degrees or mm
    double high = -1.0; ///< as `low` unless given
};

void expect_steps(const char* text, const std::vector<Step>& wanted, const char* unit = "lb-ft") {
    const auto steps = parse_tightening_steps(text, unit);
    ASSERT_TRUE(steps.ok()) << text;
    ASSERT_EQ(steps->size(), wanted.size()) << text;
    for (std::size_t at = 0; at < wanted.size(); ++at) {
        EXPECT_EQ((*steps)[at].kind, wanted[at].kind) << text << " step " << at;
        EXPECT_NEAR((*steps)[at].low, wanted[at].low, 1e-9) << text << " step " << at;
        const double high = wanted[at].high < 0.0 ? wanted[at].low : wanted[at].high;
        EXPECT_NEAR((*steps)[at].high, high, 1e-9) << text << " step " << at;
    }
}

// The spellings are common practice, no source; units by NIST SP 811.
TEST(TighteningSteps, ReadsWhatMakersPrintAndBuildersWrite) {
    expect_steps("45/65/65+90", {{Kind::torque, lb_ft(45)},
                                 {Kind::torque, lb_ft(65)},
                                 {Kind::torque, lb_ft(65)},
                                 {Kind::angle, 90.0}});
    expect_steps("20 then 1/4 turn", {{Kind::torque, lb_ft(20)}, {Kind::angle, 90.0}});
    expect_steps("20/1/4 turn", {{Kind::torque, lb_ft(20)}, {Kind::angle, 90.0}});
    expect_steps("60+80 deg", {{Kind::torque, lb_ft(60)}, {Kind::angle, 80.0}});
    expect_steps("60+80\u00b0", {{Kind::torque, lb_ft(60)}, {Kind::angle, 80.0}});
    expect_steps("60+60+60", {{Kind::torque, lb_ft(60)}, {Kind::angle, 60.0}, {Kind::angle, 60.0}});
    expect_steps("stretch .006", {{Kind::stretch, 0.1524}});
    expect_steps(".0055-.0060 stretch", {{Kind::stretch, 0.1397, 0.1524}});
    expect_steps("stretch 6 thou", {{Kind::stretch, 0.1524}});
    expect_steps("25, then stretch 0,15 mm", {{Kind::torque, lb_ft(25)}, {Kind::stretch, 0.15}});
    expect_steps("65 ft-lbs and then turn 90 degrees",
                 {{Kind::torque, lb_ft(65)}, {Kind::angle, 90.0}});
    expect_steps("65 lb-ft plus another 90", {{Kind::torque, lb_ft(65)}, {Kind::angle, 90.0}});
    expect_steps("snug then half a turn", {{Kind::snug, 0.0}, {Kind::angle, 180.0}});
    expect_steps("snug + 1-1/4 turn", {{Kind::snug, 0.0}, {Kind::angle, 450.0}});
}

TEST(TighteningSteps, KnowsEveryUnitOfTorque) {
    expect_steps("120 in-lb", {{Kind::torque, lb_ft(10)}});
    expect_steps("88 N\u00b7m", {{Kind::torque, 88.0}});
    expect_steps("2,5 kgf-m + 90", {{Kind::torque, 24.516625}, {Kind::angle, 90.0}});
    expect_steps("40-45 lb-ft + 90", {{Kind::torque, lb_ft(40), lb_ft(45)}, {Kind::angle, 90.0}});
    // One unit at the end holds for the numbers before it, whatever the sheet's own is.
    expect_steps("45/65/85 Nm", {{Kind::torque, 45.0}, {Kind::torque, 65.0}, {Kind::torque, 85.0}});
    expect_steps("20, 45, 65 Nm",
                 {{Kind::torque, 20.0}, {Kind::torque, 45.0}, {Kind::torque, 65.0}});
    // At the beginning it holds as far as slashes go on.
    expect_steps("45 Nm/65/85", {{Kind::torque, 45.0}, {Kind::torque, 65.0}, {Kind::torque, 85.0}});
    expect_steps("20", {{Kind::torque, 20.0}}, "Nm");
    const auto no_unit = parse_tightening_steps("20", "");
    ASSERT_FALSE(no_unit.ok());
    EXPECT_EQ(no_unit.error().code, ErrorCode::not_an_amount);
    EXPECT_EQ(no_unit.error().expected, "Nm lb-ft in-lb kgf-m");
}

TEST(TighteningSteps, ATorqueMayFallOnlyBehindLoosening) {
    expect_steps("60, loosen, 20 + 90", {{Kind::torque, lb_ft(60)},
                                         {Kind::loosen, 0.0},
                                         {Kind::torque, lb_ft(20)},
                                         {Kind::angle, 90.0}});
    expect_steps("65/65", {{Kind::torque, lb_ft(65)}, {Kind::torque, lb_ft(65)}});
    const auto falls = parse_tightening_steps("65/45", "lb-ft");
    ASSERT_FALSE(falls.ok());
    EXPECT_EQ(falls.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(falls.error().value, "45");
    EXPECT_NEAR(falls.error().limits->low, 65.0, 1e-6);
    EXPECT_EQ(falls.error().limits->unit, "lb-ft");
}

// "One meaning or refused": both meanings are offered, each in a spelling that is read back as it.
TEST(TighteningSteps, RefusesTwoMeaningsAndOffersBoth) {
    struct Unclear {
        const char* text;
        const char* meanings;
    };
    const Unclear cases[] = {
        {"35 lb-ft then 90", "35lb-ft/90lb-ft 35lb-ft+90deg"},
        {"20 then 45", "20lb-ft/45lb-ft 20lb-ft+45deg"},
        {"120 in-lb then 35", "120in-lb/35lb-ft 120in-lb+35deg"},
        {"20, 60, 90 deg", "20lb-ft/60lb-ft+90deg 20lb-ft+60deg+90deg"},
    };
    for (const Unclear& each : cases) {
        const auto steps = parse_tightening_steps(each.text, "lb-ft");
        ASSERT_FALSE(steps.ok()) << each.text;
        EXPECT_EQ(steps.error().code, ErrorCode::not_a_choice) << each.text;
        EXPECT_EQ(steps.error().expected, each.meanings);
        const std::string offered = each.meanings;
        for (const std::string& one :
             {offered.substr(0, offered.find(' ')), offered.substr(offered.find(' ') + 1)}) {
            const auto read = parse_tightening_steps(one, "lb-ft");
            ASSERT_TRUE(read.ok()) << one;
            EXPECT_EQ(tightening_steps_text(*read), one);
        }
    }
    // Of many meanings three are offered.
    EXPECT_EQ(parse_tightening_steps("20 then 45 then 65", "lb-ft").error().expected,
              "20lb-ft/45lb-ft/65lb-ft 20lb-ft/45lb-ft+65deg 20lb-ft+45deg+65deg");
    const auto many = parse_tightening_steps("20, 40, 60, 80, 100, 120, 140", "lb-ft");
    EXPECT_EQ(std::count(many.error().expected.begin(), many.error().expected.end(), ' '), 2);
    // Only one of the two can be: 90 lb-ft would be less than before, or behind an angle.
    expect_steps("100 lb-ft then 90", {{Kind::torque, lb_ft(100)}, {Kind::angle, 90.0}});
    expect_steps("20 + 60, 90",
                 {{Kind::torque, lb_ft(20)}, {Kind::angle, 60.0}, {Kind::angle, 90.0}});
    expect_steps("20 then 45 then 65 lb-ft",
                 {{Kind::torque, lb_ft(20)}, {Kind::torque, lb_ft(45)}, {Kind::torque, lb_ft(65)}});
}

TEST(TighteningSteps, RefusesWhatItCannotRead) {
    struct Wrong {
        const char* text;
        ErrorCode code;
    };
    const Wrong cases[] = {
        {"", ErrorCode::empty_text},
        {"tight", ErrorCode::wrong_type},
        {"1/4 turn past 20", ErrorCode::wrong_type},
        {"30 Nm + 90 / ", ErrorCode::wrong_type},
        {"20 then 3", ErrorCode::out_of_range}, // less than before, and no angle either
        {"45-65-85", ErrorCode::wrong_type},
        {"45,65", ErrorCode::wrong_type}, // two steps, or one number?
        {"~65", ErrorCode::wrong_type},
        {"65 lbs", ErrorCode::wrong_type}, // pound-feet or inch-pounds?
        {"45/65/", ErrorCode::wrong_type},
        {"+90", ErrorCode::wrong_type},
        {"45+20 lb-ft", ErrorCode::wrong_type},
        {"45 + turn 20 Nm", ErrorCode::wrong_type},
        {"stretch 6", ErrorCode::wrong_type},    // 6 of what?
        {"65+1/4", ErrorCode::out_of_range},     // not a quarter turn unless it says so
        {"20 + 90 / 65", ErrorCode::wrong_type}, // a torque behind an angle
        {"loosen, 20", ErrorCode::wrong_type},
        {"90 deg", ErrorCode::missing_field}, // from where?
        {"60 deg + 80 deg", ErrorCode::missing_field},
        {"60, loosen, 90 deg", ErrorCode::missing_field},
        {"65+900", ErrorCode::out_of_range},
        {"65+2", ErrorCode::out_of_range},
        {"6500", ErrorCode::out_of_range},
        {"0", ErrorCode::out_of_range},
        {"stretch .6", ErrorCode::out_of_range},
        {"stretch .006-.2", ErrorCode::out_of_range},
        {"1/1/1/1/1/1/1/1/1/1/1/1/1", ErrorCode::wrong_type},
    };
    for (const Wrong& each : cases) {
        const auto steps = parse_tightening_steps(each.text, "lb-ft");
        ASSERT_FALSE(steps.ok()) << each.text;
        EXPECT_EQ(steps.error().code, each.code) << each.text;
        EXPECT_EQ(steps.error().field, "tightening") << each.text;
    }
}

TEST(TighteningSteps, OneSpellingIsReadBackAsItWas) {
    constexpr std::uint64_t seed = 20261129;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto pick = [&](int from, int to) {
        return std::uniform_int_distribution<int>(from, to)(random);
    };
    const char* const units[] = {"Nm", "lb-ft", "kgf-m"};
    const double factors[] = {1.0, Torque::Nm_per_lbf_ft, Torque::Nm_per_kgf_m};
    for (int round = 0; round < 500; ++round) {
        std::vector<TighteningStep> steps;
        double torque = 5.0 + pick(0, 20);
        const int unit = pick(0, 2);
        for (int pass = pick(1, 4); pass > 0; --pass) {
            const double high = pick(0, 3) == 0 ? torque + 2.5 : torque;
            steps.push_back(
                {Kind::torque, torque * factors[unit], high * factors[unit], units[unit]});
            torque = high + pick(0, 20);
        }
        for (int turns = pick(0, 2); turns > 0; --turns) {
            steps.push_back(pick(0, 1) ? TighteningStep{Kind::angle, 60.0, 60.0, "deg"}
                                       : TighteningStep{Kind::angle, 90.0, 90.0, "turn"});
        }
        if (pick(0, 3) == 0) {
            const double mm = Length::inches(0.001 * pick(2, 9)).in_mm();
            steps.push_back({Kind::stretch, mm, mm, "in"});
        }
        const std::string text = tightening_steps_text(steps);
        EXPECT_EQ(text.find(' '), std::string::npos) << text;
        const auto read = parse_tightening_steps(text, "in-lb");
        ASSERT_TRUE(read.ok()) << text;
        ASSERT_EQ(read->size(), steps.size()) << text;
        for (std::size_t at = 0; at < steps.size(); ++at) {
            EXPECT_EQ((*read)[at].kind, steps[at].kind) << text;
            EXPECT_EQ((*read)[at].unit, steps[at].unit) << text;
            EXPECT_NEAR((*read)[at].low, steps[at].low, 1e-5) << text; // six decimals of a unit
            EXPECT_NEAR((*read)[at].high, steps[at].high, 1e-5) << text;
        }
    }
}

} // namespace
} // namespace rodway
