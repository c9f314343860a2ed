#include "core/valvetrain/lash_history.h"

#include <gtest/gtest.h>

#include "core/units/length.h"

namespace rodway {
namespace {

const ValvePosition one_in{1, ValveKind::intake, 1};
const ValvePosition one_ex{1, ValveKind::exhaust, 1};
const ValvePosition two_in{2, ValveKind::intake, 1};
const ValvePosition two_ex{2, ValveKind::exhaust, 1};

/// By feeler, in thousandths, to half a thou either way.
Interval thou(double value) {
    return Interval::about(Length::thou(value).in_mm(), Length::thou(0.5).in_mm());
}
const double alarm_mm = Length::thou(3.0).in_mm();

CheckedLash found(const ValvePosition& valve, double thousandths) {
    return {valve, thou(thousandths), {}};
}
CheckedLash set_to(const ValvePosition& valve, double before, double after) {
    return {valve, thou(before), thou(after)};
}
const LashSinceLast& of(const LashHistory& history, const ValvePosition& valve) {
    for (const LashSinceLast& since : history.valves) {
        if (since.valve == valve) {
            return since;
        }
    }
    static const LashSinceLast none;
    ADD_FAILURE() << "no such valve";
    return none;
}

// Question 23. Worked by hand.
TEST(LashHistory, AlarmsOnChangeAndNotOnSize) {
    const auto history = lash_since_last(
        {{EngineHeat::cold,
          {found(one_in, 30), found(one_ex, 18), found(two_in, 18), found(two_ex, 18)}},
         {EngineHeat::cold,
          {found(one_in, 30), found(one_ex, 23), found(two_in, 13), found(two_ex, 21)}}},
        alarm_mm);
    ASSERT_TRUE(history.ok());
    EXPECT_EQ(of(*history, one_in).change, LashChange::steady) << "wide, but as it was";
    EXPECT_EQ(of(*history, one_ex).change, LashChange::opened);
    EXPECT_EQ(of(*history, two_in).change, LashChange::closed);
    EXPECT_EQ(of(*history, two_ex).change, LashChange::may_have_changed); // 3, ±1
    EXPECT_NEAR(Length::mm(of(*history, one_ex).opened_by_mm->low).in_thou(), 4.0, 1e-9);
    EXPECT_NEAR(Length::mm(of(*history, one_ex).opened_by_mm->high).in_thou(), 6.0, 1e-9);
}

TEST(LashHistory, AValveIsComparedWithHowItWasLeft) {
    const auto history = lash_since_last(
        {{EngineHeat::hot, {set_to(one_in, 26, 20)}}, {EngineHeat::hot, {found(one_in, 26)}}},
        alarm_mm);
    EXPECT_EQ(of(*history, one_in).change, LashChange::opened);
    EXPECT_NEAR(Length::mm(of(*history, one_in).was_mm->middle()).in_thou(), 20.0, 1e-9);
    // What is set in the check itself comes after it was found.
    const auto set_now = lash_since_last(
        {{EngineHeat::hot, {found(one_in, 20)}}, {EngineHeat::hot, {set_to(one_in, 20, 26)}}},
        alarm_mm);
    EXPECT_EQ(of(*set_now, one_in).change, LashChange::steady);
}

TEST(LashHistory, ColdIsComparedWithColdAndHotWithHot) {
    const std::vector<LashCheck> checks{{EngineHeat::cold, {found(one_in, 18)}},
                                        {EngineHeat::hot, {found(one_in, 25)}},
                                        {EngineHeat::cold, {found(one_in, 18)}}};
    EXPECT_EQ(of(*lash_since_last(checks, alarm_mm), one_in).change, LashChange::steady);
    // Set hot in between, what it then was cold isn't known.
    auto set_between = checks;
    set_between[1].valves = {set_to(one_in, 25, 28)};
    const auto lost = lash_since_last(set_between, alarm_mm);
    EXPECT_EQ(of(*lost, one_in).change, LashChange::nothing_before);
    EXPECT_FALSE(of(*lost, one_in).opened_by_mm.has_value());
    EXPECT_FALSE(lost->shared_change_mm.has_value());
    // The first hot check has nothing before it.
    EXPECT_EQ(of(*lash_since_last({checks[0], checks[1]}, alarm_mm), one_in).change,
              LashChange::nothing_before);
}

TEST(LashHistory, OneValveApartFromTheRestIsToldFromAllTogether) {
    const std::vector<CheckedLash> before{found(one_in, 18), found(one_ex, 18), found(two_in, 18),
                                          found(two_ex, 18)};
    const auto all = lash_since_last(
        {{EngineHeat::cold, before},
         {EngineHeat::cold,
          {found(one_in, 23), found(one_ex, 23), found(two_in, 23), found(two_ex, 23)}}},
        alarm_mm);
    EXPECT_NEAR(Length::mm(*all->shared_change_mm).in_thou(), 5.0, 1e-9);
    EXPECT_EQ(of(*all, one_ex).change, LashChange::opened);
    EXPECT_FALSE(of(*all, one_ex).apart);
    const auto one = lash_since_last(
        {{EngineHeat::cold, before},
         {EngineHeat::cold,
          {found(one_in, 18), found(one_ex, 26), found(two_in, 18), found(two_ex, 19)}}},
        alarm_mm);
    EXPECT_TRUE(of(*one, one_ex).apart);
    EXPECT_FALSE(of(*one, two_ex).apart);
    EXPECT_NEAR(Length::mm(*one->shared_change_mm).in_thou(), 0.5, 1e-9); // median of 0, 0, 1, 8
    EXPECT_NEAR(Length::mm(of(*one, one_ex).apart_from_rest_mm->middle()).in_thou(), 7.5, 1e-9);
}

TEST(LashHistory, TheSharedChangeOfThreeIsTheMiddleOne) {
    const auto history = lash_since_last(
        {{EngineHeat::cold, {found(one_in, 18), found(one_ex, 18), found(two_in, 18)}},
         {EngineHeat::cold, {found(one_in, 20), found(one_ex, 30), found(two_in, 17)}}},
        alarm_mm);
    EXPECT_NEAR(Length::mm(*history->shared_change_mm).in_thou(), 2.0, 1e-9);
}

TEST(LashHistory, WhatWasNotLookedAtIsNotSteady) {
    const auto history =
        lash_since_last({{EngineHeat::cold, {found(one_in, 18), found(one_ex, 18)}},
                         {EngineHeat::cold, {{one_in, {}, thou(18)}, found(two_in, 18)}}},
                        alarm_mm);
    ASSERT_EQ(history->valves.size(), 3u);
    EXPECT_EQ(of(*history, one_in).change, LashChange::not_looked_at) << "set, but not read before";
    EXPECT_EQ(of(*history, one_ex).change, LashChange::not_looked_at);
    EXPECT_EQ(of(*history, two_in).change, LashChange::nothing_before);
    // A check that left a valve out is passed over.
    const auto longer = lash_since_last({{EngineHeat::cold, {found(one_in, 18)}},
                                         {EngineHeat::cold, {found(one_ex, 18)}},
                                         {EngineHeat::cold, {found(one_in, 23)}}},
                                        alarm_mm);
    EXPECT_EQ(of(*longer, one_in).change, LashChange::opened);
}

TEST(LashHistory, BadInputIsNamed) {
    EXPECT_EQ(lash_since_last({}, alarm_mm).error().code, ErrorCode::too_few_rows);
    const LashCheck good{EngineHeat::cold, {found(one_in, 18)}};
    const LashCheck twice{EngineHeat::cold, {found(one_in, 18), found(one_in, 18)}};
    EXPECT_EQ(lash_since_last({good, twice}, alarm_mm).error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(lash_since_last({good, twice}, alarm_mm).error().line, 2);
    const LashCheck bad{EngineHeat::cold, {{one_in, Interval{-0.1, 0.1}, {}}}};
    EXPECT_EQ(lash_since_last({bad}, alarm_mm).error().field, "found");
    EXPECT_EQ(lash_since_last({good}, -0.1).error().field, "alarm");
    EXPECT_EQ(usual_lash_change_mm().source, FigureSource::common_practice);
}

} // namespace
} // namespace rodway
