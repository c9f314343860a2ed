#include "core/geometry/segment.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// Eberly, "Robust Computation of Distance Between Line Segments" (Geometric Tools), example 3;
// recomputed with exact rationals.
TEST(Segments, OrdinaryPairOfAPublishedExample) {
    const Segment p{{0.77998990099877119, 0.61192502360790968, -0.22703111823648214},
                    {0.53215344529598951, 0.85724585503339767, -0.10102437809109688}};
    const Segment q{{-0.21277333982288837, 0.35091548087075353, -0.49557160679250956},
                    {0.11881479667499661, 0.022494725417345762, -0.66426620958372951}};
    const SegmentPair closest = closest_points(p, q);
    EXPECT_NEAR(closest.distance, 0.98292397116488733909, 1e-14); // rounding
    EXPECT_NEAR(closest.on_first, 1.0, 1e-14);
    EXPECT_NEAR(closest.on_second, 0.05750421952, 5e-12); // digits printed
}

// The same source, example 2: nearly parallel. The plain determinant form answers 0.4326.
TEST(Segments, NearlyParallelPairKeepsItsTinyDistance) {
    const Segment p{{-1.0896217473782599, 9.7236145595088601e-7, 0.0},
                    {0.91220578597858548, -9.4369829432107506e-7, 0.0}};
    const Segment q{{-0.90010447502136237, 9.0671446351334441e-7, 0.0},
                    {1.0730877178721130, -9.8185787633992740e-7, 0.0}};
    const SegmentPair closest = closest_points(p, q);
    EXPECT_NEAR(closest.distance, 1.1575046138574105e-7, 1e-12); // rounding of the cross product
    EXPECT_NEAR(closest.on_first, 0.0946721, 5e-8);
    EXPECT_NEAR(closest.on_second, 0.0, 1e-12);
}

// Exact by hand.
TEST(Segments, EveryKindOfNearestPair) {
    struct Case {
        Segment first, second;
        double distance;
    };
    const Case cases[] = {
        {{{0, 0, 0}, {1, 0, 0}}, {{.5, -1, 1}, {.5, 1, 1}}, 1.0},
        {{{0, 0, 0}, {10, 0, 0}}, {{2, 3, 4}, {8, 3, 4}}, 5.0},
        {{{0, 0, 0}, {1, 0, 0}}, {{3, 4, 0}, {5, 4, 0}}, 4.47213595499958},
        {{{0, 0, 0}, {1, 0, 0}}, {{2, 0, 0}, {3, 0, 0}}, 1.0},
        {{{1, 2, 3}, {1, 2, 3}}, {{4, 6, 3}, {4, 6, 3}}, 5.0},
        {{{0, 0, 0}, {2, 2, 0}}, {{0, 2, 0}, {2, 0, 0}}, 0.0},
        {{{0, 0, 0}, {1, 1, 1}}, {{3, 3, 1}, {5, 5, 1}}, 2.82842712474619},
    };
    for (const Case& each : cases) {
        EXPECT_NEAR(closest_points(each.first, each.second).distance, each.distance, 1e-14);
        EXPECT_NEAR(closest_points(each.second, each.first).distance, each.distance, 1e-14);
    }
}

} // namespace
} // namespace rodway
