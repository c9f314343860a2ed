#include "core/break_in/stop_rules.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

StopRuleState state(const FirstStart& start, StopRule rule,
                    const std::vector<StopRuleLimit>& rules = usual_stop_rules()) {
    const auto standings = stop_rules(start, rules);
    EXPECT_TRUE(standings.ok());
    for (const StopRuleStanding& at : *standings) {
        if (at.limit.rule == rule) {
            return at.state;
        }
    }
    ADD_FAILURE() << "no such rule";
    return StopRuleState::not_looked_at;
}

// 'Oil pressure within 10 s or stop' (common practice, no source).
TEST(StopRules, OilPressureWithinTenSecondsOrStop) {
    FirstStart start;
    start.oil_pressure_after_s = Interval::exactly(8.0);
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time), StopRuleState::kept);
    start.oil_pressure_after_s = Interval::exactly(10.0);
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time), StopRuleState::kept);
    start.oil_pressure_after_s = Interval{11.0, 13.0};
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time), StopRuleState::stop);
    start.oil_pressure_after_s = Interval{9.0, 11.0};
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time), StopRuleState::undecided);
}

// Arithmetic: 20 psi is 137.895 kPa, 220 °F is 104.444 °C (NIST SP 811). The figures from memory.
TEST(StopRules, PressureHasALeastAndTemperatureAMost) {
    FirstStart start;
    start.least_oil_pressure_kPa = Interval::exactly(138.0);
    start.hottest_coolant_degC = Interval::exactly(104.0);
    EXPECT_EQ(state(start, StopRule::oil_pressure_held), StopRuleState::kept);
    EXPECT_EQ(state(start, StopRule::coolant_temperature), StopRuleState::kept);
    start.least_oil_pressure_kPa = Interval::exactly(137.0);
    start.hottest_coolant_degC = Interval::exactly(105.0);
    EXPECT_EQ(state(start, StopRule::oil_pressure_held), StopRuleState::stop);
    EXPECT_EQ(state(start, StopRule::coolant_temperature), StopRuleState::stop);
}

TEST(StopRules, WhatIsLookedAtStopsTheRightWay) {
    FirstStart good;
    good.oil_at_every_rocker = true;
    good.pushrods_turn = true;
    good.knock = false;
    good.leak = false;
    FirstStart bad;
    bad.oil_at_every_rocker = false;
    bad.pushrods_turn = false;
    bad.knock = true;
    bad.leak = true;
    for (const StopRule rule : {StopRule::oil_at_every_rocker, StopRule::pushrods_turn,
                                StopRule::no_knock, StopRule::no_leak}) {
        EXPECT_EQ(state(good, rule), StopRuleState::kept);
        EXPECT_EQ(state(bad, rule), StopRuleState::stop);
    }
}

TEST(StopRules, WhatNobodyLookedAtIsNotKept) {
    const auto standings = stop_rules({}, usual_stop_rules());
    ASSERT_EQ(standings->size(), 7u);
    for (const StopRuleStanding& at : *standings) {
        EXPECT_EQ(at.state, StopRuleState::not_looked_at);
        EXPECT_FALSE(at.seen.has_value());
        EXPECT_EQ(at.limit.source, FigureSource::common_practice);
        EXPECT_TRUE(!at.limit.band || at.limit.band->source == FigureSource::common_practice);
    }
}

TEST(StopRules, TheMakersInstructionsGoBefore) {
    StopRuleLimit five_seconds{StopRule::oil_pressure_in_time, FigureBand{{}, 5.0, {}}, {}};
    five_seconds.source = FigureSource::shop;
    const auto rules = with_makers(usual_stop_rules(), {five_seconds});
    ASSERT_EQ(rules.size(), 7u);
    EXPECT_EQ(rules[0].source, FigureSource::makers_instructions);
    EXPECT_EQ(rules[0].band->source, FigureSource::makers_instructions);
    EXPECT_EQ(rules[1].source, FigureSource::common_practice);
    FirstStart start;
    start.oil_pressure_after_s = Interval::exactly(8.0);
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time), StopRuleState::kept);
    EXPECT_EQ(state(start, StopRule::oil_pressure_in_time, rules), StopRuleState::stop);
    // One that only the maker has comes behind.
    const auto behind = with_makers({usual_stop_rules()[0]}, {{StopRule::no_leak, {}, {}}});
    ASSERT_EQ(behind.size(), 2u);
    EXPECT_EQ(behind[1].rule, StopRule::no_leak);
    EXPECT_EQ(behind[1].source, FigureSource::makers_instructions);
}

TEST(StopRules, BadInputIsNamed) {
    FirstStart start;
    start.oil_pressure_after_s = Interval{-1.0, 1.0};
    EXPECT_EQ(stop_rules(start, usual_stop_rules()).error().field, "oil_pressure_after");
    start = {};
    start.least_oil_pressure_kPa = Interval::exactly(std::nan(""));
    EXPECT_EQ(stop_rules(start, usual_stop_rules()).error().field, "least_oil_pressure");
    start = {};
    start.hottest_coolant_degC = Interval::exactly(220.0); // in °F
    EXPECT_EQ(stop_rules(start, usual_stop_rules()).error().field, "hottest_coolant");
    const StopRuleLimit without{StopRule::oil_pressure_held, {}, {}};
    EXPECT_EQ(stop_rules({}, {without}).error().code, ErrorCode::missing_field);
    const StopRuleLimit leak{StopRule::no_leak, {}, {}};
    EXPECT_EQ(stop_rules({}, {leak, leak}).error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(stop_rules({}, {leak, leak}).error().line, 2);
}

} // namespace
} // namespace rodway
