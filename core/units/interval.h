#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "core/base/error.h"

namespace rodway {

/// A number that lies somewhere between two ends, both included: what a reading leaves open. It
/// carries whatever unit its name says. Arithmetic is worst case: no two doubts are taken to cancel
/// each other, so a reading may stand in a sum only once.
struct Interval {
    double low = 0.0;
    double high = 0.0; ///< not below `low`

    static constexpr Interval exactly(double value) { return {value, value}; }
    static constexpr Interval about(double middle, double half_width) {
        return {middle - half_width, middle + half_width};
    }
    /// What a reading says: `low` and `high` as typed; a single value lies within half a step of
    /// its last digit either way (JCGM 100:2008, F.2.2.1).
    static constexpr Interval read(double low, double high, double step) {
        return low == high ? about(low, step / 2.0) : Interval{low, high};
    }

    /// A reading to a step: half a step either side. `step` 0 or more.
    static constexpr Interval around(double value, double step) { return about(value, step / 2.0); }

    [[nodiscard]] constexpr double middle() const { return (low + high) / 2.0; }
    [[nodiscard]] constexpr double half_width() const { return (high - low) / 2.0; }
    [[nodiscard]] constexpr double width() const { return high - low; }
    /// If every value in it is as likely as any other: width/√12 (JCGM 100:2008, 4.3.7).
    [[nodiscard]] double standard_uncertainty() const;
    [[nodiscard]] constexpr bool holds(double value) const { return value >= low && value <= high; }
    [[nodiscard]] constexpr bool meets(const Interval& other) const {
        return low <= other.high && other.low <= high;
    }

    constexpr Interval operator-() const { return {-high, -low}; }
    constexpr Interval operator+(const Interval& other) const {
        return {low + other.low, high + other.high};
    }
    constexpr Interval operator-(const Interval& other) const { return *this + -other; }
    constexpr Interval operator*(double factor) const {
        return factor < 0.0 ? Interval{high * factor, low * factor}
                            : Interval{low * factor, high * factor};
    }
    constexpr Interval operator/(double divisor) const {
        return divisor < 0.0 ? Interval{high / divisor, low / divisor}
                             : Interval{low / divisor, high / divisor};
    }
    constexpr bool operator==(const Interval&) const = default;
};

[[nodiscard]] Interval product(const Interval& one, const Interval& other);
/// Empty if the divisor may be zero.
[[nodiscard]] std::optional<Interval> quotient(const Interval& dividend, const Interval& divisor);
/// Without its sign: from zero on if it may be zero.
[[nodiscard]] Interval magnitude(const Interval& value);
/// Nothing below zero is left of it: a length that can't be negative.
[[nodiscard]] Interval not_below_zero(const Interval& value);
/// From the lower low to the higher high of the two.
[[nodiscard]] Interval hull(const Interval& one, const Interval& other);

// Of several, at least one.

[[nodiscard]] Interval least_of(const std::vector<Interval>& values);
[[nodiscard]] Interval greatest_of(const std::vector<Interval>& values);
[[nodiscard]] Interval mean_of(const std::vector<Interval>& values);
/// Greatest less least: from what the readings can't deny to what they allow. Zero for one value.
[[nodiscard]] Interval spread_of(const std::vector<Interval>& values);

/// One interval to be checked before it is used.
struct CheckedInterval {
    std::string field;
    Interval value;
    Limits limits;
    std::optional<int> line = {}; ///< row of a table, counted from 1
};
/// What is wrong with the first that isn't good: not_a_number, order_wrong (`high` below `low`),
/// out_of_range (an end outside the limits); nothing if all are good.
[[nodiscard]] std::optional<Error> first_outside(std::initializer_list<CheckedInterval> intervals);

} // namespace rodway
