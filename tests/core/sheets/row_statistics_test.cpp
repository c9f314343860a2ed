#include "core/sheets/row_statistics.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

namespace rodway {
namespace {

std::vector<RowReading> row_of(const std::vector<double>& values, double step) {
    std::vector<RowReading> row;
    for (const double value : values) {
        row.push_back({std::to_string(row.size() + 1), Interval::around(value, step)});
    }
    return row;
}

std::vector<std::size_t> odd_of(const std::vector<double>& values, double step) {
    const auto statistics = row_statistics(row_of(values, step));
    EXPECT_TRUE(statistics.ok());
    std::vector<std::size_t> odd;
    for (const OddReading& each : statistics->odd) {
        odd.push_back(each.index);
    }
    return odd;
}

// Arithmetic: 2 4 4 4 5 5 7 9 have mean 5, median 4.5; squares of deviations sum to 32, over 7.
TEST(RowStatistics, SaysMeanSpreadAndDeviation) {
    const auto statistics = row_statistics(row_of({2, 4, 4, 4, 5, 5, 7, 9}, 0.1));
    ASSERT_TRUE(statistics.ok());
    EXPECT_EQ(statistics->count, 8u);
    EXPECT_NEAR(statistics->mean, 5.0, 1e-12);
    EXPECT_NEAR(statistics->median, 4.5, 1e-12);
    EXPECT_NEAR(*statistics->standard_deviation, std::sqrt(32.0 / 7.0), 1e-12);
    EXPECT_EQ(statistics->least, 0u);
    EXPECT_EQ(statistics->greatest, 7u);
    EXPECT_NEAR(*statistics->spread, 7.0, 1e-12);
    EXPECT_NEAR(statistics->true_spread->low, 6.9, 1e-12);
    EXPECT_NEAR(statistics->true_spread->high, 7.1, 1e-12);
    const auto odd_count = row_statistics(row_of({9, 1, 5}, 0.0));
    EXPECT_EQ(odd_count->median, 5.0);
    EXPECT_EQ(odd_count->greatest, 0u);
}

TEST(RowStatistics, OneReadingHasNoSpread) {
    const auto statistics = row_statistics(row_of({4.0}, 0.1));
    EXPECT_NEAR(statistics->mean, 4.0, 1e-12);
    EXPECT_FALSE(statistics->spread.has_value());
    EXPECT_FALSE(statistics->true_spread.has_value());
    EXPECT_FALSE(statistics->standard_deviation.has_value());
}

// Iglewicz & Hoaglin (1993), by the NIST/SEMATECH e-Handbook, 1.3.5.17: 0.6745·|x - median|/MAD
// over 3.5. By hand: median 5, deviations 3 1 1 0 1 1 45, MAD 1: 3·.6745 = 2.02 isn't odd, 45·.6745
// = 30.35 is.
TEST(RowStatistics, TheOddOneIsFoundByTheMedianDeviation) {
    const std::vector<double> values{2, 4, 6, 5, 6, 4, 50};
    const auto statistics = row_statistics(row_of(values, 0.0));
    EXPECT_EQ(statistics->rule, OddOneOutRule::applied);
    EXPECT_NEAR(statistics->scale, 1.0 / 0.6745, 1e-12);
    ASSERT_EQ(statistics->odd.size(), 1u);
    EXPECT_EQ(statistics->odd[0].index, 6u);
    EXPECT_NEAR(statistics->odd[0].from_median, 45.0, 1e-12);
    EXPECT_NEAR(statistics->odd[0].scales_away, 30.3525, 1e-9);
    // Mean and standard deviation would hide it: it is 2.26 deviations from the mean.
    EXPECT_LT((50.0 - statistics->mean) / *statistics->standard_deviation, 2.5);
    // Just on either side of 3.5.
    EXPECT_TRUE(odd_of({2, 4, 6, 5, 6, 4, 5.0 + 3.4 / 0.6745}, 0.0).empty());
    EXPECT_EQ(odd_of({2, 4, 6, 5, 6, 4, 5.0 + 3.6 / 0.6745}, 0.0), (std::vector<std::size_t>{6}));
}

TEST(RowStatistics, TwoOddOnesAreBothFoundTheFurthestFirst) {
    EXPECT_EQ(odd_of({20, 10, 10.1, 9.9, 10, 10.1, 9.9, -30}, 0.1),
              (std::vector<std::size_t>{7, 0}));
}

TEST(RowStatistics, NeverCallsOneOddAmongFewerThanFour) {
    EXPECT_TRUE(odd_of({1.0, 1.0, 100.0}, 0.1).empty());
    EXPECT_EQ(row_statistics(row_of({1.0, 1.0, 100.0}, 0.1))->rule, OddOneOutRule::too_few);
    EXPECT_EQ(odd_of({1.0, 1.0, 1.0, 100.0}, 0.1), (std::vector<std::size_t>{3}));
}

// A journal read .025 in out, among journals read to a tenth; and readings that only rounding
// parts.
TEST(RowStatistics, RoundingAloneMakesNothingOdd) {
    EXPECT_EQ(odd_of({2.0995, 2.0996, 2.0995, 2.0745, 2.0995}, 0.0001),
              (std::vector<std::size_t>{3}));
    EXPECT_TRUE(odd_of({2.0995, 2.0995, 2.0995, 2.0996}, 0.0001).empty()); // one step
    EXPECT_EQ(odd_of({2.0995, 2.0995, 2.0995, 2.0997}, 0.0001),            // two
              (std::vector<std::size_t>{3}));
    EXPECT_TRUE(odd_of({5.0, 5.0, 5.0, 5.0}, 0.1).empty());
}

TEST(RowStatistics, WithoutAnyScaleItSaysSo) {
    const auto statistics = row_statistics(row_of({5.0, 5.0, 5.0, 9.0}, 0.0));
    EXPECT_EQ(statistics->rule, OddOneOutRule::no_scale);
    EXPECT_TRUE(statistics->odd.empty());
}

TEST(RowStatistics, AWideReadingIsJudgedByItsNearerEnd) {
    auto row = row_of({10.0, 10.1, 9.9, 10.0, 10.1}, 0.1);
    row.push_back({"6", {10.0, 14.0}}); // may be as the others
    EXPECT_TRUE(row_statistics(row)->odd.empty());
    row.back().value = {13.0, 14.0};
    ASSERT_EQ(row_statistics(row)->odd.size(), 1u);
    EXPECT_EQ(row_statistics(row)->odd[0].index, 5u);
    EXPECT_NEAR(row_statistics(row)->odd[0].from_median, 13.5 - 10.05, 1e-9);
}

// What the header promises of honest short rows. Tolerance: 20 000 rows, five deviations of the
// count (.013).
TEST(RowStatistics, HonestRowsHaveAnOddOneNoMoreOftenThanIsSaid) {
    constexpr std::uint64_t seed = 20261204;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::normal_distribution<double> normal(0.0, 1.0);
    const auto share_with_odd = [&](std::size_t count) {
        int found = 0;
        for (int round = 0; round < 20000; ++round) {
            std::vector<double> values(count);
            for (double& value : values) {
                value = normal(random);
            }
            found += odd_of(values, 0.0).empty() ? 0 : 1;
        }
        return found / 20000.0;
    };
    EXPECT_NEAR(share_with_odd(4), 1.0 / 6.0, 0.018);
    EXPECT_NEAR(share_with_odd(8), 1.0 / 7.0, 0.018);
}

TEST(RowStatistics, NamesWhatIsWrong) {
    EXPECT_EQ(row_statistics({}).error().code, ErrorCode::too_few_rows);
    auto row = row_of({1.0, 2.0}, 0.1);
    row[1].value = {3.0, 2.0};
    EXPECT_EQ(row_statistics(row).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(row_statistics(row).error().line, 2);
    row[0].value.high = std::numeric_limits<double>::infinity();
    EXPECT_EQ(row_statistics(row).error().code, ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
