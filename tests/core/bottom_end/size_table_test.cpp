#include "core/bottom_end/size_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

namespace rodway {
namespace {

DiameterReading exact(int along, int around, double diameter_mm) {
    return {along, around, Interval::exactly(diameter_mm)};
}

// Slow twin: every pair of readings, and whether they share a direction or a place along.
TEST(SizeTable, TaperAndOutOfRoundAreTheGreatestOfAllPairs) {
    constexpr std::uint64_t seed = 20261206;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> size_mm(100.0, 100.1);
    for (int round = 0; round < 200; ++round) {
        std::vector<DiameterReading> readings;
        for (int along = 0; along < 3; ++along) {
            for (int around = 0; around < 3; ++around) {
                if (random() % 4 != 0) {
                    readings.push_back(exact(along, around, size_mm(random)));
                }
            }
        }
        std::shuffle(readings.begin(), readings.end(), random);
        double taper_mm = -1.0;
        double round_mm = -1.0;
        for (const DiameterReading& one : readings) {
            for (const DiameterReading& other : readings) {
                const double apart_mm = one.diameter_mm.low - other.diameter_mm.low;
                if (one.around == other.around && one.along != other.along) {
                    taper_mm = std::max(taper_mm, apart_mm);
                } else if (one.along == other.along && one.around != other.around) {
                    round_mm = std::max(round_mm, apart_mm);
                }
            }
        }
        const auto taper = taper_of(readings);
        const auto out_of_round = out_of_round_of(readings);
        ASSERT_EQ(taper.has_value(), taper_mm >= 0.0);
        ASSERT_EQ(out_of_round.has_value(), round_mm >= 0.0);
        const auto at = [&](int along, int around) {
            return std::find_if(readings.begin(), readings.end(),
                                [&](const auto& each) {
                                    return each.along == along && each.around == around;
                                })
                ->diameter_mm.low;
        };
        if (taper) {
            EXPECT_NEAR(taper->size_mm.high, taper_mm, 1e-12);
            EXPECT_NEAR(at(taper->widest, taper->at) - at(taper->narrowest, taper->at), taper_mm,
                        1e-12);
        }
        if (out_of_round) {
            EXPECT_NEAR(out_of_round->size_mm.low, round_mm, 1e-12);
            EXPECT_NEAR(at(out_of_round->at, out_of_round->widest) -
                            at(out_of_round->at, out_of_round->narrowest),
                        round_mm, 1e-12);
        }
    }
}

TEST(SizeTable, TheLastReadingOfAPlaceCounts) {
    const auto last = last_readings({exact(1, 0, 50.2), exact(0, 0, 50.0), exact(1, 0, 50.1)});
    ASSERT_EQ(last.size(), 2u);
    EXPECT_EQ(last[0].along, 0);
    EXPECT_EQ(last[1].diameter_mm.low, 50.1);
    EXPECT_NEAR(mean_diameter_mm(last).middle(), 50.05, 1e-12);
    EXPECT_EQ(wrong_diameter("bore", exact(0, 0, 4.0), 7)->line, 7);
    EXPECT_FALSE(wrong_diameter("bore", exact(0, 0, 100.0), 1).has_value());
}

} // namespace
} // namespace rodway
