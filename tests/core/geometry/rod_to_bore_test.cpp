#include "core/geometry/rod_to_bore.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "tests/twins/slow_distance.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261204;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

Vec3 direction(std::mt19937_64& random) {
    return Vec3(between(random, -1, 1), between(random, -1, 1), between(random, -1, 1))
        .normalized();
}

/// Round or obround, sharp or rounded, top and bottom not alike.
Bore random_bore(std::mt19937_64& random, int kind) {
    Bore bore;
    bore.centre_K = 300.0 * direction(random);
    bore.axis_K = direction(random);
    bore.length_mm = between(random, 8.0, 110.0);
    bore.bore_radius_mm = between(random, 4.0, 12.0);
    bore.long_way_K = bore.axis_K.unitOrthogonal();
    if (kind % 2 == 1) {
        bore.half_straight_mm = between(random, 0.5, 10.0);
    }
    if (kind % 4 >= 2) {
        bore.top_edge_radius_mm = between(random, 0.0, 0.45 * std::min(bore.length_mm, 8.0));
        bore.bottom_edge_radius_mm = between(random, 0.0, 0.45 * std::min(bore.length_mm, 8.0));
    }
    return bore;
}

struct Rod {
    Vec3 lower_K, upper_K;
    std::vector<RodSection> profile; ///< in diameters, for the twin
    RoundSections sections;
};

/// Steps and tapers anywhere, the lips included.
Rod random_rod(std::mt19937_64& random, const Bore& bore, int pieces) {
    const Vec3 u = bore.long_way_K;
    const Vec3 v = bore.axis_K.cross(u);
    const double tilt = between(random, 0.0, 0.4);
    const double way = between(random, 0.0, 6.3);
    const Vec3 along =
        std::cos(tilt) * bore.axis_K + std::sin(tilt) * (std::cos(way) * u + std::sin(way) * v);
    const double R = bore.bore_radius_mm;
    const Vec3 through = bore.centre_K + between(random, -1, 1) * (R + bore.half_straight_mm) * u +
                         between(random, -R, R) * v;
    Rod rod;
    const double half = bore.length_mm / 2.0 / std::cos(tilt);
    rod.lower_K = through - (half + between(random, 0.0, 80.0)) * along;
    rod.upper_K = through + (half + between(random, 0.0, 80.0)) * along;
    const double length = (rod.upper_K - rod.lower_K).norm();
    std::vector<double> stations{0.0, length};
    for (int piece = 1; piece < pieces; ++piece) {
        stations.push_back(between(random, 0.0, length));
    }
    std::sort(stations.begin(), stations.end());
    double last = between(random, 3.0, 11.0);
    for (std::size_t at = 0; at + 1 < stations.size(); ++at) {
        const double from = random() % 3 == 0 ? last : between(random, 3.0, 11.0);
        const double to = random() % 2 == 0 ? from : between(random, 3.0, 11.0);
        last = to;
        rod.profile.push_back({stations[at], stations[at + 1], from, to});
        rod.sections.push_back({stations[at], stations[at + 1], from / 2.0, to / 2.0});
    }
    return rod;
}

bool through(const Bore& bore, const Rod& rod) {
    const Vec3 axis = rod.upper_K - rod.lower_K;
    for (const double end : {-1.0, 1.0}) {
        const double edge = end > 0.0 ? bore.top_edge_radius_mm : bore.bottom_edge_radius_mm;
        const double plane = end * (bore.length_mm / 2.0 - edge);
        const double part =
            (plane - (rod.lower_K - bore.centre_K).dot(bore.axis_K)) / axis.dot(bore.axis_K);
        const Vec3 at = rod.lower_K + part * axis;
        if (twins::slow_distance(bore, at) <= 0.0) {
            return false;
        }
    }
    return twins::slow_clearance([&](const Vec3& p) { return twins::slow_distance(bore, p); },
                                 rod.lower_K, rod.upper_K, {{0.0, axis.norm(), 0.0, 0.0}}) > 0.0;
}

