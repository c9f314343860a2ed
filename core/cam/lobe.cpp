#include "core/cam/lobe.h"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <algorithm>
#include <array>
#include <cmath>

namespace rodway {
namespace {

/// A careful dial scatters by 0.0002 in; what looks like more is a lobe too coarsely sampled to
/// tell.
constexpr double most_scatter_mm = 0.00508;

using Sparse = Eigen::SparseMatrix<double>;
using Entries = std::vector<Eigen::Triplet<double>>;

/// A grid of coefficients whose splines span exactly [first, last].
struct Grid {
    double first;
    double step;
    int coefficients;
};

Grid grid_over(double first, double last, double wanted_step) {
    const int intervals = std::max(QuinticSpline::pieces + 2,
                                   static_cast<int>(std::lround((last - first) / wanted_step)));
    return {first, (last - first) / intervals, intervals - (QuinticSpline::pieces - 1)};
}

/// Adds the row of a matrix that takes coefficients to the curve's value at x.
void add_value_row(const Grid& grid, double x, int row, Entries& entries) {
    const double place = (x - grid.first) / grid.step;
    const double knot = std::floor(place);
    const auto weight = QuinticSpline::weights(place - knot)[0];
    for (int j = 0; j < QuinticSpline::pieces; ++j) {
        const int coefficient = static_cast<int>(knot) - (QuinticSpline::pieces - 1) + j;
        if (coefficient >= 0 && coefficient < grid.coefficients) {
            entries.emplace_back(row, coefficient, weight[static_cast<std::size_t>(j)]);
        }
    }
}

/// Third differences of the coefficients, the zeros beyond both ends included: the curve's jerk.
Sparse jerk_matrix(int coefficients) {
    Entries entries;
    constexpr double factor[4] = {-1.0, 3.0, -3.0, 1.0};
    for (int row = 0; row < coefficients + 3; ++row) {
        for (int j = 0; j < 4; ++j) {
            const int coefficient = row - 3 + j;
            if (coefficient >= 0 && coefficient < coefficients) {
                entries.emplace_back(row, coefficient, factor[j]);
            }
        }
    }
    Sparse matrix(coefficients + 3, coefficients);
    matrix.setFromTriplets(entries.begin(), entries.end());
    return matrix;
}

std::vector<double> to_vector(const Eigen::VectorXd& values) {
    return {values.data(), values.data() + values.size()};
}

double usual_step_deg(const std::vector<LiftRow>& rows) {
    std::vector<double> steps;
    for (std::size_t at = 1; at < rows.size(); ++at) {
        steps.push_back(rows[at].cam_deg - rows[at - 1].cam_deg);
    }
    std::nth_element(steps.begin(), steps.begin() + static_cast<long>(steps.size() / 2),
                     steps.end());
    return steps[steps.size() / 2];
}

/// How far a table's rows scatter about any smooth curve, mm, root mean square over all of them.
/// Taken from sixth differences where seven rows stand evenly and off the heel: a lobe of ordinary
/// smoothness hardly has any, and a row's variance counts 924 times (the sum of the squares of 1,
/// 6, 15, 20, …). A quarter is added, since too little smoothing costs more than too much. Zero
/// where too few rows stand so.
double scatter_of(const std::vector<LiftRow>& rows) {
    constexpr std::array factors{1.0, -6.0, 15.0, -20.0, 15.0, -6.0, 1.0};
    constexpr double variance = 924.0;
    constexpr int fewest = 12;
    double sum = 0.0;
    int windows = 0;
    int lifted = 0;
    for (std::size_t first = 0; first < rows.size(); ++first) {
        lifted += rows[first].lift_mm > 0.0 ? 1 : 0;
        if (first + factors.size() > rows.size()) {
            continue;
        }
        const double step = rows[first + 1].cam_deg - rows[first].cam_deg;
        double difference = 0.0;
        bool even = true;
        for (std::size_t at = 0; at < factors.size(); ++at) {
            const LiftRow& row = rows[first + at];
            even =
                even && row.lift_mm > 0.0 &&
                std::abs(row.cam_deg - rows[first].cam_deg - static_cast<double>(at) * step) < 1e-6;
            difference += factors[at] * row.lift_mm;
        }
        if (even) {
            sum += difference * difference / variance;
            ++windows;
        }
    }
    if (windows < fewest) {
        return 0.0;
    }
    return 1.25 * std::sqrt(sum / windows * lifted / static_cast<double>(rows.size()));
}

/// Table and grid as a least-squares problem: B·c ≈ y with the jerk J·c held down by a weight.
class Smoothing {
  public:
    Smoothing(const LiftTable& table, const Grid& grid) : lifts_(table.rows.size()) {
        Entries entries;
        for (int row = 0; row < lifts_.size(); ++row) {
            const LiftRow& measured = table.rows[static_cast<std::size_t>(row)];
            lifts_[row] = measured.lift_mm;
            add_value_row(grid, measured.cam_deg, row, entries);
        }
        values_ = Sparse(lifts_.size(), grid.coefficients);
        values_.setFromTriplets(entries.begin(), entries.end());
        const Sparse jerk = jerk_matrix(grid.coefficients);
        normal_ = values_.transpose() * values_;
        stiffness_ = jerk.transpose() * jerk;
    }

