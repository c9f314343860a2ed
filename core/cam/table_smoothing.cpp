#include "core/cam/table_smoothing.h"

#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "core/base/assert.h"
#include "core/cam/spline_grid.h"

namespace rodway {
namespace {

/// A careful dial scatters by 0.0002 in. What looks like more than 0.0003 is a lobe too coarsely
/// sampled to tell.
constexpr double most_scatter_mm = 0.00762;

/// Heel rows this near to the ramp are smoothed with it.
constexpr double kept_heel_deg = 6.0;

/// A knot at every row, but no fewer than this: a lobe's push is short.
constexpr double coarsest_step_deg = 1.0;

/// Over how much of the lobe jerk is averaged (the standard deviation of a bell), and the least
/// share of the whole lobe's that a place is granted.
constexpr double jerk_width_deg = 8.0;
constexpr double jerk_floor = 0.05;

/// Powers of ten of the weight.
constexpr double weakest = -9.0;
constexpr double strongest = 8.0;

/// The likeliest weight suits the lift. Acceleration wants more: four times that hardly changes the
/// lift and halves the scatter of the peak accelerations (measured on laws with noise).
constexpr double for_derivatives = 0.6;

using Cholesky = Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower, Eigen::NaturalOrdering<int>>;

double usual_step_deg(const std::vector<LiftRow>& rows) {
    std::vector<double> steps;
    for (std::size_t at = 1; at < rows.size(); ++at) {
        steps.push_back(rows[at].cam_deg - rows[at - 1].cam_deg);
    }
    std::nth_element(steps.begin(), steps.begin() + static_cast<long>(steps.size() / 2),
                     steps.end());
    return steps[steps.size() / 2];
}

/// Rows and grid as a least-squares problem: B·c ≈ y with the jerk J·c held down by a weight.
class Smoothing {
  public:
    Smoothing(const std::vector<LiftRow>& rows, const SplineGrid& grid)
        : grid_(grid), lifts_(static_cast<Eigen::Index>(rows.size())) {
        row_step_deg_ = usual_step_deg(rows);
        SparseEntries entries;
        for (int row = 0; row < lifts_.size(); ++row) {
            const LiftRow& measured = rows[static_cast<std::size_t>(row)];
            lifts_[row] = measured.lift_mm;
            add_spline_row(grid, measured.cam_deg, 0, 1.0, row, entries);
        }
        values_ = SparseMatrix(lifts_.size(), grid.coefficients);
        values_.setFromTriplets(entries.begin(), entries.end());
        jerk_ = jerk_matrix(grid.coefficients);
        normal_ = values_.transpose() * values_;
        stiffness_ = jerk_.transpose() * jerk_;
        right_ = values_.transpose() * lifts_;
    }

    struct Fit {
        Eigen::VectorXd coefficients;
        double residual_mm = 0.0; ///< root mean square
        double cost = 0.0;        ///< squared residuals plus weighted squared jerk, mm²
        double likelihood = 0.0;  ///< minus twice its logarithm, but for a constant
    };
    Fit fit(double power) const {
        const double weight = std::pow(10.0, power);
        const Cholesky factored(SparseMatrix(normal_ + weight * stiffness_));
        RODWAY_ASSERT(factored.info() == Eigen::Success);
        Fit fit;
        fit.coefficients = factored.solve(right_);
        const double rows = static_cast<double>(lifts_.size());
        const double squares = residuals(fit.coefficients).squaredNorm();
        fit.residual_mm = std::sqrt(squares / rows);
        fit.cost = squares + weight * fit.coefficients.dot(stiffness_ * fit.coefficients);
        fit.likelihood = rows * std::log(std::max(fit.cost, 1e-300)) +
                         factored.vectorD().array().log().sum() -
                         static_cast<double>(grid_.coefficients) * std::log(weight);
        return fit;
    }
    Eigen::VectorXd residuals(const Eigen::VectorXd& coefficients) const {
        return lifts_ - values_ * coefficients;
    }

    /// The strongest smoothing whose residuals are no larger.
    double power_for(double residual_mm) const {
        double weak = weakest;
        double strong = strongest;
        while (strong - weak > 1e-4) {
            const double middle = (weak + strong) / 2.0;
            (fit(middle).residual_mm <= residual_mm ? weak : strong) = middle;
        }
        return weak;
    }
    /// The likeliest smoothing: a look at each power of ten, then golden section around the best.
    double likeliest_power() const {
        // Weaker still, and waves of two rows' length are hardly damped: the rows are followed one
        // by one. (A wave of length λ passes unharmed where weight · step⁵ · row step · (2π/λ)⁶ is
        // far below 1.)
        const double weak = -3.0 + 5.0 * std::log10(row_step_deg_ / grid_.step);
        double best = weak;
        double least = fit(best).likelihood;
        for (double power = weak + 1.0; power <= strongest; power += 1.0) {
            if (const double here = fit(power).likelihood; here < least) {
                least = here;
                best = power;
            }
        }
        constexpr double golden = 0.6180339887498949;
        double low = std::max(weak, best - 1.0);
        double high = std::min(strongest, best + 1.0);
        while (high - low > 0.01) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            if (fit(a).likelihood < fit(b).likelihood) {
                high = b;
            } else {
                low = a;
            }
        }
        return (low + high) / 2.0;
    }
    const SplineGrid& grid() const { return grid_; }

