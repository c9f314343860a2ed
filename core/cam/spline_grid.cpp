#include "core/cam/spline_grid.h"

#include <algorithm>
#include <cmath>

namespace rodway {

QuinticSpline SplineGrid::spline(const Eigen::VectorXd& values) const {
    return {first, step, std::vector<double>(values.data(), values.data() + values.size())};
}

SplineGrid spline_grid(double first, double last, double wanted_step) {
    const int intervals = std::max(QuinticSpline::pieces + 2,
                                   static_cast<int>(std::lround((last - first) / wanted_step)));
    return {first, (last - first) / intervals, intervals - (QuinticSpline::pieces - 1)};
}

void add_spline_row(const SplineGrid& grid, double x, int order, double factor, int row,
                    SparseEntries& entries) {
    const double place = (x - grid.first) / grid.step;
    const double knot = std::floor(place);
    const auto weight = QuinticSpline::weights(place - knot)[static_cast<std::size_t>(order)];
    const double scale = factor / std::pow(grid.step, order);
    for (int j = 0; j < QuinticSpline::pieces; ++j) {
        const int coefficient = static_cast<int>(knot) - (QuinticSpline::pieces - 1) + j;
        if (coefficient >= 0 && coefficient < grid.coefficients) {
            entries.emplace_back(row, coefficient, scale * weight[static_cast<std::size_t>(j)]);
        }
    }
}

SparseMatrix jerk_matrix(int coefficients) {
    SparseEntries entries;
    constexpr double factor[4] = {-1.0, 3.0, -3.0, 1.0};
    for (int row = 0; row < coefficients + 3; ++row) {
        for (int j = 0; j < 4; ++j) {
            const int coefficient = row - 3 + j;
            if (coefficient >= 0 && coefficient < coefficients) {
                entries.emplace_back(row, coefficient, factor[j]);
            }
        }
    }
    SparseMatrix matrix(coefficients + 3, coefficients);
    matrix.setFromTriplets(entries.begin(), entries.end());
    return matrix;
}

Eigen::VectorXd follow_curve(const SplineGrid& grid,
                             const std::function<CurvePoint(double)>& curve) {
    Eigen::VectorXd values(grid.coefficients);
    for (int at = 0; at < grid.coefficients; ++at) {
        const CurvePoint point = curve(grid.first + grid.step * (at + QuinticSpline::pieces / 2));
        values[at] = point.value - grid.step * grid.step / 4.0 * point.second;
    }
    return values;
}

} // namespace rodway
