#include "core/units/interval.h"

#include <algorithm>
#include <cmath>

#include "core/base/assert.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {

double Interval::standard_uncertainty() const {
    return width() / std::sqrt(12.0);
}

Interval product(const Interval& one, const Interval& other) {
    const auto [low, high] = std::minmax(
        {one.low * other.low, one.low * other.high, one.high * other.low, one.high * other.high});
    return {low, high};
}

std::optional<Interval> quotient(const Interval& dividend, const Interval& divisor) {
    if (divisor.holds(0.0)) {
        return std::nullopt;
    }
    return product(dividend, {1.0 / divisor.high, 1.0 / divisor.low});
}

Interval magnitude(const Interval& value) {
    if (value.low >= 0.0) {
        return value;
    }
    return value.high <= 0.0 ? -value : Interval{0.0, std::max(-value.low, value.high)};
}

Interval not_below_zero(const Interval& value) {
    return {std::max(0.0, value.low), std::max(0.0, value.high)};
}

Interval hull(const Interval& one, const Interval& other) {
    return {std::min(one.low, other.low), std::max(one.high, other.high)};
}

Interval least_of(const std::vector<Interval>& values) {
    RODWAY_ASSERT(!values.empty());
    Interval least = values.front();
    for (const Interval& value : values) {
        least = {std::min(least.low, value.low), std::min(least.high, value.high)};
    }
    return least;
}

Interval greatest_of(const std::vector<Interval>& values) {
    RODWAY_ASSERT(!values.empty());
    Interval greatest = values.front();
    for (const Interval& value : values) {
        greatest = {std::max(greatest.low, value.low), std::max(greatest.high, value.high)};
    }
    return greatest;
}

Interval mean_of(const std::vector<Interval>& values) {
    RODWAY_ASSERT(!values.empty());
    Interval sum;
    for (const Interval& value : values) {
        sum = sum + value;
    }
    return sum / static_cast<double>(values.size());
}

Interval spread_of(const std::vector<Interval>& values) {
    RODWAY_ASSERT(!values.empty());
    Interval spread{std::max(0.0, greatest_of(values).low - least_of(values).high), 0.0};
    // The most is that of two readings, each at its own end; one reading doesn't differ from
    // itself.
    for (std::size_t one = 0; one < values.size(); ++one) {
        for (std::size_t other = 0; other < values.size(); ++other) {
            if (one != other) {
                spread.high = std::max(spread.high, values[one].high - values[other].low);
            }
        }
    }
    return spread;
}

std::optional<Error> first_outside(std::initializer_list<CheckedInterval> intervals) {
    for (const CheckedInterval& each : intervals) {
        if (auto bad = outside(each.field, each.value.low, each.limits, each.line)) {
            return bad;
        }
        if (auto bad = outside(each.field, each.value.high, each.limits, each.line)) {
            return bad;
        }
        if (each.value.high < each.value.low) {
            return Error{
                ErrorCode::order_wrong, each.field, exact_text(each.value.high), {}, each.line, {}};
        }
    }
    return std::nullopt;
}

} // namespace rodway