    /// Lets the curve have its jerk where this one has it: the penalty of each place is divided by
    /// the squared jerk found around it.
    void follow_jerk_of(const Eigen::VectorXd& coefficients) {
        const Eigen::VectorXd squared = (jerk_ * coefficients).cwiseAbs2();
        const double floor = jerk_floor * squared.mean();
        const auto around = static_cast<Eigen::Index>(std::ceil(3.0 * jerk_width_deg / grid_.step));
        Eigen::VectorXd shares(squared.size());
        for (Eigen::Index at = 0; at < squared.size(); ++at) {
            double sum = 0.0;
            double weights = 0.0;
            for (Eigen::Index other = std::max<Eigen::Index>(0, at - around);
                 other < std::min(squared.size(), at + around + 1); ++other) {
                const double away = static_cast<double>(other - at) * grid_.step / jerk_width_deg;
                const double weight = std::exp(-away * away / 2.0);
                sum += weight * squared[other];
                weights += weight;
            }
            shares[at] = squared.mean() / (sum / weights + floor);
        }
        stiffness_ = jerk_.transpose() * shares.asDiagonal() * jerk_;
    }

  private:
    SplineGrid grid_;
    double row_step_deg_ = 1.0;
    Eigen::VectorXd lifts_, right_;
    SparseMatrix values_, jerk_, normal_, stiffness_;
};

/// The rows that are smoothed, with the zero shift taken off.
struct Kept {
    std::vector<LiftRow> rows;
    std::size_t first = 0; ///< its first row's place in the table
};
Kept kept_rows(const LiftTable& table, const LiftTableEnds& ends) {
    Kept kept;
    const double from = table.rows[ends.opening_row].cam_deg - kept_heel_deg - 1e-9;
    const double to = table.rows[ends.closing_row].cam_deg + kept_heel_deg + 1e-9;
    for (std::size_t at = 0; at < table.rows.size(); ++at) {
        const LiftRow& row = table.rows[at];
        if (row.cam_deg < from) {
            kept.first = at + 1;
        } else if (row.cam_deg <= to) {
            kept.rows.push_back({row.cam_deg, row.lift_mm - ends.zero_shift_mm});
        }
    }
    return kept;
}

/// How far the ramp would reach beyond an end that isn't on the heel if it went straight to zero,
/// degrees.
double straight_reach_deg(const std::vector<LiftRow>& rows, bool opening) {
    const std::size_t last = rows.size() - 1;
    const std::size_t few = std::min<std::size_t>(5, last);
    const LiftRow& end = opening ? rows.front() : rows[last];
    const LiftRow& inner = opening ? rows[few] : rows[last - few];
    const double slope = std::abs((inner.lift_mm - end.lift_mm) / (inner.cam_deg - end.cam_deg));
    return std::clamp(end.lift_mm / std::max(slope, 1e-6), 0.5, 20.0);
}

/// Whether the curve beyond an end rises all the way from the heel.
bool rises_all_the_way(const QuinticSpline& spline, double heel_deg, double end_deg) {
    constexpr int looks = 60;
    for (int look = 1; look <= looks; ++look) {
        const auto here = spline.at(heel_deg + (end_deg - heel_deg) * look / looks);
        const double rise = end_deg > heel_deg ? here[1] : -here[1];
        if (here[0] < -1e-6 || rise < -1e-6) {
            return false;
        }
    }
    return true;
}

/// How far the spline reaches beyond the table at either end, degrees.
struct Reach {
    double opening = 0.0;
    double closing = 0.0;
};

/// Which of many lengths of a ramp that isn't in the table costs least and rises all the way.
std::optional<double> best_ramp_deg(const std::vector<LiftRow>& rows, Reach reach, bool opening,
                                    double step, double power) {
    double& length = opening ? reach.opening : reach.closing;
    const double straight = straight_reach_deg(rows, opening);
    std::optional<double> best;
    double least = 0.0;
    for (double times = 1.0; times <= 4.0; times += 0.2) {
        length = straight * times;
        const Smoothing smoothing(rows, spline_grid(rows.front().cam_deg - reach.opening,
                                                    rows.back().cam_deg + reach.closing, step));
        const auto fit = smoothing.fit(power);
        const SplineGrid& grid = smoothing.grid();
        const double heel = opening ? grid.first : grid.last();
        const double end = opening ? rows.front().cam_deg : rows.back().cam_deg;
        if (rises_all_the_way(grid.spline(fit.coefficients), heel, end) &&
            (!best || fit.cost < least)) {
            best = length;
            least = fit.cost;
        }
    }
    return best;
}

double chosen_power(const Smoothing& smoothing, const LiftTable& table,
                    std::optional<double> noise_mm) {
    if (noise_mm) {
        return smoothing.power_for(*noise_mm);
    }
    const double resolution = std::isfinite(table.resolution_mm) ? table.resolution_mm : 0.0;
    const double rounding = std::clamp(resolution, 1e-6, most_scatter_mm) / std::sqrt(12.0);
    const double power = smoothing.likeliest_power() + for_derivatives;
    const double residual = smoothing.fit(power).residual_mm;
    if (residual < rounding || residual > most_scatter_mm) {
        return smoothing.power_for(std::clamp(residual, rounding, most_scatter_mm));
    }
    return power;
}

SmoothingReport report_of(const Smoothing& smoothing, const Smoothing::Fit& fit,
                          const LiftTableEnds& ends, const Kept& kept) {
    SmoothingReport report;
    report.residual_rms_mm = fit.residual_mm;
    report.rows = static_cast<int>(kept.rows.size());
    report.zero_shift_mm = ends.zero_shift_mm;
    report.heel_wander_mm = ends.heel_wander_mm;
    report.opening_ramp_estimated = !ends.opening_ramp_measured;
    report.closing_ramp_estimated = !ends.closing_ramp_measured;
    const Eigen::VectorXd residuals = smoothing.residuals(fit.coefficients);
    Eigen::Index worst = 0;
    residuals.cwiseAbs().maxCoeff(&worst);
    report.worst_residual_mm = residuals[worst];
    report.worst_row = static_cast<int>(kept.first + static_cast<std::size_t>(worst)) + 1;
    report.worst_at = CamAngle::deg(kept.rows[static_cast<std::size_t>(worst)].cam_deg);
    return report;
}

} // namespace

