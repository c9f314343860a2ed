#include "core/clearance/verdict.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

// Limits in inches as the trade says them (common practice, no source); guard band as wide as the
// doubt: JCGM 106:2012.
constexpr double inch = 25.4;
const RodClearanceLimits limits;

Verdict judged(double clearance_in, std::optional<double> doubt_in) {
    return judge(clearance_in * inch, doubt_in ? std::optional(*doubt_in * inch) : std::nullopt,
                 limits);
}

TEST(Verdict, GuardBandDecides) {
    EXPECT_EQ(judged(0.0059, 0.004), Verdict::failed); // at most .0099
    EXPECT_EQ(judged(0.0061, 0.004), Verdict::too_close_to_call);
    EXPECT_EQ(judged(0.0139, 0.004), Verdict::too_close_to_call);  // at least .0099
    EXPECT_EQ(judged(0.0140, 0.004), Verdict::passed_little_room); // at least .010
    EXPECT_EQ(judged(0.0149, 0.004), Verdict::passed_little_room);
    EXPECT_EQ(judged(0.0150, 0.004), Verdict::passed_for_now);
    EXPECT_EQ(judged(0.0299, 0.004), Verdict::passed_for_now);
    EXPECT_EQ(judged(0.0300, 0.004), Verdict::passed);
    EXPECT_EQ(judged(0.0300, 0.0201), Verdict::too_close_to_call); // doubt goes before plenty
}

TEST(Verdict, ExactlyAtTheLimitWithNoDoubtPasses) {
    EXPECT_EQ(judged(0.010, 0.0), Verdict::passed_little_room);
    EXPECT_EQ(judged(std::nextafter(0.010, 0.0), 0.0),
              Verdict::passed_little_room); // rounding of the inch
    EXPECT_EQ(judged(0.0099999, 0.0), Verdict::failed);
}

TEST(Verdict, DoubtNobodyStatedIsNoGroundForAPass) {
    for (const double clearance : {0.010, 0.0151, 0.050, 1.0}) {
        EXPECT_EQ(judged(clearance, {}), Verdict::no_doubt_given);
        EXPECT_FALSE(is_pass(judged(clearance, {})));
    }
    // What misses the limit by itself fails without it.
    EXPECT_EQ(judged(0.0099, {}), Verdict::failed);
    EXPECT_EQ(judged(0.0001, {}), Verdict::failed);
}

TEST(Verdict, OfTwoOnTheSameRodTheWorseRules) {
    const Verdict from_the_best[] = {
        Verdict::passed,         Verdict::passed_for_now,    Verdict::passed_little_room,
        Verdict::no_doubt_given, Verdict::too_close_to_call, Verdict::failed,
        Verdict::contact};
    for (std::size_t a = 0; a < std::size(from_the_best); ++a) {
        for (std::size_t b = 0; b < std::size(from_the_best); ++b) {
            EXPECT_EQ(worse(from_the_best[a], from_the_best[b]), from_the_best[std::max(a, b)]);
        }
    }
}

TEST(Verdict, NoClearanceIsContactWhateverTheDoubt) {
    for (const double clearance : {0.0, -0.0001, -0.1}) {
        for (const std::optional<double> doubt :
             {std::optional<double>(), std::optional(0.0), std::optional(0.5)}) {
            EXPECT_EQ(judged(clearance, doubt), Verdict::contact);
        }
    }
}

TEST(Verdict, OnlyThePassesPass) {
    EXPECT_TRUE(is_pass(Verdict::passed) && is_pass(Verdict::passed_little_room) &&
                is_pass(Verdict::passed_for_now));
    EXPECT_FALSE(is_pass(Verdict::too_close_to_call) || is_pass(Verdict::failed) ||
                 is_pass(Verdict::contact) || is_pass(Verdict::no_doubt_given));
}

TEST(Verdict, AClearanceThatIsNoNumberNeverPasses) {
    EXPECT_FALSE(is_pass(judge(std::nan(""), 0.01, limits)));
    EXPECT_FALSE(is_pass(judge(1.0, std::nan(""), limits)));
}

} // namespace
} // namespace rodway
