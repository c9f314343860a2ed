// Whole trains: the rod as FCL's capsule, posed by the linkage, against its tube as triangles.
#include <gtest/gtest.h>

#include <iostream>

#include "core/clearance/certified_minimum.h"
#include "tests/twins/slow_train.h"
#include "tests/witness/facetted_bore.h"
#include "tests/witness/fcl_witness.h"
#include "tests/witness/placed_rod.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260514;
constexpr double fcl_mm = 1e-6; ///< where FCL's steps end

struct TrainInTriangles {
    twins::RandomTrain made;
    RodInTube rod;
    FclMesh tube;
    double depth_mm; ///< of the facets

    [[nodiscard]] Capsule posed(double lobe_lift_mm) const {
        const auto pose = twins::slow_pose(made.train, rod.linkage.adjuster_in_mm(), lobe_lift_mm);
        EXPECT_TRUE(pose.has_value());
        return {pose->lower_ball_K, pose->upper_ball_K, rod.rod_radius_mm};
    }
};

std::unique_ptr<TrainInTriangles> next_train(std::mt19937_64& random) {
    for (;;) {
        const twins::RandomTrain made = twins::random_train(random);
        const auto closing = Linkage::close(made.train);
        if (!closing.linkage) {
            continue;
        }
        const Bore& bore = made.train.tube.bore;
        Facets facets;
        facets.around = 256;
        facets.out_mm = 200.0;
        return std::unique_ptr<TrainInTriangles>(new TrainInTriangles{
            made,
            {*closing.linkage, bore, made.train.rod.diameter_mm / 2.0, made.full_lift_mm, 1.0},
            FclMesh(facetted_bore(bore, facets)),
            facet_depth_mm(bore, facets)});
    }
}

// The clearance is FCL's distance between rod and triangles, which stand up to their depth inside
// the tube; where it is negative FCL finds the two in contact.
TEST(TrainWitness, ClearanceOfRandomTrains) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int clear = 0;
    int interfering = 0;
    double error = 0.0;
    while (clear < 200 || interfering < 100) {
        const auto train = next_train(random);
        const double s = between(random, 0.0, train->made.full_lift_mm);
        const auto ours = rod_clearance_at(train->rod, s);
        if (!ours) {
            continue;
        }
        const Capsule rod = train->posed(s);
        if (ours->clearance_mm > train->depth_mm + fcl_mm) {
            const auto by_fcl = train->tube.distance(rod);
            ASSERT_TRUE(by_fcl.has_value());
            ASSERT_LE(ours->clearance_mm - *by_fcl, train->depth_mm + fcl_mm);
            ASSERT_GE(ours->clearance_mm - *by_fcl, -fcl_mm);
            ASSERT_FALSE(train->tube.touches(rod));
            error += ours->clearance_mm - *by_fcl;
            ++clear;
        } else if (ours->clearance_mm < -fcl_mm) {
            ASSERT_TRUE(train->tube.touches(rod));
            ++interfering;
        }
    }
    std::cout << clear << " clear, mean error " << error / clear << " mm; " << interfering
              << " interfering\n";
}

// The certified minimum: FCL finds no less at any of 9 lobe lifts, and as little where it says.
TEST(TrainWitness, CertifiedMinimumOfRandomTrains) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    for (int answered = 0; answered < 40;) {
        const auto train = next_train(random);
        const CertifiedMinimum found = certified_minimum(train->rod);
        if (found.status != TrainStatus::answered ||
            found.minimum->clearance_mm <= train->depth_mm + fcl_mm) {
            continue;
        }
        ++answered;
        const double proved = found.minimum->clearance_mm - found.bound_mm;
        constexpr int looks = 8;
        for (int look = 0; look <= looks; ++look) {
            const auto by_fcl =
                train->tube.distance(train->posed(train->made.full_lift_mm * look / looks));
            ASSERT_TRUE(by_fcl.has_value());
            ASSERT_GE(*by_fcl, proved - train->depth_mm - fcl_mm);
        }
        const auto there = train->tube.distance(train->posed(found.minimum->lobe_lift_mm));
        ASSERT_TRUE(there.has_value());
        ASSERT_LE(*there, found.minimum->clearance_mm + fcl_mm);
        ASSERT_GE(*there, found.minimum->clearance_mm - train->depth_mm - fcl_mm);
    }
}

} // namespace
} // namespace rodway::witness