Result<SmoothedTable> smooth_table(const LiftTable& table, const LiftTableEnds& ends,
                                   std::optional<double> noise_mm) {
    if (noise_mm && !(std::isfinite(*noise_mm) && *noise_mm > 0.0)) {
        noise_mm.reset();
    }
    const Kept kept = kept_rows(table, ends);
    const double step = std::min(coarsest_step_deg, usual_step_deg(kept.rows));
    Reach reach{step, step};
    if (!ends.opening_ramp_measured) {
        reach.opening = 2.5 * straight_reach_deg(kept.rows, true);
    }
    if (!ends.closing_ramp_measured) {
        reach.closing = 2.5 * straight_reach_deg(kept.rows, false);
    }
    const auto smoothing_over = [&](const Reach& over) {
        return Smoothing(kept.rows, spline_grid(kept.rows.front().cam_deg - over.opening,
                                                kept.rows.back().cam_deg + over.closing, step));
    };
    double power = chosen_power(smoothing_over(reach), table, noise_mm);
    for (const bool opening : {true, false}) {
        if (opening ? ends.opening_ramp_measured : ends.closing_ramp_measured) {
            continue;
        }
        const auto ramp = best_ramp_deg(kept.rows, reach, opening, step, power);
        if (!ramp) {
            const std::size_t row = opening ? 0 : table.rows.size() - 1;
            return Error{ErrorCode::not_zero_at_ends,
                         "lift_table",
                         std::to_string(table.rows[row].lift_mm),
                         {},
                         static_cast<int>(row) + 1,
                         {}};
        }
        (opening ? reach.opening : reach.closing) = *ramp;
    }
    Smoothing smoothing = smoothing_over(reach);
    if (!ends.opening_ramp_measured || !ends.closing_ramp_measured) {
        power = chosen_power(smoothing, table, noise_mm);
    }
    for (int time = 0; time < 2; ++time) {
        smoothing.follow_jerk_of(smoothing.fit(power).coefficients);
        power = chosen_power(smoothing, table, noise_mm);
    }
    const auto fit = smoothing.fit(power);
    SmoothedTable smoothed{smoothing.grid().spline(fit.coefficients),
                           report_of(smoothing, fit, ends, kept), smoothing.grid().first,
                           smoothing.grid().last()};
    // The likeliest scatter: some of the rows' freedom went into the curve, so it is more than the
    // residuals.
    smoothed.report.noise_mm =
        noise_mm.value_or(std::sqrt(fit.cost / static_cast<double>(kept.rows.size())));
    if (!ends.opening_ramp_measured) {
        smoothed.measured_from_deg = kept.rows.front().cam_deg;
    }
    if (!ends.closing_ramp_measured) {
        smoothed.measured_to_deg = kept.rows.back().cam_deg;
    }
    return smoothed;
}

} // namespace rodway
