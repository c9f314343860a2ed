#include "core/loads/rod_column.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace rodway {

double second_moment_mm4(double outside_mm, double wall_mm) {
    const double inside_mm = std::max(0.0, outside_mm - 2.0 * wall_mm);
    return std::numbers::pi * (std::pow(outside_mm, 4) - std::pow(inside_mm, 4)) / 64.0;
}

double critical_load_N(const RodColumn& column) {
    return std::numbers::pi * std::numbers::pi * column.modulus_MPa *
           second_moment_mm4(column.outside_mm, column.wall_mm) /
           (column.length_mm * column.length_mm);
}

std::optional<double> bow_under_load_mm(double bow_at_rest_mm, double load_N, double critical_N) {
    if (!(load_N < critical_N)) {
        return std::nullopt;
    }
    return bow_at_rest_mm / (1.0 - load_N / critical_N);
}

} // namespace rodway