TEST(RodToBore, AgreesWithAWalkForEveryBoreAndProfile) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int found_through = 0;
    int beside = 0;
    int inside_bore = 0;
    int held = 0;
    for (int tried = 0; tried < 3000; ++tried) {
        const Bore bore = random_bore(random, tried);
        const Rod rod = random_rod(random, bore, 1 + tried / 4 % 5);
        const auto found = rod_to_bore(bore, rod.lower_K, rod.upper_K, rod.sections);
        ASSERT_EQ(found.has_value(), through(bore, rod)) << tried;
        if (!found) {
            ++beside;
            continue;
        }
        ++found_through;
        held += found->held_by_rod;
        const auto distance = [&](const Vec3& p) { return twins::slow_distance(bore, p); };
        // 1e-8 mm: golden section on a minimum that may be flat; the walk can't be below the truth.
        ASSERT_NEAR(found->clearance_mm,
                    twins::slow_clearance(distance, rod.lower_K, rod.upper_K, rod.profile), 1e-8)
            << tried;
        // The witnesses.
        ASSERT_NEAR(found->normal_K.norm(), 1.0, 1e-9);
        ASSERT_NEAR(distance(found->p_wall_K), 0.0, 1e-9);
        ASSERT_NEAR(distance(found->p_axis_K), found->axis_mm(), 1e-9);
        ASSERT_LT((found->p_wall_K - found->p_axis_K - found->axis_mm() * found->normal_K).norm(),
                  1e-9);
        const Vec3 along = (rod.upper_K - rod.lower_K).normalized();
        ASSERT_LT((rod.lower_K + found->station_mm * along - found->p_axis_K).norm(), 1e-9);
        const double height = (found->p_axis_K - bore.centre_K).dot(bore.axis_K);
        inside_bore += std::abs(height) < bore.length_mm / 2.0 - 5.0;
        ASSERT_EQ(found->end, height >= 0.0 ? BoreEnd::top : BoreEnd::bottom);
    }
    std::cout << found_through << " go through, " << beside << " beside; " << inside_bore
              << " nearest deep in the bore, " << held << " at an end of a section\n";
    EXPECT_GT(found_through, 500);
    EXPECT_GT(beside, 300);
    EXPECT_GT(inside_bore, 50);
    EXPECT_GT(held, 100);
}

// Two roads to the same figure: the ellipse of a rim seen along the rod, and the bounded search.
TEST(RodToBore, AStraightRodInARoundBoreAgreesWithTheEllipse) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    int compared = 0;
    for (int tried = 0; tried < 4000; ++tried) {
        const Bore bore = random_bore(random, 2 * tried);
        const Rod rod = random_rod(random, bore, 1);
        const RoundSection axis{0.0, (rod.upper_K - rod.lower_K).norm(), 0.0, 0.0};
        const auto searched = rod_to_bore(bore, rod.lower_K, rod.upper_K, {&axis, 1});
        const auto seen = axis_to_wall(bore, rod.lower_K, rod.upper_K);
        ASSERT_EQ(searched.has_value(), seen.has_value()) << tried;
        if (seen) {
            ++compared;
            ASSERT_NEAR(searched->clearance_mm, seen->distance_mm, 1e-9) << tried;
            ASSERT_EQ(searched->end, seen->end) << tried;
            ASSERT_NEAR(twins::slow_distance(bore, seen->p_wall_K), 0.0, 1e-9);
        }
    }
    EXPECT_GT(compared, 800);
}

TEST(RodToBore, PointsAgreeWithTheWallsSection) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    int inside = 0;
    for (int tried = 0; tried < 20000; ++tried) {
        const Bore bore = random_bore(random, tried);
        const double reach = 0.8 * bore.length_mm;
        const Vec3 point = bore.centre_K + between(random, -reach, reach) * bore.axis_K +
                           between(random, 0.0, 25.0) * direction(random);
        const double distance = twins::slow_distance(bore, point);
        inside += distance < 0.0;
        ASSERT_NEAR(signed_distance_to_wall(bore, point), distance, 1e-9) << tried;
    }
    EXPECT_GT(inside, 1000);
}

// Closed forms, a rod on the axis of an upright bore of radius 7 from z -40 to 40.
const Bore upright{Vec3::Zero(), Vec3::UnitZ(), 80.0, 7.0};

double on_axis(const Bore& bore, const RoundSections& sections) {
    return rod_to_bore(bore, {0, 0, -90}, {0, 0, 90}, sections)->clearance_mm;
}

