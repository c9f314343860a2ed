#include "core/units/other_unit.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace rodway {
namespace {

constexpr int most_decimals = 30;
constexpr double rounding = 1e-9; ///< of quotients of steps, relative

/// Metric and inch units that stand for each other; the first pair that has a unit is its own.
struct Pair {
    Dimension dimension;
    std::string_view metric;
    std::string_view inch;
};
constexpr std::array pairs{
    Pair{Dimension::length, "mm", "in"},
    Pair{Dimension::force, "N", "lbf"},
    Pair{Dimension::force, "kgf", "lbf"},
    Pair{Dimension::mass, "g", "oz"},
    Pair{Dimension::mass, "kg", "lb"},
    Pair{Dimension::volume, "cc", "ci"},
    Pair{Dimension::volume, "l", "qt"},
    Pair{Dimension::pressure, "kPa", "psi"},
    Pair{Dimension::pressure, "bar", "psi"},
    Pair{Dimension::pressure, "mbar", "inHg"},
    Pair{Dimension::temperature, "degC", "degF"},
    Pair{Dimension::torque, "Nm", "lb-ft"},
    Pair{Dimension::torque, "Nm", "in-lb"},
    Pair{Dimension::torque, "kgf-m", "lb-ft"},
    Pair{Dimension::power, "kW", "hp"},
    Pair{Dimension::power, "PS", "hp"},
    Pair{Dimension::altitude, "m", "ft"},
    Pair{Dimension::spring_rate, "N/mm", "lb/in"},
};

} // namespace

const MeasureUnit* other_unit(Dimension dimension, std::string_view id) {
    for (const Pair& pair : pairs) {
        if (pair.dimension == dimension && (pair.metric == id || pair.inch == id)) {
            return find_unit(dimension, pair.metric == id ? pair.inch : pair.metric);
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
