#include "core/cam/quintic_spline.h"

#include <cmath>

#include "core/base/assert.h"

namespace rodway {
namespace {

/// Cox and de Boor's recurrence on whole-numbered knots: weights of degree `degree` at u in [0, 1).
std::array<double, QuinticSpline::pieces> basis(int degree, double u) {
    std::array<double, QuinticSpline::pieces> weight{};
    weight[0] = 1.0;
    for (int d = 1; d <= degree; ++d) {
        std::array<double, QuinticSpline::pieces> next{};
        for (int j = 0; j < d; ++j) {
            const double share = (u + (d - 1 - j)) / d;
            next[static_cast<std::size_t>(j)] +=
                weight[static_cast<std::size_t>(j)] * (1.0 - share);
            next[static_cast<std::size_t>(j) + 1] += weight[static_cast<std::size_t>(j)] * share;
        }
        weight = next;
    }
    return weight;
}

} // namespace

QuinticSpline::QuinticSpline(double first_knot, double step, std::vector<double> coefficients)
    : first_knot_(first_knot), step_(step), coefficients_(std::move(coefficients)) {
    RODWAY_ASSERT(step > 0.0);
}

double QuinticSpline::last() const {
    return first_knot_ + step_ * static_cast<double>(coefficients_.size() + pieces - 1);
}

// A derivative of a B-spline curve is the curve of one degree less whose coefficients are the
// differences of its own, so its weights are the lower degree's, differenced.
std::array<std::array<double, QuinticSpline::pieces>, 4> QuinticSpline::weights(double u) {
    std::array<std::array<double, pieces>, 4> all{};
    for (int order = 0; order < 4; ++order) {
        std::array<double, pieces> weight = basis(5 - order, u);
        for (int time = 0; time < order; ++time) {
            std::array<double, pieces> differenced{};
            for (std::size_t j = 0; j < pieces; ++j) {
                differenced[j] = (j > 0 ? weight[j - 1] : 0.0) - weight[j];
            }
            weight = differenced;
        }
        all[static_cast<std::size_t>(order)] = weight;
    }
    return all;
}

CurveValue QuinticSpline::at(double x) const {
    CurveValue value{};
    const double place = (x - first_knot_) / step_;
    const double knot = std::floor(place);
    if (!(knot >= 0.0) || knot >= static_cast<double>(coefficients_.size() + pieces - 1)) {
        return value;
    }
    const auto weight = weights(place - knot);
    const long newest = static_cast<long>(knot);
    double scale = 1.0;
    for (std::size_t order = 0; order < value.size(); ++order) {
        for (long j = 0; j < pieces; ++j) {
            const long coefficient = newest - (pieces - 1) + j;
            if (coefficient >= 0 && coefficient < static_cast<long>(coefficients_.size())) {
                value[order] += weight[order][static_cast<std::size_t>(j)] *
                                coefficients_[static_cast<std::size_t>(coefficient)];
            }
        }
        value[order] *= scale;
        scale /= step_;
    }
    return value;
}

} // namespace rodway
