#include "core/engine/length_text.h"

#include <cmath>

#include "core/base/assert.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {

std::string rounded_text(double value, double steps) {
    const double whole = std::round(value * steps);
    if (whole == 0.0) {
        return "0";
    }
    const std::string text = exact_text(whole / steps);
    if (text.find('e') == std::string::npos) {
        return text;
    }
    // Small numbers: all digits behind the point.
    const std::string digits = std::to_string(static_cast<long long>(std::abs(whole)));
    const auto places = static_cast<std::size_t>(std::lround(std::log10(steps)));
    RODWAY_ASSERT(digits.size() <= places);
    return (whole < 0.0 ? "-0." : "0.") + std::string(places - digits.size(), '0') + digits;
}

std::string length_text(double mm, const std::string& unit) {
    if (unit == "mm") {
        return rounded_text(mm, 1e4);
    }
    const double in = mm / Length::mm_per_inch;
    return unit == "thou" ? rounded_text(in * 1000.0, 1e2) : rounded_text(in, 1e5);
}

} // namespace rodway
