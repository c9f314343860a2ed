#include "core/units/other_unit.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace rodway {
namespace {

constexpr int most_decimals = 30;
/// Behind each unit its other; the second pair of a dimension is for what is usually written in it.
struct UnitPair {
    Dimension dimension;
    std::string_view one;
    std::string_view other;
};
constexpr std::array pairs{
    UnitPair{Dimension::length, "in", "mm"},
    UnitPair{Dimension::force, "lbf", "N"},
    UnitPair{Dimension::mass, "oz", "g"},
    UnitPair{Dimension::mass, "lb", "kg"},
    UnitPair{Dimension::volume, "ci", "cc"},
    UnitPair{Dimension::volume, "qt", "l"},
    UnitPair{Dimension::pressure, "psi", "kPa"},
    UnitPair{Dimension::pressure, "inHg", "mbar"},
    UnitPair{Dimension::temperature, "degF", "degC"},
    UnitPair{Dimension::torque, "lb-ft", "Nm"},
    UnitPair{Dimension::torque, "in-lb", "Nm"},
    UnitPair{Dimension::power, "hp", "kW"},
};
constexpr double rounding = 1e-9; ///< of quotients of steps, relative

} // namespace

const MeasureUnit* other_unit_of(Dimension dimension, std::string_view unit) {
    for (const UnitPair& pair : pairs) {
        if (pair.dimension == dimension && (pair.one == unit || pair.other == unit)) {
            return find_unit(dimension, pair.one == unit ? pair.other : pair.one);
        }
    }
    return nullptr;
}

int other_unit_digits(double typed_step, const MeasureUnit& shown_in) {
    if (typed_step <= 0.0) {
        return 0;
    }
    const double step_there = typed_step / std::abs(shown_in.factor);
    int decimals = 0;
    while (decimals < most_decimals && std::pow(10.0, -decimals) > step_there * (1.0 + rounding)) {
        ++decimals;
    }
    return decimals;
}

std::string number_in_unit(double held, const MeasureUnit& shown_in, int decimals) {
    const double number = (held - shown_in.offset) / shown_in.factor;
    std::array<char, 400> text{}; // the greatest double has 309 digits
    const auto written = std::to_chars(text.data(), text.data() + text.size(), number,
                                       std::chars_format::fixed, std::min(decimals, most_decimals));
    std::string shown(text.data(), written.ptr);
    const bool zero = shown.find_first_of("123456789") == std::string::npos;
    return zero && shown.front() == '-' ? shown.substr(1) : shown;
}

double common_step(double one, double other) {
    const double coarse = std::max(one, other);
    const double fine = std::min(one, other);
    constexpr int most_parts = 100000;
    for (int parts = 1; fine > 0.0 && parts <= most_parts; ++parts) {
        const double times = coarse * parts / fine;
        if (std::abs(times - std::round(times)) <= rounding * times) {
            return fine / parts;
        }
    }
    return fine;
}

} // namespace rodway
