#include "core/cam/quintic_spline.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 515;

QuinticSpline random_spline(std::mt19937_64& random) {
    std::uniform_real_distribution<double> lift(-1.0, 1.0);
    std::vector<double> coefficients(14);
    for (double& coefficient : coefficients) {
        coefficient = lift(random);
    }
    return {-3.5, 0.75, coefficients};
}

// Closed form: the quintic B-spline on whole knots is (1, 26, 66, 26, 1)/120 at its inner knots
// (de Boor, A Practical Guide to Splines, from memory).
TEST(QuinticSpline, OnePieceHasTheKnownValuesAtItsKnots) {
    const QuinticSpline spline(10.0, 2.0, {120.0});
    EXPECT_DOUBLE_EQ(spline.first(), 10.0);
    EXPECT_DOUBLE_EQ(spline.last(), 22.0);
    const double values[] = {0.0, 1.0, 26.0, 66.0, 26.0, 1.0, 0.0};
    // Its first derivative by steps there: 0, 5, 50, 0, -50, -5, 0; second: 0, 20, 40, -120, 40,
    // 20, 0.
    const double slopes[] = {0.0, 5.0, 50.0, 0.0, -50.0, -5.0, 0.0};
    const double seconds[] = {0.0, 20.0, 40.0, -120.0, 40.0, 20.0, 0.0};
    for (int knot = 0; knot <= 6; ++knot) {
        const CurveValue at = spline.at(10.0 + 2.0 * knot);
        const auto n = static_cast<std::size_t>(knot);
        EXPECT_NEAR(at[0], values[n], 1e-12); // rounding
        EXPECT_NEAR(at[1], slopes[n] / 2.0, 1e-12);
        EXPECT_NEAR(at[2], seconds[n] / 4.0, 1e-12);
    }
}

TEST(QuinticSpline, WeightsShareOutOneAndItsDerivativesShareOutNothing) {
    for (const double u : {0.0, 0.1, 0.37, 0.5, 0.999, 1.0}) {
        const auto weights = QuinticSpline::weights(u);
        for (std::size_t order = 0; order < weights.size(); ++order) {
            double sum = 0.0;
            for (const double weight : weights[order]) {
                sum += weight;
            }
            EXPECT_NEAR(sum, order == 0 ? 1.0 : 0.0, 1e-14);
        }
    }
}

// A straight line's coefficients at the pieces' middles give the line (linear precision).
TEST(QuinticSpline, ReproducesALineAwayFromItsEnds) {
    std::vector<double> line(20);
    for (std::size_t j = 0; j < line.size(); ++j) {
        line[j] = 2.0 * (0.5 * (static_cast<double>(j) + 3.0)) - 1.0;
    }
    const QuinticSpline spline(0.0, 0.5, line);
    for (double x = 2.5; x <= 10.0; x += 0.1) {
        const CurveValue at = spline.at(x);
        EXPECT_NEAR(at[0], 2.0 * x - 1.0, 1e-12);
        EXPECT_NEAR(at[1], 2.0, 1e-12);
        EXPECT_NEAR(at[2], 0.0, 1e-11);
        EXPECT_NEAR(at[3], 0.0, 1e-10);
    }
}

TEST(QuinticSpline, IsContinuousToItsJerkAcrossEveryKnotAndZeroBeyondItsEnds) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const QuinticSpline spline = random_spline(random);
    for (double knot = spline.first(); knot <= spline.last() + 1e-9; knot += spline.step()) {
        const CurveValue before = spline.at(knot - 1e-9);
        const CurveValue after = spline.at(knot + 1e-9);
        for (std::size_t order = 0; order < before.size(); ++order) {
            // 2e-9 of argument times the next derivative, at most some hundreds.
            EXPECT_NEAR(before[order], after[order], 1e-6) << "knot " << knot << " order " << order;
        }
    }
    for (const double x :
         {spline.first() - 1e-12, spline.first() - 5.0, spline.last(), spline.last() + 5.0}) {
        for (const double value : spline.at(x)) {
            EXPECT_EQ(value, 0.0) << x;
        }
    }
    EXPECT_EQ(spline.at(std::nan(""))[0], 0.0);
}

TEST(QuinticSpline, DerivativesAreThoseOfItsValues) {
    std::mt19937_64 random(seed);
    const QuinticSpline spline = random_spline(random);
    const double h = 1e-4;
    for (double x = spline.first() + 0.1; x < spline.last(); x += 0.1234) {
        for (std::size_t order = 0; order + 1 < 4; ++order) {
            const double slope = (spline.at(x + h)[order] - spline.at(x - h)[order]) / (2.0 * h);
            EXPECT_NEAR(spline.at(x)[order + 1], slope, 1e-4); // central difference across knots
        }
    }
}

} // namespace
} // namespace rodway
