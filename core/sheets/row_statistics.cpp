#include "core/sheets/row_statistics.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace rodway {
namespace {

/// The 75th percentile of the normal distribution: MAD over it is one standard deviation.
constexpr double mad_of_normal = 0.6745;

double median_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

std::optional<Error> wrong_row(const std::vector<RowReading>& row) {
    if (row.empty()) {
        return Error{ErrorCode::too_few_rows, "reading", "0", "1", {}, {}};
    }
    constexpr double any = 1e12;
    for (std::size_t at = 0; at < row.size(); ++at) {
        if (auto bad = wrong_interval("reading", row[at].value, {-any, any, {}},
                                      static_cast<int>(at) + 1)) {
            return bad;
        }
    }
    return std::nullopt;
}

double mean_of(const std::vector<double>& values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

double sample_deviation(const std::vector<double>& values, double mean) {
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - mean) * (value - mean);
    }
    return std::sqrt(squares / static_cast<double>(values.size() - 1));
}

double scale_of(const std::vector<RowReading>& row, const std::vector<double>& middles,
                double median) {
    std::vector<double> deviations;
    std::vector<double> uncertainties;
    for (std::size_t at = 0; at < row.size(); ++at) {
        deviations.push_back(std::abs(middles[at] - median));
        uncertainties.push_back(row[at].value.standard_uncertainty());
    }
    return std::max(median_of(std::move(deviations)) / mad_of_normal,
                    median_of(std::move(uncertainties)));
}

void find_odd(const std::vector<RowReading>& row, const std::vector<double>& middles,
              RowStatistics& statistics) {
    if (row.size() < least_readings_for_odd) {
        return;
    }
    const double scale = scale_of(row, middles, statistics.median);
    // Sums of decimals don't come out even: what is only rounding is no scale.
    const double size =
        std::max(std::abs(middles[statistics.greatest]), std::abs(middles[statistics.least]));
    if (scale <= 1e-12 * size) {
        statistics.rule = OddOneOutRule::no_scale;
        return;
    }
    statistics.rule = OddOneOutRule::applied;
    statistics.scale = scale;
    for (std::size_t at = 0; at < row.size(); ++at) {
        const double away = std::max(
            {row[at].value.low - statistics.median, statistics.median - row[at].value.high, 0.0});
        if (away > odd_scales_away * scale) {
            statistics.odd.push_back({at, middles[at] - statistics.median, away / scale});
        }
    }
    std::stable_sort(
        statistics.odd.begin(), statistics.odd.end(),
        [](const OddReading& a, const OddReading& b) { return a.scales_away > b.scales_away; });
}

} // namespace

Result<RowStatistics> row_statistics(const std::vector<RowReading>& row) {
    if (const auto bad = wrong_row(row)) {
        return *bad;
    }
    std::vector<double> middles;
    std::vector<Interval> intervals;
    for (const RowReading& reading : row) {
        middles.push_back(reading.value.middle());
        intervals.push_back(reading.value);
    }
    const auto index = [&](auto found) {
        return static_cast<std::size_t>(found - middles.begin());
    };
    RowStatistics statistics;
    statistics.count = row.size();
    statistics.mean = mean_of(middles);
    statistics.median = median_of(middles);
    statistics.greatest = index(std::max_element(middles.begin(), middles.end()));
    statistics.least = index(std::min_element(middles.begin(), middles.end()));
    if (row.size() > 1) {
        statistics.standard_deviation = sample_deviation(middles, statistics.mean);
        statistics.spread = middles[statistics.greatest] - middles[statistics.least];
        statistics.true_spread = reading_spread(intervals);
    }
    find_odd(row, middles, statistics);
    return statistics;
}

} // namespace rodway
