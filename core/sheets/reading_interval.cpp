#include "core/sheets/reading_interval.h"

#include <algorithm>
#include <limits>

#include "core/units/within.h"

namespace rodway {

std::optional<Interval> interval_of(const ReadingValue& value) {
    if (!value.is_number() || value.firmness == Firmness::below ||
        value.firmness == Firmness::above) {
        return std::nullopt;
    }
    if (value.low != value.high) {
        return Interval{value.low, value.high};
    }
    const double steps = value.firmness == Firmness::about ? 2.0 : 1.0;
    return Interval::around(value.low, steps * value.resolution);
}

std::optional<Interval> reading_spread(std::span<const Interval> values) {
    if (values.size() < 2) {
        return std::nullopt;
    }
    double greatest_low = -std::numeric_limits<double>::infinity();
    double least_high = std::numeric_limits<double>::infinity();
    double widest = 0.0;
    for (std::size_t one = 0; one < values.size(); ++one) {
        greatest_low = std::max(greatest_low, values[one].low);
        least_high = std::min(least_high, values[one].high);
        // One value can't be at both its ends: the greatest spread is between two of them.
        for (std::size_t other = 0; other < values.size(); ++other) {
            if (one != other) {
                widest = std::max(widest, values[one].high - values[other].low);
            }
        }
    }
    return Interval{std::max(0.0, greatest_low - least_high), widest};
}

std::optional<Error> wrong_interval(const std::string& field, const Interval& interval,
                                    const Limits& limits, std::optional<int> line) {
    if (auto bad = outside(field, interval.low, limits, line)) {
        return bad;
    }
    return outside(field, interval.high, {interval.low, limits.high, limits.unit}, line);
}

} // namespace rodway
