#include "core/describe/described_tube.h"

#include <gtest/gtest.h>

#include <random>

namespace rodway {
namespace {

const RodPlace rod{{90.0, -89.8, 148.5}, {87.5, -54.0, 373.4}, 3.97};

// `gap_at` is what a gauge measures, by its own derivation: the tube must give back each gap.
TEST(DescribedTube, GivesBackTheGapsItWasMadeFrom) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> gap_mm(0.2, 4.5);
    int made = 0;
    for (int round = 0; round < 200; ++round) {
        const TubeGaps gaps{gap_mm(random), gap_mm(random), gap_mm(random), gap_mm(random)};
        const double side = round % 2 == 0 ? 1.0 : -1.0;
        TubeOnRod on_rod{60.0, 14.3, 50.0, side};
        if (round % 3 > 0) {
            on_rod.long_bore_mm = 19.0;
            on_rod.long_along_crank = round % 3 == 1;
        }
        const auto tube = tube_from_gaps(rod, on_rod, gaps);
        if (!tube) {
            continue;
        }
        ++made;
        EXPECT_NEAR(tube->half_straight_mm, round % 3 > 0 ? 2.35 : 0.0, 1e-12);
        EXPECT_NEAR(tube->long_way_K.dot(tube->axis_K) * tube->half_straight_mm, 0.0, 1e-12);
        const double outboard = side > 0.0 ? 3.0 : 9.0;
        EXPECT_NEAR(*gap_at(*tube, rod, BoreEnd::top, 12.0), gaps.front_top, 1e-7);
        EXPECT_NEAR(*gap_at(*tube, rod, BoreEnd::bottom, 12.0), gaps.front_bottom, 1e-7);
        EXPECT_NEAR(*gap_at(*tube, rod, BoreEnd::top, outboard), gaps.outboard_top, 1e-7);
        EXPECT_NEAR(*gap_at(*tube, rod, BoreEnd::bottom, outboard), gaps.outboard_bottom, 1e-7);
    }
    EXPECT_GE(made, 150); // of the others the rod would stand in the wall
}

TEST(DescribedTube, WithEqualGapsAllRoundStandsAlongTheRodAtItsPlace) {
    const double room = 14.3 - 2.0 * rod.radius_mm;
    const TubeGaps even{room / 2.0, room / 2.0, room / 2.0, room / 2.0};
    const auto tube = tube_from_gaps(rod, {60.0, 14.3, 50.0, 1.0}, even);
    ASSERT_TRUE(tube.has_value());
    const Vec3 along = (rod.upper_K - rod.lower_K).normalized();
    EXPECT_LT((tube->axis_K - along).norm(), 1e-9);
    EXPECT_LT((tube->centre_K - (rod.upper_K - 80.0 * along)).norm(), 1e-7);
}

TEST(DescribedTube, ASmallerGapInFrontMeansThatTheTubeStandsFartherBack) {
    const double half = (14.3 - 2.0 * rod.radius_mm) / 2.0;
    const TubeGaps near{half - 1.0, half, half - 1.0, half};
    const auto tube = tube_from_gaps(rod, {60.0, 14.3, 50.0, 1.0}, near);
    ASSERT_TRUE(tube.has_value());
    const Vec3 along = (rod.upper_K - rod.lower_K).normalized();
    EXPECT_GT((tube->centre_K - (rod.upper_K - 80.0 * along)).x(), 0.9);
}

TEST(DescribedTube, IsNoneWhereTheGapsNeedMoreRoomThanThereIs) {
    EXPECT_FALSE(tube_from_gaps(rod, {60.0, 14.3, 50.0, 1.0}, {7.0, 3.0, 3.0, 3.0}).has_value());
    EXPECT_FALSE(tube_from_gaps(rod, {60.0, 14.3, 50.0, 1.0}, {99.0, 3.0, 3.0, 3.0}).has_value());
}

} // namespace
} // namespace rodway
