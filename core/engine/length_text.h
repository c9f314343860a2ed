#pragma once

#include <string>

namespace rodway {

/// A number rounded to so many steps of one: the shortest text that says so, without an exponent.
[[nodiscard]] std::string rounded_text(double value, double steps);

/// A length in a set-up's unit ("in", "thou", "mm"), to 0.0001 mm, 0.01 thou or 0.00001 in: far
/// less than anybody can measure.
[[nodiscard]] std::string length_text(double mm, const std::string& unit);

} // namespace rodway
