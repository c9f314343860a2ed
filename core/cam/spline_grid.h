#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>
#include <functional>
#include <vector>

#include "core/cam/quintic_spline.h"

namespace rodway {

using SparseMatrix = Eigen::SparseMatrix<double>;
using SparseEntries = std::vector<Eigen::Triplet<double>>;

/// Evenly spaced knots for a quintic spline that spans exactly [first, last]. Cam degrees and
/// millimetres throughout.
struct SplineGrid {
    double first = 0.0;
    double step = 1.0;
    int coefficients = 0;

    [[nodiscard]] double last() const {
        return first + step * (coefficients + QuinticSpline::pieces - 1);
    }
    [[nodiscard]] QuinticSpline spline(const Eigen::VectorXd& values) const;
};

/// Steps as near to the wanted one as a whole number of them allows.
[[nodiscard]] SplineGrid spline_grid(double first, double last, double wanted_step);

/// Adds to `entries` the row of a matrix that takes coefficients to the curve's value at x (order
/// 0), or to a derivative there (orders 1 to 3), times `factor`.
void add_spline_row(const SplineGrid& grid, double x, int order, double factor, int row,
                    SparseEntries& entries);

/// Third differences of the coefficients, the zeros beyond both ends included: the curve's jerk,
/// times step³.
[[nodiscard]] SparseMatrix jerk_matrix(int coefficients);

/// Coefficients of a spline that follows a curve closely without ringing where the curve's jerk
/// jumps: each is the curve at its spline's middle less step²/4 of the curve's second derivative (a
/// uniform quintic B-spline's variance is step²/2), which makes cubics exact. `curve` gives value
/// and second derivative. Source: de Boor, A Practical Guide to Splines, quasi-interpolants (from
/// memory).
struct CurvePoint {
    double value = 0.0;
    double second = 0.0;
};
[[nodiscard]] Eigen::VectorXd follow_curve(const SplineGrid& grid,
                                           const std::function<CurvePoint(double)>& curve);

} // namespace rodway