TEST(RodToBore, AStepAtTheLipInsideItAndBeyond) {
    EXPECT_NEAR(on_axis(upright, {{0, 130, 3, 3}, {130, 180, 5, 5}}), 2.0, 1e-12);
    // A millimetre above the lip the ball of the step is √50 from the rim.
    EXPECT_NEAR(on_axis(upright, {{0, 131, 3, 3}, {131, 180, 5, 5}}), std::sqrt(50.0) - 5.0, 1e-12);
    EXPECT_NEAR(on_axis(upright, {{0, 49, 5, 5}, {49, 180, 3, 3}}), std::sqrt(50.0) - 5.0, 1e-12);
    // A collar in the middle of the bore.
    EXPECT_NEAR(on_axis(upright, {{0, 88, 3, 3}, {88, 90, 6, 6}, {90, 180, 3, 3}}), 1.0, 1e-12);
}

// Radius 4.5 + 0.3·h at h above the lip: √(49 + h²) - 4.5 - 0.3·h is least at 7·√(1 - 0.09) - 4.5.
TEST(RodToBore, ATaperThroughTheLip) {
    const RoundSections taper{{0, 125, 3, 3}, {125, 135, 3, 6}, {135, 180, 6, 6}};
    EXPECT_NEAR(on_axis(upright, taper), 7.0 * std::sqrt(0.91) - 4.5, 1e-11);
    // The edge rounded by 2: a rim of radius 9 two deeper, where the radius is 3.9; 2 taken off.
    Bore rounded = upright;
    rounded.top_edge_radius_mm = 2.0;
    EXPECT_NEAR(on_axis(rounded, taper), 9.0 * std::sqrt(0.91) - 2.0 - 3.9, 1e-11);
    // The other end's rounding changes nothing.
    Bore other = upright;
    other.bottom_edge_radius_mm = 2.0;
    EXPECT_NEAR(on_axis(other, taper), 7.0 * std::sqrt(0.91) - 4.5, 1e-11);
}

TEST(RodToBore, AnObroundsRoundSidesAndFlats) {
    Bore bore = upright;
    bore.bore_radius_mm = 4.0;
    bore.half_straight_mm = 5.0;
    const auto at = [&](double x, double y) {
        return axis_to_wall(bore, {x, y, -90}, {x, y, 90})->distance_mm;
    };
    EXPECT_DOUBLE_EQ(at(0, 0), 4.0);
    EXPECT_DOUBLE_EQ(at(-3, 3), 1.0); // beside a flat
    EXPECT_DOUBLE_EQ(at(7, 0), 2.0);  // towards a round side
    EXPECT_NEAR(at(6.2, 1.6), 2.0, 1e-12);
    EXPECT_FALSE(axis_to_wall(bore, {8.9, 1.0, -90}, {8.9, 1.0, 90}));
    // Leaning towards a flat by 0.05 in slope: 2 from it where it leaves, less by the cosine.
    EXPECT_NEAR(axis_to_wall(bore, {1, -4.5, -90}, {1, 4.5, 90})->distance_mm,
                2.0 * std::cos(std::atan(0.05)), 1e-11);
    // Turned a quarter, the flats are where the round sides were.
    bore.long_way_K = Vec3::UnitY();
    EXPECT_DOUBLE_EQ(at(3, -3), 1.0);
}

TEST(RodToBore, WhatIsNoNumberHasNoClearance) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinite = std::numeric_limits<double>::infinity();
    const RoundSections straight{{0, 180, 3, 3}};
    for (const double bad : {nan, infinite, -infinite}) {
        Bore bore = upright;
        bore.length_mm = bad;
        EXPECT_FALSE(
            rod_to_bore(bore, {0, 0, -90}, {0, 0, 90}, straight) &&
            std::isnan(rod_to_bore(bore, {0, 0, -90}, {0, 0, 90}, straight)->clearance_mm));
        EXPECT_FALSE(rod_to_bore(upright, {bad, 0, -90}, {0, 0, 90}, straight));
        EXPECT_FALSE(axis_to_wall(upright, {0, bad, -90}, {0, 0, 90}));
        bore = upright;
        bore.centre_K.y() = bad;
        EXPECT_FALSE(axis_to_wall(bore, {0, 0, -90}, {0, 0, 90}));
    }
    EXPECT_FALSE(rod_to_bore(upright, {0, 0, -90}, {0, 0, 90}, RoundSections{{0, 180, nan, nan}}));
    EXPECT_FALSE(rod_to_bore(upright, {0, 0, -90}, {0, 0, 90}, {}));
}

} // namespace
} // namespace rodway
