#include "core/geometry/rim.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>
#include <random>
#include <vector>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 61;
constexpr double pi = std::numbers::pi;

/// Local minima of the distance around the ellipse, nearest first: a walk, then golden section.
std::vector<double> walked(double a, double b, double x, double y) {
    constexpr int looks = 20000;
    const auto distance = [&](double angle) {
        return std::hypot(a * std::cos(angle) - x, b * std::sin(angle) - y);
    };
    std::vector<double> around(looks);
    for (int look = 0; look < looks; ++look) {
        around[static_cast<std::size_t>(look)] = distance(2.0 * pi * look / looks);
    }
    std::vector<double> minima;
    constexpr double golden = 0.6180339887498949;
    for (int look = 0; look < looks; ++look) {
        const auto here = static_cast<std::size_t>(look);
        const double before = around[static_cast<std::size_t>((look + looks - 1) % looks)];
        const double after = around[static_cast<std::size_t>((look + 1) % looks)];
        if (around[here] > before || around[here] >= after) {
            continue;
        }
        double low = 2.0 * pi * (look - 1) / looks;
        double high = 2.0 * pi * (look + 1) / looks;
        for (int step = 0; step < 60; ++step) {
            const double p = high - golden * (high - low);
            const double q = low + golden * (high - low);
            (distance(p) < distance(q) ? high : low) = distance(p) < distance(q) ? q : p;
        }
        minima.push_back(distance((low + high) / 2.0));
    }
    std::sort(minima.begin(), minima.end());
    return minima;
}

void expect_on_ellipse(double a, double b, double x, double y, const EllipseFoot& foot) {
    EXPECT_NEAR((foot.x / a) * (foot.x / a) + (foot.y / b) * (foot.y / b), 1.0, 1e-11);
    EXPECT_NEAR(std::hypot(foot.x - x, foot.y - y), foot.distance, 1e-13 * a);
}

TEST(Rim, NearestPointAgreesWithAWalkRoundTheEllipse) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (int tried = 0; tried < 400; ++tried) {
        const double a = between(2.0, 20.0);
        const double b = a * between(0.2, 1.0);
        const double r = std::sqrt(between(0.0, 1.0));
        const double angle = between(0.0, 2.0 * pi);
        const double x = a * r * std::cos(angle);
        const double y = b * r * std::sin(angle);
        const EllipseFoot foot = nearest_on_ellipse(a, b, x, y);
        expect_on_ellipse(a, b, x, y, foot);
        const std::vector<double> minima = walked(a, b, x, y);
        // 1e-9: golden section on a minimum that may be flat.
        ASSERT_NEAR(foot.distance, minima.front(), 1e-9) << a << ' ' << b << ' ' << x << ' ' << y;
        const auto second = second_nearest_on_ellipse(a, b, x, y);
        if (minima.size() == 2) {
            // Where two minima all but merge, the walk and the root may disagree about there being
            // two.
            if (second) {
                expect_on_ellipse(a, b, x, y, *second);
                ASSERT_NEAR(second->distance, minima.back(), 1e-8);
            } else {
                EXPECT_LT(minima.back() - minima.front(), 1e-6)
                    << a << ' ' << b << ' ' << x << ' ' << y;
            }
        }
    }
}

TEST(Rim, FindsTheSecondMinimumAcrossTheLongAxis) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    int found = 0;
    for (int tried = 0; tried < 300; ++tried) {
        const double a = 10.0;
        const double b = std::uniform_real_distribution<double>(3.0, 8.0)(random);
        const double x = std::uniform_real_distribution<double>(-0.5, 0.5)(random);
        const double y = std::uniform_real_distribution<double>(-0.3, 0.3)(random) * b;
        const auto second = second_nearest_on_ellipse(a, b, x, y);
        const std::vector<double> minima = walked(a, b, x, y);
        if (minima.size() < 2) {
            continue;
        }
        ++found;
        ASSERT_TRUE(second.has_value()) << b << ' ' << x << ' ' << y;
        ASSERT_NEAR(second->distance, minima.back(), 1e-9);
        EXPECT_LE(second->y * y, 0.0);
    }
    EXPECT_GT(found, 200);
}

// Closed forms: on the short axis inside; on the long axis before and beyond the curve's centre of
// curvature; on the ellipse itself; at its centre.
TEST(Rim, OnTheAxesAndAtTheCentre) {
    const double a = 5.0;
    const double b = 3.0;
    const EllipseFoot centre = nearest_on_ellipse(a, b, 0.0, 0.0);
    EXPECT_DOUBLE_EQ(centre.distance, 3.0);
    EXPECT_DOUBLE_EQ(std::abs(centre.y), 3.0);
    EXPECT_DOUBLE_EQ(second_nearest_on_ellipse(a, b, 0.0, 0.0)->distance, 3.0);
    EXPECT_NEAR(nearest_on_ellipse(a, b, 0.0, -2.0).distance, 1.0, 1e-14);
    EXPECT_NEAR(nearest_on_ellipse(a, b, 4.0, 0.0).distance, 1.0, 1e-14); // beyond 16/5 = 3.2
    // Before it the foot has x = a²·x/(a²-b²); at x 1.6 that is 2.5, y 3·√0.75.
    EXPECT_NEAR(nearest_on_ellipse(a, b, 1.6, 0.0).distance, std::hypot(0.9, 3.0 * std::sqrt(0.75)),
                1e-14);
    EXPECT_NEAR(nearest_on_ellipse(a, b, -1.6, 0.0).x, -2.5, 1e-14);
    EXPECT_FALSE(second_nearest_on_ellipse(a, b, 4.0, 0.0).has_value());
    EXPECT_NEAR(nearest_on_ellipse(a, b, 5.0 * 0.6, 3.0 * 0.8).distance, 0.0, 1e-14);
}

TEST(Rim, ACircleAndWhatIsAlmostOne) {
    for (const double squash : {0.0, 1e-16, 1e-12, 1e-8, 1e-4}) {
        const double a = 7.0;
        const double b = a * (1.0 - squash);
        for (double angle = 0.0; angle < 2.0 * pi; angle += 0.1) {
            for (const double r : {1e-12, 0.01, 3.0, 6.9, 6.99}) {
                const double x = r * std::cos(angle);
                const double y = r * std::sin(angle);
                const EllipseFoot foot = nearest_on_ellipse(a, b, x, y);
                // Closed form for the circle; squashing moves the rim by no more than a·squash.
                ASSERT_NEAR(foot.distance, a - r, a * squash + 1e-13) << squash << ' ' << r;
                ASSERT_TRUE(std::isfinite(foot.x) && std::isfinite(foot.y));
            }
        }
    }
}

TEST(Rim, AlmostOnAnAxisIsAsGoodAsOnIt) {
    for (const double tiny : {1e-300, 1e-30, 1e-16, 1e-12}) {
        EXPECT_NEAR(nearest_on_ellipse(5.0, 3.0, 1.6, tiny).distance,
                    nearest_on_ellipse(5.0, 3.0, 1.6, 0.0).distance, 1e-11);
        EXPECT_NEAR(nearest_on_ellipse(5.0, 3.0, tiny, 2.0).distance, 1.0, 1e-11);
        EXPECT_NEAR(nearest_on_ellipse(5.0, 3.0, 4.0, tiny).distance, 1.0, 1e-11);
        EXPECT_NEAR(nearest_on_ellipse(5.0, 3.0, 3.2, tiny).distance, 1.8,
                    1e-7); // centre of curvature
    }
}

} // namespace
} // namespace rodway
