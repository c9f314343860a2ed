#pragma once

#include <optional>
#include <span>
#include <string>

#include "core/base/error.h"
#include "core/sheets/reading_value.h"

namespace rodway {

/// Where a true value lies as far as a reading tells: from `low` to `high`, ends included, in the
/// unit in which its dimension is held (mm, N m, g …).
struct ReadingInterval {
    double low = 0.0;
    double high = 0.0;

    /// A reading to a step: half a step either side (JCGM 100:2008, F.2.2.1). `step` 0 or more.
    [[nodiscard]] static constexpr ReadingInterval around(double value, double step) {
        return {value - step / 2.0, value + step / 2.0};
    }
    [[nodiscard]] static constexpr ReadingInterval exactly(double value) { return {value, value}; }

    [[nodiscard]] constexpr double middle() const { return (low + high) / 2.0; }
    [[nodiscard]] constexpr double width() const { return high - low; }
    /// If every value in it is as likely as any other: width/√12 (JCGM 100:2008, 4.3.7).
    [[nodiscard]] double standard_uncertainty() const;

    /// Sum and difference of two that know nothing of each other, at their worst.
    constexpr ReadingInterval operator+(const ReadingInterval& other) const {
        return {low + other.low, high + other.high};
    }
    constexpr ReadingInterval operator-(const ReadingInterval& other) const {
        return {low - other.high, high - other.low};
    }
    /// `factor` 0 or more.
    constexpr ReadingInterval operator*(double factor) const {
        return {low * factor, high * factor};
    }
    constexpr bool operator==(const ReadingInterval&) const = default;
};

/// Where the value of a reading lies: an interval as it was typed; a plain number half a step of
/// its last digit either side, one marked "about" a whole step (common practice, no source).
/// Empty for what isn't a number, and for a bound such as "<.002", which is no size.
[[nodiscard]] std::optional<ReadingInterval> interval_of(const ReadingValue& value);

/// By how much the greatest of some values exceeds the least, as far as readings of them tell.
/// Empty for fewer than two.
[[nodiscard]] std::optional<ReadingInterval> spread_of(std::span<const ReadingInterval> values);

/// What is wrong with an interval whose ends should be in order and lie within `limits`; nothing if
/// it is good. Codes as `outside`.
[[nodiscard]] std::optional<Error> wrong_interval(const std::string& field,
                                                  const ReadingInterval& interval,
                                                  const Limits& limits,
                                                  std::optional<int> line = {});

} // namespace rodway
