#include "core/clearance/clearance_place.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261126;

std::optional<RodInTube> closed(const twins::RandomTrain& random) {
    const auto closing = Linkage::close(random.train);
    if (!closing.linkage) {
        return std::nullopt;
    }
    return RodInTube{*closing.linkage, random.train.tube.bore, random.train.rod.diameter_mm / 2.0,
                     random.full_lift_mm, 1.0};
}

/// The way in which the rod's axis swings in the tube between heel and full lift.
Vec3 swing_way(const RodInTube& rod) {
    const Pose heel = *rod.linkage.at(0.0);
    const Pose full = *rod.linkage.at(rod.full_lift_mm);
    const Vec3 swing =
        full.upper_ball_K + full.lower_ball_K - heel.upper_ball_K - heel.lower_ball_K;
    const Vec3& e = rod.tube.axis_K;
    return (swing - swing.dot(e) * e).normalized();
}

// Two ways to the same minimum: the certified search, and a walk of every rim by itself.
TEST(ClearancePlace, NoLocalMinimumLiesBelowTheCertifiedOneAndOneOfThemIsIt) {
    std::mt19937_64 random(seed);
    std::cout << "seed " << seed << '\n';
    int answered = 0;
    int several = 0;
    while (answered < 300) {
        const twins::RandomTrain made = twins::random_train(random);
        const auto rod = closed(made);
        const auto found = rod ? certified_minimum(*rod) : CertifiedMinimum{};
        if (!found.minimum) {
            continue;
        }
        ++answered;
        const auto places = places_that_tie(made.train, *rod, found, 1e9);
        ASSERT_FALSE(places.empty());
        several += places.size() > 1;
        for (const ClearancePlace& place : places) {
            // The two searches stop within 1e-11 mm of lobe lift; 1e-9 mm is rounding.
            EXPECT_GE(place.clearance_mm, found.minimum->clearance_mm - 1e-9);
            EXPECT_NEAR(
                (place.p_wall_K - place.p_rod_K - place.clearance_mm * place.normal_K).norm(), 0.0,
                1e-9);
            // The station really is that of the witness.
            const Pose pose = *rod->linkage.at(place.lobe_lift_mm);
            const Vec3 axis = (pose.upper_ball_K - pose.lower_ball_K).normalized();
            EXPECT_NEAR((pose.lower_ball_K + place.station_mm * axis +
                         place.ball_radius_mm * place.normal_K - place.p_rod_K)
                            .norm(),
                        0.0, 1e-9);
        }
        for (std::size_t at = 1; at < places.size(); ++at) {
            const bool same = (places[at].p_wall_K - places[0].p_wall_K).norm() < 1e-6 &&
                              std::abs(places[at].lobe_lift_mm - places[0].lobe_lift_mm) < 1e-6;
            EXPECT_FALSE(same) << "the minimum's own place is listed twice";
        }
    }
    EXPECT_GT(several, 150);
}

// The tube is moved sideways until heel and full lift have the same clearance.
TEST(ClearancePlace, FindsTheOtherPlaceThatTies) {
    std::mt19937_64 random(seed + 1);
    int tied = 0;
    for (int made = 0; made < 400 && tied < 10; ++made) {
        const twins::RandomTrain train = twins::random_train(random);
        auto rod = closed(train);
        if (!rod || !certified_minimum(*rod).minimum) {
            continue;
        }
        const Vec3 way = swing_way(*rod);
        const auto lead = [&](double moved) -> std::optional<double> {
            RodInTube there = *rod;
            there.tube.centre_K += moved * way;
            const auto heel = rod_clearance_at(there, 0.0);
            const auto full = rod_clearance_at(there, train.full_lift_mm);
            return heel && full ? std::optional(heel->clearance_mm - full->clearance_mm)
                                : std::nullopt;
        };
        double low = -1.0;
        double high = 1.0;
        if (!lead(low) || !lead(high) || *lead(low) * *lead(high) >= 0.0) {
            continue;
        }
        for (int halving = 0; halving < 100; ++halving) {
            const double middle = (low + high) / 2.0;
            const auto here = lead(middle);
            if (!here) {
                break;
            }
            (*here * *lead(low) > 0.0 ? low : high) = middle;
        }
        rod->tube.centre_K += low * way;
        const CertifiedMinimum found = certified_minimum(*rod);
        const bool at_an_end = found.minimum && (found.minimum->lobe_lift_mm == 0.0 ||
                                                 found.minimum->lobe_lift_mm == train.full_lift_mm);
        if (!at_an_end) {
            continue;
        }
        ++tied;
        const auto places = places_that_tie(train.train, *rod, found);
        ASSERT_EQ(places.size(), 2U);
        EXPECT_NEAR(places[0].clearance_mm, places[1].clearance_mm, same_clearance_mm);
        EXPECT_NE(places[0].at_full_lift, places[1].at_full_lift);
    }
    EXPECT_EQ(tied, 10);
}

} // namespace
} // namespace rodway
