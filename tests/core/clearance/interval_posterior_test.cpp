#include "core/clearance/interval_posterior.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>

#include "tests/twins/slow_gap.h"

namespace rodway {
namespace {

/// Mean and variance by plain summing over 200,000 strips.
Moments summed(const Moments& before, std::optional<double> low, std::optional<double> high,
               double u) {
    const double sd = std::sqrt(before.variance);
    const auto below = [](double x) { return std::erfc(-x / std::numbers::sqrt2) / 2.0; };
    double weight = 0.0;
    double first = 0.0;
    double second = 0.0;
    constexpr int strips = 200000;
    for (int strip = 0; strip < strips; ++strip) {
        const double z = -12.0 + 24.0 * (strip + 0.5) / strips;
        const double y = before.mean + sd * z;
        const double upper = high ? below((*high - y) / u) : 1.0;
        const double w = std::exp(-z * z / 2.0) * (upper - (low ? below((*low - y) / u) : 0.0));
        weight += w;
        first += w * y;
        second += w * (y - before.mean) * (y - before.mean);
    }
    const double mean = first / weight;
    return {mean, second / weight - (mean - before.mean) * (mean - before.mean)};
}

TEST(AfterInterval, AgreesWithPlainSumming) {
    struct Case {
        Moments before;
        std::optional<double> low, high;
        double u;
    };
    for (const Case& each :
         {Case{{0.0, 1.0}, -0.3, 0.4, 0.1}, Case{{0.2, 0.5}, 0.5, 0.6, 0.05},
          Case{{0.0, 1.0}, 2.0, 2.3, 0.1}, Case{{0.0, 1.0}, -2.5, -2.2, 0.1},
          Case{{0.0, 1.0}, 1.0, std::nullopt, 0.1}, Case{{0.0, 1.0}, std::nullopt, -1.0, 0.1},
          Case{{0.0, 1.0}, std::nullopt, 3.0, 0.1}, Case{{1.0, 4.0}, -0.1, 0.1, 0.3}}) {
        const auto found = after_interval(each.before, each.low, each.high, each.u);
        const Moments expected = summed(each.before, each.low, each.high, each.u);
        ASSERT_TRUE(found.has_value());
        EXPECT_NEAR(found->mean, expected.mean, 1e-6); // the strips
        EXPECT_NEAR(found->variance, expected.variance, 1e-6);
    }
}

// Far in the tail what is left is a thin layer at the limit: mean a + 1/a, variance 1/a² (Mills'
// ratio; Abramowitz & Stegun 26.2.13, first terms; the next ones are 2/a² of that).
TEST(AfterInterval, HoldsFarInTheTail) {
    for (const double side : {1.0, -1.0}) {
        const auto found = side > 0.0 ? after_interval({0.0, 1.0}, 20.0, std::nullopt, 1e-6)
                                      : after_interval({0.0, 1.0}, std::nullopt, -20.0, 1e-6);
        ASSERT_TRUE(found.has_value());
        EXPECT_NEAR(side * found->mean, 20.0 + 1.0 / 20.0, 3e-4);
        EXPECT_NEAR(found->variance, 1.0 / 400.0, 4e-5);
    }
}

// One reading of half width h, little else known: variance h²/3 + u² (JCGM 100:2008, 4.3.7). The
// prior takes off a part of itself, 1 in 400 here.
TEST(IntervalPosterior, OneReadingLeavesARectangleAndItsGauge) {
    LinearReading reading;
    reading.slope = PoseVector(20.0, 0.0, 0.0, 0.0);
    reading.low = 4.0;
    reading.high = 6.0;
    reading.u = 0.5;
    const Spread spread = interval_posterior({reading});
    EXPECT_NEAR(400.0 * spread.covariance(0, 0), 1.0 / 3.0 + 0.25, 0.003);
    EXPECT_NEAR(20.0 * spread.mean[0], 5.0, 0.02);
    EXPECT_NEAR(spread.covariance(1, 1), 1.0, 1e-12);
    EXPECT_NEAR(spread.covariance(0, 1), 0.0, 1e-12);
}

TEST(IntervalPosterior, NoReadingLeavesWhatWasStated) {
    const Spread spread = interval_posterior({});
    EXPECT_EQ(spread.mean, PoseVector::Zero());
    EXPECT_EQ(spread.covariance, PoseMatrix::Identity());
}

// Tolerances: scatter of the draws (1/√3000 of a standard deviation, times 3) and what the method
// leaves, a few hundredths.
TEST(IntervalPosterior, AgreesWithDrawingAGreatManyTimes) {
    const std::uint64_t seed = 77002;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal;
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    int compared = 0;
    for (int made = 0; compared < 15; ++made) {
        ASSERT_LT(made, 60);
        const PoseVector truth(normal(random), normal(random), normal(random), normal(random));
        std::vector<LinearReading> readings;
        for (int reading = 0; reading < 3 + made % 4; ++reading) {
            LinearReading row;
            row.slope = PoseVector(normal(random), normal(random), normal(random), normal(random));
            row.u = between(0.05, 0.3);
            const double y = row.slope.dot(truth) + row.u * normal(random);
            const int kind = (made + reading) % 4;
            row.low = kind == 1 ? std::nullopt : std::optional(y - between(0.0, 1.2));
            row.high = kind == 2 ? std::nullopt : std::optional(y + between(0.0, 1.2));
            readings.push_back(row);
        }
        const Spread fast = interval_posterior(readings);
        const auto slow = twins::slow_posterior(readings, random, 3000.0);
        if (!slow) {
            continue;
        }
        ++compared;
        for (int unknown = 0; unknown < 4; ++unknown) {
            const double sd = std::sqrt(slow->covariance(unknown, unknown));
            EXPECT_NEAR(fast.mean[unknown], slow->mean[unknown], 0.1 * sd) << made;
            EXPECT_NEAR(std::sqrt(fast.covariance(unknown, unknown)), sd, 0.1 * sd) << made;
        }
    }
}

} // namespace
} // namespace rodway
