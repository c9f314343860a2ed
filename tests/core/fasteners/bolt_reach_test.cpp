#include "core/fasteners/bolt_reach.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

#include "core/units/length.h"

namespace rodway {
namespace {

Interval in(double value, double step = 0.0) {
    return Interval::around(Length::inches(value).in_mm(), Length::inches(step).in_mm());
}

/// Invented: 3/8-16, 2 in long, through .065 of washer and 1 in of manifold, into a hole threaded
/// .8 deep, its bottom at 1 in.
BoltInHole manifold_bolt() {
    BoltInHole joint;
    joint.length_mm = in(2.0);
    joint.washer_mm = in(0.065);
    joint.stack_mm = in(1.0);
    joint.pitch_mm = 25.4 / 16.0;
    joint.thread_to_mm = in(0.8);
    joint.bottom_mm = in(1.0);
    return joint;
}

// Arithmetic: .935 is in the hole, of which .800 engage; it stands .065 from the bottom, but the
// thread has ended.
TEST(BoltReach, ABoltLongerThanTheThreadIsHeldThere) {
    BoltInHole joint = manifold_bolt();
    auto reach = *bolt_reach(joint);
    EXPECT_NEAR(reach.into_hole_mm.middle(), Length::inches(0.935).in_mm(), 1e-9);
    EXPECT_NEAR(reach.engaged_mm.middle(), Length::inches(0.8).in_mm(), 1e-9);
    EXPECT_NEAR(reach.engaged_threads.middle(), 12.8, 1e-9);
    EXPECT_EQ(reach.bottoms, Happens::yes);
    EXPECT_NEAR(reach.to_bottom_mm->middle(), Length::inches(0.065).in_mm(), 1e-9);
    EXPECT_FALSE(reach.sticks_out_mm.has_value());
    // A quarter inch shorter clamps, with 11 threads.
    joint.length_mm = in(1.75);
    reach = *bolt_reach(joint);
    EXPECT_EQ(reach.bottoms, Happens::no);
    EXPECT_NEAR(reach.engaged_threads.middle(), 16.0 * 0.685, 1e-9);
    // Of exactly the thread's length: it clamps.
    joint.length_mm = in(1.865);
    EXPECT_EQ(bolt_reach(joint)->bottoms, Happens::no);
    // Read to a 32nd nobody can tell.
    joint.length_mm = in(1.865, 1.0 / 32.0);
    EXPECT_EQ(bolt_reach(joint)->bottoms, Happens::too_close_to_call);
}

// The manifold bolt that bent a pushrod was a quarter inch longer than the one before (reported on
// a truck owners' forum, the figures here are invented).
TEST(BoltReach, ABoltTooLongStandsOutIntoThePassage) {
    BoltInHole joint = manifold_bolt();
    joint.bottom_mm.reset();
    joint.length_mm = in(1.75);
    EXPECT_EQ(bolt_reach(joint)->sticks_out, Happens::no);
    EXPECT_EQ(bolt_reach(joint)->sticks_out_mm->high, 0.0);
    joint.length_mm = in(2.0);
    const auto reach = *bolt_reach(joint);
    EXPECT_EQ(reach.sticks_out, Happens::yes);
    EXPECT_NEAR(reach.sticks_out_mm->middle(), Length::inches(0.135).in_mm(), 1e-9);
    EXPECT_EQ(reach.bottoms, Happens::no);
    EXPECT_FALSE(reach.to_bottom_mm.has_value());
    joint.length_mm = in(2.0, 1.0 / 16.0); // to a 32nd either side
    EXPECT_NEAR(bolt_reach(joint)->sticks_out_mm->low, Length::inches(0.10375).in_mm(), 1e-9);
    EXPECT_NEAR(bolt_reach(joint)->sticks_out_mm->high, Length::inches(0.16625).in_mm(), 1e-9);
    joint.length_mm = in(1.865, 1.0 / 16.0);
    EXPECT_EQ(bolt_reach(joint)->sticks_out, Happens::too_close_to_call);
    EXPECT_EQ(bolt_reach(joint)->sticks_out_mm->low, 0.0);
    joint.length_mm = in(2.0);
    joint.washer_mm = in(0.0); // left off
    EXPECT_NEAR(bolt_reach(joint)->sticks_out_mm->middle(), Length::inches(0.2).in_mm(), 1e-9);
}

TEST(BoltReach, APlainShankMayJamAndABoltTooShortHoldsNothing) {
    BoltInHole joint = manifold_bolt();
    joint.length_mm = in(1.75);
    joint.threaded_mm = in(0.5); // .185 of plain shank comes into the hole
    auto reach = *bolt_reach(joint);
    EXPECT_EQ(reach.shank_jams, Happens::yes);
    EXPECT_NEAR(reach.engaged_mm.middle(), Length::inches(0.5).in_mm(), 1e-9);
    joint.counterbore_mm = in(0.2);
    reach = *bolt_reach(joint);
    EXPECT_EQ(reach.shank_jams, Happens::no);
    EXPECT_NEAR(reach.engaged_mm.middle(), Length::inches(0.485).in_mm(), 1e-9);
    joint = manifold_bolt();
    joint.length_mm = in(0.9);
    reach = *bolt_reach(joint);
    EXPECT_LT(reach.into_hole_mm.high, 0.0);
    EXPECT_EQ(reach.engaged_mm.high, 0.0);
    EXPECT_EQ(reach.engaged_threads.high, 0.0);
}

// Slow twin: a lot of bolts whose sizes lie in the intervals, each by itself.
TEST(BoltReach, EveryBoltOfTheIntervalsIsInTheAnswer) {
    constexpr std::uint64_t seed = 20261202;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto around = [&](double low, double high) {
        return Interval::around(between(low, high), between(0.0, 3.0));
    };
    const auto of = [&](const Interval& interval) {
        switch (random() % 3) {
            case 0:
                return interval.low;
            case 1:
                return interval.high;
            default:
                return between(interval.low, interval.high);
        }
    };
    double slack_mm = 0.0;
    for (int round = 0; round < 300; ++round) {
        BoltInHole joint;
        joint.length_mm = around(25.0, 60.0);
        joint.washer_mm = around(2.0, 3.0);
        joint.stack_mm = around(10.0, 30.0);
        joint.pitch_mm = 1.5;
        joint.threaded_mm = around(10.0, 30.0);
        joint.counterbore_mm = around(2.0, 6.0);
        joint.thread_to_mm = around(12.0, 30.0);
        const auto reach = *bolt_reach(joint);
        double least_mm = 1e9;
        double most_mm = 0.0;
        for (int bolt = 0; bolt < 500; ++bolt) {
            const double into = of(joint.length_mm) - of(joint.washer_mm) - of(joint.stack_mm);
            const double from = std::max(of(joint.counterbore_mm), into - of(*joint.threaded_mm));
            const double engaged = std::max(0.0, std::min(into, of(joint.thread_to_mm)) - from);
            EXPECT_GE(engaged, reach.engaged_mm.low - 1e-9);
            EXPECT_LE(engaged, reach.engaged_mm.high + 1e-9);
            least_mm = std::min(least_mm, engaged);
            most_mm = std::max(most_mm, engaged);
        }
        slack_mm =
            std::max({slack_mm, least_mm - reach.engaged_mm.low, reach.engaged_mm.high - most_mm});
    }
    EXPECT_LT(slack_mm, 1.5); // and no wider than the bolts found: 500 tries don't meet the corners
}

TEST(BoltReach, NamesWhatIsWrong) {
    BoltInHole joint = manifold_bolt();
    joint.length_mm = {0.0, 0.0};
    EXPECT_EQ(bolt_reach(joint).error().field, "length");
    joint = manifold_bolt();
    joint.bottom_mm = in(0.5);
    EXPECT_EQ(bolt_reach(joint).error().field, "bottom");
    joint = manifold_bolt();
    joint.counterbore_mm = in(0.9);
    EXPECT_EQ(bolt_reach(joint).error().field, "thread_to");
    joint = manifold_bolt();
    joint.pitch_mm = 16.0; // threads in an inch
    EXPECT_EQ(bolt_reach(joint).error().field, "pitch");
    joint = manifold_bolt();
    joint.washer_mm = {2.0, 1.0};
    EXPECT_EQ(bolt_reach(joint).error().field, "washer");
}

} // namespace
} // namespace rodway
