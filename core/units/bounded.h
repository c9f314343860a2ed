#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include "core/base/error.h"

namespace rodway {

/// A number known to lie between two others, ends included: a reading typed as an interval or with
/// a tolerance, or what is worked out from such. Its unit is in the name of whatever holds it.
struct Bounded {
    double value = 0.0; ///< the best single figure
    double low = 0.0;
    double high = 0.0;

    [[nodiscard]] static constexpr Bounded exactly(double value) { return {value, value, value}; }
    /// The middle counts as the best figure.
    [[nodiscard]] static constexpr Bounded between(double low, double high) {
        return {low + (high - low) / 2.0, low, high};
    }
    [[nodiscard]] constexpr bool is_exact() const { return low == high; }
};

/// What is wrong with a bounded number that should lie within `limits`: as the same of a plain one
/// (`core/units/within.h`), and order_wrong where `value` isn't between `low` and `high`.
[[nodiscard]] std::optional<Error> outside(const std::string& field, const Bounded& number,
                                           const Limits& limits, std::optional<int> line = {});

/// The worst case of a figure whose inputs are bounded, each by itself: `value` is the figure of
/// the inputs' values; `low` and `high` are the least and greatest of it over all corners of the
/// box that the inputs span. Those are exact bounds of any figure that rises or falls with each
/// input while the others stand, whichever way. Inputs that are wrong together (one gauge read
/// short all along) stay within them, but may leave them wider than need be.
///
/// `figure` takes the inputs as an array of plain numbers and answers a number.
template <std::size_t count, typename Figure>
[[nodiscard]] Bounded worst_case(const std::array<Bounded, count>& inputs, const Figure& figure) {
    static_assert(count <= 12, "2^count corners");
    std::array<double, count> at{};
    std::transform(inputs.begin(), inputs.end(), at.begin(),
                   [](const Bounded& input) { return input.value; });
    Bounded found = Bounded::exactly(figure(at));
    for (std::size_t corner = 0; corner < (std::size_t{1} << count); ++corner) {
        bool repeats = false; // an exact input has one end
        for (std::size_t input = 0; input < count; ++input) {
            const bool high = (corner >> input & 1U) != 0U;
            repeats = repeats || (high && inputs[input].is_exact());
            at[input] = high ? inputs[input].high : inputs[input].low;
        }
        if (repeats) {
            continue;
        }
        const double there = figure(at);
        found.low = std::min(found.low, there);
        found.high = std::max(found.high, there);
    }
    return found;
}

} // namespace rodway
