#include "core/fasteners/bolt_condition.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval inches(double value, double step) {
    return Interval::around(Length::inches(value).in_mm(), Length::inches(step).in_mm());
}

bool has(const BoltStanding& standing, BoltFault fault) {
    return std::find(standing.faults.begin(), standing.faults.end(), fault) !=
           standing.faults.end();
}

// Figures invented; the limit of .002 in is common practice, no source.
TEST(BoltCondition, ANeckedBoltIsRefused) {
    const auto judged = [](double narrowest_in, double step_in) {
        BoltCondition bolt;
        bolt.bolt = 7;
        bolt.shank_mm = inches(0.4350, step_in);
        bolt.narrowest_mm = inches(narrowest_in, step_in);
        return *judge_bolt(bolt, {});
    };
    EXPECT_TRUE(judged(0.4300, 0.0005).refused);
    EXPECT_TRUE(has(judged(0.4300, 0.0005), BoltFault::necked));
    EXPECT_EQ(judged(0.4300, 0.0005).bolt, 7);
    EXPECT_FALSE(judged(0.4345, 0.0005).refused);
    EXPECT_TRUE(judged(0.4345, 0.0005).faults.empty());
    // Exactly the limit is within it.
    const auto of = [](double shank, double narrowest) {
        BoltCondition bolt;
        bolt.shank_mm = Interval::exactly(shank);
        bolt.narrowest_mm = Interval::exactly(narrowest);
        return *judge_bolt(bolt, {});
    };
    EXPECT_TRUE(of(10.0, 10.0 - 0.0508).faults.empty());
    EXPECT_TRUE(of(10.0, 10.0 - 0.0509).refused);
    // Read to a thousandth nobody can tell .002 from .003.
    EXPECT_TRUE(has(judged(0.4325, 0.001), BoltFault::may_be_necked));
    EXPECT_FALSE(judged(0.4325, 0.001).refused);
}

TEST(BoltCondition, WhatWasNotMeasuredIsNeitherFaultNorPass) {
    BoltCondition bolt;
    bolt.shank_mm = inches(0.4350, 0.0005);
    bolt.new_length_mm = inches(1.5, 0.0005);
    const auto standing = judge_bolt(bolt, {});
    EXPECT_FALSE(standing->necking_mm.has_value());
    EXPECT_FALSE(standing->set.has_value());
    EXPECT_TRUE(standing->faults.empty());
    EXPECT_FALSE(standing->refused);
}

TEST(BoltCondition, AStretchedBoltAndASecondUseAreRefused) {
    BoltCondition bolt;
    bolt.new_length_mm = inches(1.5000, 0.0005);
    bolt.length_now_mm = inches(1.5030, 0.0005);
    EXPECT_TRUE(judge_bolt(bolt, {})->refused);
    EXPECT_TRUE(has(*judge_bolt(bolt, {}), BoltFault::stretched));
    bolt.length_now_mm = inches(1.5010, 0.0005);
    EXPECT_TRUE(has(*judge_bolt(bolt, {}), BoltFault::may_be_stretched));
    EXPECT_FALSE(judge_bolt(bolt, {})->refused);
    bolt.length_now_mm = inches(1.4980, 0.0005);
    EXPECT_TRUE(has(*judge_bolt(bolt, {}), BoltFault::shorter_than_new));

    BoltRules once;
    once.single_use = true;
    BoltCondition used;
    EXPECT_TRUE(has(*judge_bolt(used, once), BoltFault::reuse_unknown));
    EXPECT_FALSE(judge_bolt(used, once)->refused);
    used.reused = true;
    EXPECT_TRUE(has(*judge_bolt(used, once), BoltFault::used_twice));
    EXPECT_TRUE(judge_bolt(used, once)->refused);
    EXPECT_FALSE(judge_bolt(used, {})->refused); // a bolt that may be used again
    used.reused = false;
    EXPECT_TRUE(judge_bolt(used, once)->faults.empty());
}

TEST(BoltCondition, NamesWhatIsWrong) {
    BoltCondition bolt;
    bolt.shank_mm = Interval{0.4, 0.4}; // inches typed
    bolt.narrowest_mm = Interval{10.0, 10.0};
    EXPECT_EQ(judge_bolt(bolt, {}).error().field, "shank");
    bolt.shank_mm = Interval{10.0, 10.0};
    bolt.narrowest_mm = Interval{10.0, 9.0};
    EXPECT_EQ(judge_bolt(bolt, {}).error().field, "narrowest");
    BoltRules rules;
    rules.most_necking_mm = -1.0;
    EXPECT_EQ(judge_bolt({}, rules).error().field, "necking");
}

} // namespace
} // namespace rodway
