#include "core/found/compression_test.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/pressure.h"

namespace rodway {
namespace {

/// A gauge in steps of 5 psi.
Interval psi(double value) {
    return Interval::read(value, value, 5.0) * Pressure::kPa_per_psi;
}
double in_psi(double kPa) {
    return Pressure::kPa(kPa).in_psi();
}

// Readings made up; worked by hand. 75 % of the highest is common practice, from memory.
TEST(CompressionTest, EachCylinderIsSetBesideTheHighest) {
    const auto test = compression_test(
        {{1, psi(160.0), {}}, {2, psi(150.0), {}}, {3, psi(100.0), {}}, {4, psi(120.0), {}}});
    ASSERT_TRUE(test.ok());
    EXPECT_NEAR(in_psi(test->highest_kPa.middle()), 160.0, 1e-9);
    EXPECT_NEAR(in_psi(test->lowest_kPa.middle()), 100.0, 1e-9);
    EXPECT_NEAR(in_psi(test->spread_kPa.low), 55.0, 1e-9);
    EXPECT_NEAR(in_psi(test->spread_kPa.high), 65.0, 1e-9);
    EXPECT_EQ(test->cylinders[0].standing, CompressionStanding::even);
    EXPECT_EQ(test->cylinders[1].standing, CompressionStanding::even);
    EXPECT_EQ(test->cylinders[2].standing, CompressionStanding::low);
    EXPECT_EQ(test->cylinders[3].standing, CompressionStanding::undecided); // 120/160 is 75 %
    EXPECT_NEAR(test->cylinders[2].share_of_highest.low, 97.5 / 162.5, 1e-9);
    EXPECT_NEAR(test->cylinders[2].share_of_highest.high, 102.5 / 157.5, 1e-9);
    EXPECT_GT(test->cylinders[0].share_of_highest.low, 1.0) << "against the next highest";
    EXPECT_EQ(test->cylinders[0].wet, WetFinding::not_tested);
}

TEST(CompressionTest, OilTellsRingsFromValves) {
    const auto test = compression_test({{1, psi(160.0), {}},
                                        {2, psi(100.0), psi(140.0)},
                                        {3, psi(100.0), psi(100.0)},
                                        {4, psi(100.0), psi(110.0)}});
    EXPECT_EQ(test->cylinders[1].wet, WetFinding::oil_helps);
    EXPECT_EQ(test->cylinders[2].wet, WetFinding::oil_is_no_help);
    EXPECT_EQ(test->cylinders[3].wet, WetFinding::undecided); // 10 ± 5 % of 10 %
    EXPECT_NEAR(test->cylinders[1].wet_gain->low, 137.5 / 102.5 - 1.0, 1e-9);
    EXPECT_NEAR(test->cylinders[1].wet_gain->high, 142.5 / 97.5 - 1.0, 1e-9);
}

TEST(CompressionTest, TwoLowNeighboursPointAtTheGasketBetweenThem) {
    const std::vector<std::pair<int, int>> bank{{1, 3}, {3, 5}, {5, 7}};
    const auto low = [&](std::optional<Interval> wet_of_five) {
        return compression_test({{1, psi(160.0), {}},
                                 {3, psi(90.0), psi(90.0)},
                                 {5, psi(90.0), wet_of_five},
                                 {7, psi(155.0), {}}},
                                bank)
            ->low_neighbours;
    };
    EXPECT_EQ(low({}), (std::vector<std::pair<int, int>>{{3, 5}}));
    EXPECT_EQ(low(psi(90.0)).size(), 1u);
    EXPECT_TRUE(low(psi(140.0)).empty()) << "its rings are worn";
    EXPECT_TRUE(compression_test({{1, psi(160.0), {}}, {3, psi(90.0), {}}}, {{1, 3}})
                    ->low_neighbours.empty());
}

TEST(CompressionTest, BadReadingsAreNamed) {
    EXPECT_EQ(compression_test({}).error().code, ErrorCode::too_few_rows);
    const CrankingPressure good{1, psi(160.0), {}};
    EXPECT_EQ(compression_test({good, good}).error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(compression_test({good, {2, {0.0, 100.0}, {}}}).error().field, "dry");
    EXPECT_EQ(compression_test({good, {2, psi(90.0), Interval{9.0, 8.0}}}).error().field, "wet");
    EXPECT_EQ(compression_test({good, {2, psi(90.0), Interval{9.0, 8.0}}}).error().line, 2);
    EXPECT_EQ(compression_test({good}, {{1, 2}}).error().code, ErrorCode::cylinder_unknown);
    EXPECT_EQ(compression_test({good}, {{1, 2}}).error().value, "2");
    EXPECT_EQ(compression_test({good}, {}, {1.1, 0.1, {}}).error().field, "limits/least_share");
    EXPECT_EQ(compression_test({good}, {}, {0.75, std::nan(""), {}}).error().field,
              "limits/wet_gain");
    EXPECT_EQ(CompressionLimits{}.source, FigureSource::common_practice);
}

} // namespace
} // namespace rodway