    Eigen::VectorXd solve(double weight) const {
        const Sparse system = normal_ + weight * stiffness_;
        const Eigen::SimplicialLDLT<Sparse> factored(system);
        RODWAY_ASSERT(factored.info() == Eigen::Success);
        return factored.solve(values_.transpose() * lifts_);
    }
    double residual_mm(const Eigen::VectorXd& coefficients) const {
        return std::sqrt((values_ * coefficients - lifts_).squaredNorm() /
                         static_cast<double>(lifts_.size()));
    }

  private:
    Eigen::VectorXd lifts_;
    Sparse values_, normal_, stiffness_;
};

/// The least-jerk curve through the peak and the card's points, zero beyond ±half_span.
struct CardCurve {
    QuinticSpline spline;
    double jerk = 0.0;
};

std::optional<CardCurve> card_curve(double peak_lift_mm, const std::vector<CardDuration>& durations,
                                    double half_span_deg) {
    const Grid grid = grid_over(-half_span_deg, half_span_deg, half_span_deg / 40.0);
    Entries entries;
    std::vector<double> wanted{peak_lift_mm};
    add_value_row(grid, 0.0, 0, entries);
    for (const CardDuration& duration : durations) {
        const double half_cam_deg = duration.crank_deg / 4.0;
        for (const double side : {-half_cam_deg, half_cam_deg}) {
            add_value_row(grid, side, static_cast<int>(wanted.size()), entries);
            wanted.push_back(duration.lobe_lift_mm);
        }
    }
    const int n = grid.coefficients;
    const int m = static_cast<int>(wanted.size());
    Sparse points(m, n);
    points.setFromTriplets(entries.begin(), entries.end());
    const Eigen::MatrixXd jerk = jerk_matrix(n);
    Eigen::MatrixXd system = Eigen::MatrixXd::Zero(n + m, n + m);
    system.topLeftCorner(n, n) = jerk.transpose() * jerk;
    system.topRightCorner(n, m) = Eigen::MatrixXd(points.transpose());
    system.bottomLeftCorner(m, n) = Eigen::MatrixXd(points);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(n + m);
    right.tail(m) = Eigen::Map<const Eigen::VectorXd>(wanted.data(), m);
    const Eigen::VectorXd solved = system.fullPivLu().solve(right);
    const Eigen::VectorXd coefficients = solved.head(n);
    CardCurve curve{QuinticSpline(grid.first, grid.step, to_vector(coefficients)),
                    (jerk * coefficients).squaredNorm() / std::pow(grid.step, 5)};

    constexpr int looks = 400;
    for (int look = 1; look < looks; ++look) {
        const auto here = curve.spline.at(half_span_deg * look / looks);
        if (here[0] < -1e-6 || here[1] > 1e-9) {
            return std::nullopt; // not one hill
        }
    }
    return curve;
}

} // namespace

Lobe::Lobe(QuinticSpline spline, double residual_mm, bool estimated)
    : spline_(std::move(spline)), residual_mm_(residual_mm), estimated_(estimated) {
    const double look = spline_.step() / 4.0;
    double highest = -1.0;
    const int looks = static_cast<int>((spline_.last() - spline_.first()) / look);
    for (int at = 0; at <= looks; ++at) {
        const double x = spline_.first() + at * look;
        if (const double lift = spline_.at(x)[0]; lift > highest) {
            highest = lift;
            full_lift_at_deg_ = x;
        }
    }
    double rising = full_lift_at_deg_ - look;
    double falling = full_lift_at_deg_ + look;
    while (falling - rising > 1e-12 * (1.0 + std::abs(rising))) {
        const double middle = (rising + falling) / 2.0;
        if (middle <= rising || middle >= falling) {
            break;
        }
        (spline_.at(middle)[1] > 0.0 ? rising : falling) = middle;
    }
    full_lift_at_deg_ = (rising + falling) / 2.0;
    full_lift_mm_ = spline_.at(full_lift_at_deg_)[0];
}

Result<Lobe> Lobe::from_table(const LiftTable& table, std::optional<double> noise_mm) {
    if (const auto checked = check_lift_table(table); !checked) {
        return checked.error();
    }
    const double rounding = std::max(table.resolution_mm, 1e-6) / std::sqrt(12.0);
    const double noise =
        noise_mm.value_or(std::max(rounding, std::min(scatter_of(table.rows), most_scatter_mm)));
    const double step = usual_step_deg(table.rows);
    const Grid grid =
        grid_over(table.rows.front().cam_deg - step, table.rows.back().cam_deg + step, step);
    const Smoothing smoothing(table, grid);

    double weak = -12.0; // powers of ten of the weight
    double strong = 8.0;
    for (int halving = 0; halving < 40; ++halving) {
        const double middle = (weak + strong) / 2.0;
        const double residual = smoothing.residual_mm(smoothing.solve(std::pow(10.0, middle)));
        (residual <= noise ? weak : strong) = middle;
    }
    const Eigen::VectorXd coefficients = smoothing.solve(std::pow(10.0, weak));
    return Lobe(QuinticSpline(grid.first, grid.step, to_vector(coefficients)),
                smoothing.residual_mm(coefficients), false);
}

Result<Lobe> Lobe::from_card(double peak_lift_mm, std::vector<CardDuration> durations) {
    const Error refused{ErrorCode::not_a_lobe, "card", {}, {}, {}, {}};
    if (durations.size() < 2) {
        return Error{ErrorCode::too_few_rows,
                     "card/durations",
                     std::to_string(durations.size()),
                     "2",
                     {},
                     {}};
    }
    std::sort(durations.begin(), durations.end(), [](const CardDuration& a, const CardDuration& b) {
        return a.lobe_lift_mm < b.lobe_lift_mm;
    });
    for (std::size_t at = 0; at < durations.size(); ++at) {
        const bool shrinks =
            at == 0 || (durations[at].lobe_lift_mm > durations[at - 1].lobe_lift_mm &&
                        durations[at].crank_deg < durations[at - 1].crank_deg);
        if (!shrinks) {
            return Error{ErrorCode::order_wrong,
                         "card/durations",
                         std::to_string(durations[at].crank_deg),
                         {},
                         static_cast<int>(at) + 1,
                         {}};
        }
    }
    if (!(durations.front().lobe_lift_mm > 0.0) ||
        !(durations.back().lobe_lift_mm < peak_lift_mm) || !(durations.back().crank_deg > 0.0) ||
        !(durations.front().crank_deg < 720.0)) {
        return refused;
    }
    std::optional<CardCurve> smoothest;
    const double widest_cam_deg = durations.front().crank_deg / 4.0;
    for (int ramp_deg = 2; ramp_deg <= 60; ++ramp_deg) {
        const auto curve = card_curve(peak_lift_mm, durations, widest_cam_deg + ramp_deg);
        if (curve && (!smoothest || curve->jerk < smoothest->jerk)) {
            smoothest = curve;
        }
    }
    if (!smoothest) {
        return refused;
    }
    return Lobe(smoothest->spline, 0.0, true);
}

LobeMotion Lobe::at(CamAngle from_full_lift) const {
    const auto value = spline_.at(full_lift_at_deg_ + from_full_lift.in_deg());
    const double per_rad = degrees(1.0);
    return {value[0], value[1] * per_rad, value[2] * per_rad * per_rad,
            value[3] * per_rad * per_rad * per_rad};
}

double Lobe::lift_mm(CamAngle from_full_lift) const {
    // Smoothing may ring by a fraction of the table's last digit where the ramp meets the heel.
    return std::clamp(spline_.at(full_lift_at_deg_ + from_full_lift.in_deg())[0], 0.0,
                      full_lift_mm_);
}

Flanks Lobe::at_lift(double lobe_lift_mm) const {
    RODWAY_ASSERT(lobe_lift_mm > 0.0 && lobe_lift_mm <= full_lift_mm_);
    const auto crossing = [&](double end_deg) {
        const double look = (full_lift_at_deg_ - end_deg > 0.0 ? 1.0 : -1.0) * spline_.step() / 4.0;
        double below = end_deg;
        while (std::abs(full_lift_at_deg_ - below) > std::abs(look) &&
               spline_.at(below + look)[0] < lobe_lift_mm) {
            below += look;
        }
        double above =
            std::abs(full_lift_at_deg_ - below) > std::abs(look) ? below + look : full_lift_at_deg_;
        while (std::abs(above - below) > 1e-12 * (1.0 + std::abs(below))) {
            const double middle = (above + below) / 2.0;
            if (middle == above || middle == below) {
                break;
            }
            (spline_.at(middle)[0] < lobe_lift_mm ? below : above) = middle;
        }
        return CamAngle::deg(above - full_lift_at_deg_);
    };
    return {crossing(spline_.first()), crossing(spline_.last())};
}

Flanks Lobe::span() const {
    return {CamAngle::deg(spline_.first() - full_lift_at_deg_),
            CamAngle::deg(spline_.last() - full_lift_at_deg_)};
}

} // namespace rodway
