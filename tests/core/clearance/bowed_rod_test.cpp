#include "core/clearance/bowed_rod.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

namespace rodway {
namespace {

double radius_at(const RoundSections& rod, double station_mm) {
    for (const RoundSection& section : rod) {
        if (station_mm <= section.to_mm) {
            return section.radius_at(station_mm);
        }
    }
    return 0.0;
}

TEST(BowedRod, IsThickerByHalfASineWave) {
    const RoundSections straight{{0.0, 220.0, 4.0, 4.0}};
    const RoundSections bowed = bowed_rod(straight, 0.2);
    ASSERT_EQ(bowed.front().from_mm, 0.0);
    ASSERT_EQ(bowed.back().to_mm, 220.0);
    for (double station = 0.0; station <= 220.0; station += 0.7) {
        const double wave = 0.2 * std::sin(std::numbers::pi * station / 220.0);
        const double found = radius_at(bowed, station) - 4.0;
        EXPECT_LE(found, wave + 1e-12) << station;
        EXPECT_GE(found, wave - 0.0031 * 0.2) << station; // what the header allows
    }
    EXPECT_NEAR(radius_at(bowed, 110.0), 4.2, 1e-12);
}

TEST(BowedRod, StepsAndTapersStayWhereTheyAre) {
    const RoundSections stepped{
        {0.0, 50.0, 4.0, 4.0}, {50.0, 150.0, 4.5, 4.5}, {150.0, 200.0, 4.5, 4.0}};
    const RoundSections bowed = bowed_rod(stepped, 0.1);
    for (std::size_t at = 1; at < bowed.size(); ++at) {
        EXPECT_EQ(bowed[at].from_mm, bowed[at - 1].to_mm);
    }
    const double at_step = 0.1 * std::sin(std::numbers::pi / 4.0);
    EXPECT_NEAR(radius_at(bowed, 50.0), 4.0 + at_step, 1e-12);
    EXPECT_NEAR(radius_at(bowed, 50.0 + 1e-9), 4.5 + at_step, 1e-9);
    EXPECT_NEAR(radius_at(bowed, 200.0), 4.0, 1e-12);
}

TEST(BowedRod, NoBowIsTheRodItself) {
    const RoundSections straight{{0.0, 220.0, 4.0, 4.0}};
    for (const RoundSection& section : bowed_rod(straight, 0.0)) {
        EXPECT_EQ(section.radius_from_mm, 4.0);
        EXPECT_EQ(section.radius_to_mm, 4.0);
    }
    EXPECT_EQ(bow_at_mm(0.3, 0.0, 200.0), 0.0);
    EXPECT_NEAR(bow_at_mm(0.3, 200.0, 200.0), 0.0, 1e-15);
    EXPECT_NEAR(bow_at_mm(0.3, 200.0 / 6.0, 200.0), 0.15, 1e-12);
}

} // namespace
} // namespace rodway
