// Obround bores and rounded ends, as bore_witness_test.cpp has the round, sharp one.
#include <gtest/gtest.h>

#include "tests/witness/bore_checks.h"

namespace rodway::witness {
namespace {

constexpr std::uint64_t seed = 20260515;

Ways shaped(bool obround, bool rounded_ends, double tilt_deg = 12.0) {
    Ways ways;
    ways.obround = obround;
    ways.rounded_ends = rounded_ends;
    ways.tilt_deg = tilt_deg;
    return ways;
}

TEST(ShapedBoreWitness, DistancesInObroundBores) {
    expect_distances_agree(seed, shaped(true, false), 60);
}
TEST(ShapedBoreWitness, DistancesWithRoundedEnds) {
    expect_distances_agree(seed + 1, shaped(false, true), 30);
}
TEST(ShapedBoreWitness, DistancesInObroundBoresWithRoundedEnds) {
    expect_distances_agree(seed + 2, shaped(true, true), 40);
}
TEST(ShapedBoreWitness, DistancesInObroundBoresLeaningFar) {
    expect_distances_agree(seed + 3, shaped(true, true, 35.0), 30);
}

TEST(ShapedBoreWitness, PointsAboutObroundBores) {
    expect_points_agree(seed + 4, shaped(true, false));
}
TEST(ShapedBoreWitness, PointsAboutRoundedEnds) {
    expect_points_agree(seed + 5, shaped(false, true));
}
TEST(ShapedBoreWitness, PointsAboutObroundBoresWithRoundedEnds) {
    expect_points_agree(seed + 6, shaped(true, true));
}

TEST(ShapedBoreWitness, PiercingObroundBores) {
    expect_piercing_agrees(seed + 7, shaped(true, false));
}
TEST(ShapedBoreWitness, PiercingBoresWithRoundedEnds) {
    expect_piercing_agrees(seed + 8, shaped(true, true));
}

} // namespace
} // namespace rodway::witness
