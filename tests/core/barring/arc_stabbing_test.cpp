#include "core/barring/arc_stabbing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "tests/twins/slow_barring.h"

namespace rodway {
namespace {

bool all_met(const std::vector<CrankArc>& arcs, const std::vector<CrankAngle>& angles) {
    return std::all_of(arcs.begin(), arcs.end(), [&](const CrankArc& arc) {
        return std::any_of(angles.begin(), angles.end(),
                           [&](CrankAngle angle) { return arc.holds(angle); });
    });
}

TEST(ArcStabbing, RandomArcsAreMetByAsFewAnglesAsTryingEverySetFinds) {
    constexpr std::uint64_t seed = 20240611;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    std::vector<int> needed(13, 0);
    for (int time = 0; time < 600; ++time) {
        // Long arcs like heels, short ones that need many angles, and whole degrees so that ends
        // meet.
        const double longest = time % 3 == 0 ? 430.0 : time % 3 == 1 ? 180.0 : 60.0;
        std::vector<CrankArc> arcs;
        const int count = 1 + static_cast<int>(random() % 11);
        for (int arc = 0; arc < count; ++arc) {
            const auto whole = [&](double most) {
                return std::floor(std::uniform_real_distribution<double>(0.0, most)(random));
            };
            arcs.push_back({CrankAngle::deg(whole(720.0)), whole(longest)});
        }
        const auto angles = fewest_angles(arcs);
        ASSERT_TRUE(all_met(arcs, angles)) << "time " << time;
        ASSERT_TRUE(std::is_sorted(angles.begin(), angles.end()));
        ASSERT_EQ(angles.size(), twins::slow_fewest(arcs)) << "time " << time;
        ++needed[angles.size()];
    }
    // The arcs must have asked for few and for many.
    for (std::size_t size = 1; size <= 6; ++size) {
        EXPECT_GT(needed[size], 10) << size;
    }
}

TEST(ArcStabbing, ARingOfFourInWhichOnlyNeighboursMeetNeedsTwo) {
    const std::vector<CrankArc> arcs{{CrankAngle::deg(0.0), 100.0},
                                     {CrankAngle::deg(90.0), 100.0},
                                     {CrankAngle::deg(180.0), 100.0},
                                     {CrankAngle::deg(270.0), 460.0}};
    // 0-100, 90-190, 180-280, 270-10.
    EXPECT_EQ(fewest_angles(arcs).size(), 2u);
}

TEST(ArcStabbing, NoArcsNeedNoAngleAndAWholeCycleNeedsOne) {
    EXPECT_TRUE(fewest_angles({}).empty());
    EXPECT_EQ(fewest_angles({{CrankAngle::deg(5.0), 720.0}}).size(), 1u);
    EXPECT_EQ(fewest_angles({{CrankAngle::deg(5.0), 0.0}, {CrankAngle::deg(6.0), 0.0}}).size(), 2u);
}

} // namespace
} // namespace rodway
