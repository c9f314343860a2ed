#include "core/clearance/gap_at.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

#include "core/clearance/passage_pose.h"
#include "core/clearance/rod_clearance.h"
#include "tests/twins/slow_gap.h"

namespace rodway {
namespace {

const Bore upright{Vec3(10, 20, 30), Vec3::UnitZ(), 80.0, 7.0};

RodPlace parallel_rod(double forward, double to_y) {
    const Vec3 foot = upright.centre_K + Vec3(-forward, to_y, 0.0);
    return {foot - Vec3(0, 0, 100), foot + Vec3(0, 0, 100), 4.0};
}

/// Random bores and rods through them, round and obround, sharp and rounded.
struct RandomRod {
    Bore bore;
    RodPlace rod;
};
RandomRod random_rod(std::mt19937_64& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto about = [&](const Vec3& middle, double spread) {
        return Vec3(middle + Vec3(between(-spread, spread), between(-spread, spread),
                                  between(-spread, spread)));
    };
    RandomRod made;
    Bore& bore = made.bore;
    bore.centre_K = about(Vec3(100, -80, 290), 30.0);
    bore.axis_K = about(Vec3(0, 0.2, 1), 0.2).normalized();
    bore.length_mm = between(15.0, 110.0);
    made.rod.radius_mm = between(3.0, 6.0);
    bore.bore_radius_mm = made.rod.radius_mm + between(0.5, 4.0);
    if (between(0, 1) < 0.5) {
        bore.half_straight_mm = between(0.5, 5.0);
        const Vec3 way = about(Vec3(1, 0, 0), 0.8);
        bore.long_way_K = (way - way.dot(bore.axis_K) * bore.axis_K).normalized();
    }
    if (between(0, 1) < 0.5) {
        bore.top_edge_radius_mm = between(0.2, 3.0);
        bore.bottom_edge_radius_mm = between(0.2, 3.0);
    }
    const double room = bore.bore_radius_mm - made.rod.radius_mm;
    const Vec3 through = about(bore.centre_K, room / 2.0);
    const Vec3 direction = about(bore.axis_K, 0.5 * room / bore.length_mm).normalized();
    made.rod.lower_K = through - 120.0 * direction;
    made.rod.upper_K = through + 110.0 * direction;
    return made;
}

// Closed form in the doc comment; both circles, no tilt. The clock is seen from the rod.
TEST(Gap, OfAParallelRodIsTheLargestBallBetweenTwoCircles) {
    const double c = 1.2;
    const RodPlace rod = parallel_rod(c, 0.0); // towards the front
    for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
        for (double hours = 0.25; hours <= 12.0; hours += 0.25) {
            const double toward = c * std::cos(hours * std::numbers::pi / 6.0);
            const double expected = (49.0 - 16.0 - c * c - 8.0 * toward) / (7.0 + 4.0 + toward);
            ASSERT_NEAR(*gap_at(upright, rod, end, hours), expected, 1e-12) << hours;
        }
        EXPECT_NEAR(*gap_at(upright, rod, end, 12.0), 7.0 - 4.0 - c, 1e-12);
        EXPECT_NEAR(*gap_at(upright, rod, end, 6.0), 7.0 - 4.0 + c, 1e-12);
        const auto tightest = tightest_gap(upright, rod, end);
        EXPECT_NEAR(tightest->gap_mm, 7.0 - 4.0 - c, 1e-9);
        EXPECT_NEAR(std::remainder(tightest->clock_hours, 12.0), 0.0, 1e-4);
    }
    // 3 o'clock is the bank's +y.
    EXPECT_NEAR(tightest_gap(upright, parallel_rod(0.0, 1.0), BoreEnd::top)->clock_hours, 3.0,
                1e-4);
    EXPECT_NEAR(*gap_at(upright, parallel_rod(0.0, 1.0), BoreEnd::top, 3.0), 2.0, 1e-12);
    EXPECT_NEAR(*gap_at(upright, parallel_rod(0.0, 1.0), BoreEnd::top, 9.0), 4.0, 1e-12);
}

TEST(Gap, KnowsOneEndFromTheOther) {
    RodPlace rod = parallel_rod(0.0, 0.0);
    rod.upper_K += Vec3(-2.0, 0, 0); // leans to the front at the top
    rod.lower_K += Vec3(2.0, 0, 0);
    EXPECT_LT(*gap_at(upright, rod, BoreEnd::top, 12.0), 2.5);
    EXPECT_GT(*gap_at(upright, rod, BoreEnd::bottom, 12.0), 3.5);
    EXPECT_LT(*gap_at(upright, rod, BoreEnd::bottom, 6.0), 2.5);
}

// 1e-6 mm: the twin's rim is walked round to that.
TEST(Gap, AgreesWithTryingEverLargerBalls) {
    const std::uint64_t seed = 5150;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int answered = 0;
    for (int made = 0; answered < 150; ++made) {
        ASSERT_LT(made, 2000);
        const auto [bore, rod] = random_rod(random);
        const BoreEnd end = made % 2 == 0 ? BoreEnd::top : BoreEnd::bottom;
        const double hours = std::uniform_real_distribution<double>(0.0, 12.0)(random);
        const auto gap = gap_at(bore, rod, end, hours);
        if (!gap) {
            continue;
        }
        ++answered;
        ASSERT_NEAR(*gap, twins::slow_gap(bore, rod, end, hours), 1e-6) << made;
        ASSERT_EQ(*gap, gap_anywhere_mm(bore, rod, end, hours));
        if (answered % 15 == 0) {
            const auto tightest = tightest_gap(bore, rod, end);
            ASSERT_NEAR(tightest->gap_mm, twins::slow_tightest_gap(bore, rod, end), 1e-5) << made;
            ASSERT_NEAR(tightest->gap_mm, *gap_at(bore, rod, end, tightest->clock_hours), 1e-9);
        }
    }
}

// 1e-6 mm: the slow one's rim is walked round to that.
TEST(Gap, TheQuickTwinForRoundBoresAgreesWithTheSlowOne) {
    const std::uint64_t seed = 5151;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    for (int made = 0, answered = 0; answered < 40; ++made) {
        ASSERT_LT(made, 1000);
        auto [bore, rod] = random_rod(random);
        bore.half_straight_mm = 0.0;
        bore.top_edge_radius_mm = bore.bottom_edge_radius_mm = 0.0;
        const BoreEnd end = made % 2 == 0 ? BoreEnd::top : BoreEnd::bottom;
        const double hours = std::uniform_real_distribution<double>(0.0, 12.0)(random);
        if (!gap_at(bore, rod, end, hours)) {
            continue;
        }
        ++answered;
        ASSERT_NEAR(twins::round_gap(bore, rod, end, hours), twins::slow_gap(bore, rod, end, hours),
                    1e-6)
            << made;
        const PassagePose pose{0.4, -0.3, 0.01, 0.02};
        const Bore moved = twins::moved_by_its_ends(bore, pose);
        ASSERT_LT((moved.centre_K - at_pose(bore, pose).centre_K).norm(), 1e-9);
        ASSERT_LT((moved.axis_K - at_pose(bore, pose).axis_K).norm(), 1e-12);
    }
}

// Moving a bore by each of the four unknowns of its pose, obround and rounded ones, too, against
// differences. 1e-5: steps of 1e-4 mm or 1e-6 rad and rounding of gaps, some 1e-12 mm.
TEST(Gap, ChangesWithItsBoreAsItsGradientSays) {
    const std::uint64_t seed = 5152;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const PoseVector steps(1e-4, 1e-4, 1e-6, 1e-6);
    int straight_sides = 0;
    for (int made = 0, answered = 0; answered < 300; ++made) {
        ASSERT_LT(made, 3000);
        const auto [bore, rod] = random_rod(random);
        const BoreEnd end = made % 2 == 0 ? BoreEnd::top : BoreEnd::bottom;
        const double hours = std::uniform_real_distribution<double>(0.0, 12.0)(random);
        const PoseVector at(0.2, -0.1, 0.004, -0.006);
        const PosedBore posed = at_pose_with_rates(bore, as_pose(at));
        ASSERT_EQ(posed.bore.centre_K, at_pose(bore, as_pose(at)).centre_K);
        const auto gradient = gap_gradient(posed.bore, rod, end, hours);
        if (!gradient) {
            continue;
        }
        ++answered;
        straight_sides += gradient->by_long_way_K.norm() > 0.0;
        ASSERT_NEAR(gradient->gap_mm, gap_anywhere_mm(posed.bore, rod, end, hours), 1e-9);
        for (int unknown = 0; unknown < 4; ++unknown) {
            const auto gap = [&](double side) {
                PoseVector moved = at;
                moved[unknown] += side * steps[unknown];
                return gap_anywhere_mm(at_pose(bore, as_pose(moved)), rod, end, hours);
            };
            const double slope = (gap(1.0) - gap(-1.0)) / (2.0 * steps[unknown]);
            const BoreRate& rate = posed.rates[static_cast<std::size_t>(unknown)];
            const double found = gradient->by_centre_K.dot(rate.centre_K) +
                                 gradient->by_axis_K.dot(rate.axis_K) +
                                 gradient->by_long_way_K.dot(rate.long_way_K);
            ASSERT_NEAR(found, slope, 1e-5 * std::max(1.0, std::abs(slope)))
                << made << " unknown " << unknown;
        }
    }
    EXPECT_GT(straight_sides, 50);
}

// 'Touch' must mean the same for a gauge and for the clearance: a rod moved until its clearance is
// nothing leaves no gap at the mouth it touches.
TEST(Gap, IsNothingExactlyWhereTheRodTouches) {
    const std::uint64_t seed = 616;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int touched = 0;
    for (int made = 0; touched < 100; ++made) {
        ASSERT_LT(made, 2000);
        auto [bore, rod] = random_rod(random);
        bore.half_straight_mm = 0.0;
        bore.top_edge_radius_mm = bore.bottom_edge_radius_mm = 0.0;
        const auto nearest = axis_to_wall(bore, rod.lower_K, rod.upper_K);
        if (!nearest) {
            continue;
        }
        rod.radius_mm = nearest->distance_mm;
        ++touched;
        const auto tightest = tightest_gap(bore, rod, nearest->end);
        ASSERT_NEAR(tightest->gap_mm, 0.0, 1e-8) << made;
        const BoreEnd other = nearest->end == BoreEnd::top ? BoreEnd::bottom : BoreEnd::top;
        ASSERT_GT(tightest_gap(bore, rod, other)->gap_mm, -1e-8) << made;
    }
}

TEST(Gap, IsEmptyWhereTheAxisIsNotInsideTheMouth) {
    EXPECT_FALSE(gap_at(upright, parallel_rod(7.5, 0.0), BoreEnd::top, 12.0).has_value());
    EXPECT_FALSE(tightest_gap(upright, parallel_rod(7.5, 0.0), BoreEnd::top).has_value());
    EXPECT_TRUE(gap_at(upright, parallel_rod(6.9, 0.0), BoreEnd::top, 12.0).has_value());
    RodPlace across = parallel_rod(0.0, 0.0);
    std::swap(across.lower_K, across.upper_K);
    EXPECT_FALSE(gap_at(upright, across, BoreEnd::top, 12.0).has_value());
}

// For the search: no jump anywhere, and always falling as the rod goes farther out.
TEST(Gap, KeepsFallingOutsideTheBore) {
    double last = *gap_at(upright, parallel_rod(0.0, 0.0), BoreEnd::top, 12.0);
    for (double out = 0.01; out < 30.0; out += 0.01) {
        const double gap = gap_anywhere_mm(upright, parallel_rod(out, 0.0), BoreEnd::top, 12.0);
        ASSERT_LT(gap, last) << out;
        ASSERT_GT(gap, last - 0.025) << out;
        last = gap;
    }
}

} // namespace
} // namespace rodway
