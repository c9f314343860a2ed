#include "core/cam/card_lobe.h"

#include <Eigen/Dense>
#include <Eigen/SparseCholesky>
#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <string>

#include "core/cam/motion_law.h"
#include "core/cam/spline_grid.h"

// How a card becomes a lobe. A few durations leave a lobe open between and below them. What is
// known besides is that lobes are made of motion laws; so the body is a law, and only what the card
// says otherwise is added: the curve of least jerk that is zero beyond the lobe's ends and makes
// the peak and every duration exact. Laws and rise angles compete: the body whose addition has the
// least squared jerk is the one that comes closest to the card in the sense that it has to be bent
// the least. (Ranking by the durations' misses instead would weigh a duration at .006 in, on the
// ramp, twenty times a duration at .200, where the flank is steep, and choose the body by its
// ramp.) On cards read off lobes of such laws the lift between the durations is
// missed by 0.004 in on average, by least jerk alone by 0.011 (card_lobe_test.cpp). An addition can
// make the flank turn back. Such a body is passed over. Where all are, the flank of the best is
// held to a least slope at the places where it would turn back, the durations staying exact; where
// that fails too, the card is refused.

namespace rodway {
namespace {

constexpr double steepest_mm_per_deg = 0.5; ///< twice what any lifter follows
constexpr double most_ramp_deg = 60.0;      ///< between the lowest stated lift and the heel
constexpr int half_intervals = 80;
constexpr int looks = 320; ///< at the curve, over half of it

using Cholesky = Eigen::SimplicialLDLT<SparseMatrix, Eigen::Lower, Eigen::NaturalOrdering<int>>;

/// A place on the half lobe, degrees from full lift, and the lift wanted there.
struct Point {
    double cam_deg;
    double lift_mm;
};

/// Least-jerk curves over one span. Rows of `conditions` are taken of both sides alike, so that the
/// curves are symmetric.
class LeastJerk {
  public:
    explicit LeastJerk(double half_span_deg)
        : grid_(spline_grid(-half_span_deg, half_span_deg, half_span_deg / half_intervals)) {
        const SparseMatrix jerk = jerk_matrix(grid_.coefficients);
        factored_->compute(SparseMatrix(jerk.transpose() * jerk));
    }
    const SplineGrid& grid() const { return grid_; }

    /// The condition that takes coefficients to the curve's value (order 0) or slope (1) at x and
    /// its mirror image.
    Eigen::VectorXd condition(double x, int order) const {
        SparseEntries entries;
        add_spline_row(grid_, x, order, 0.5, 0, entries);
        add_spline_row(grid_, -x, order, order == 1 ? -0.5 : 0.5, 0, entries);
        Eigen::VectorXd row = Eigen::VectorXd::Zero(grid_.coefficients);
        for (const auto& entry : entries) {
            row[entry.col()] += entry.value();
        }
        return row;
    }
    /// For each condition the curve that pushes on it alone.
    Eigen::MatrixXd responses(const Eigen::MatrixXd& conditions) const {
        return factored_->solve(conditions);
    }

  private:
    SplineGrid grid_;
    std::unique_ptr<Cholesky> factored_ = std::make_unique<Cholesky>();
};

/// Coefficients of least squared jerk that meet `conditions`ᵀ·c = `wanted`, and that jerk's size.
struct Added {
    Eigen::VectorXd coefficients;
    Eigen::VectorXd pushes; ///< of the conditions
    double jerk = 0.0;
};
Added add_least_jerk(const Eigen::MatrixXd& conditions, const Eigen::MatrixXd& responses,
                     const Eigen::VectorXd& wanted) {
    const Eigen::MatrixXd among = conditions.transpose() * responses;
    const Eigen::LDLT<Eigen::MatrixXd> factored((among + among.transpose()) / 2.0);
    Added added;
    added.pushes = factored.solve(wanted);
    // The jerk's matrix is badly conditioned: what rounding leaves is taken out again.
    for (int again = 0; again < 3; ++again) {
        added.pushes += factored.solve(wanted - among * added.pushes);
    }
    const Eigen::VectorXd pushed = responses * added.pushes;
    added.coefficients = (pushed + pushed.reverse()) / 2.0; // rounding leans to one side
    added.jerk = added.pushes.dot(wanted);
    return added;
}

/// The slope that a flank must at least fall by, mm per degree: a twentieth of the lobe's mean
/// slope, less near the nose, none below the lowest stated lift. A flank that rests is no flank.
double least_slope(double x, const std::vector<Point>& points, double half_span_deg) {
    if (x >= points.back().cam_deg) {
        return 0.0;
    }
    const double slope = -points.front().lift_mm / half_span_deg / 20.0;
    return slope * std::min(1.0, x / points[1].cam_deg);
}

/// The place where the curve misses that slope by the most. None if it keeps it all the way.
std::optional<double> worst_turn(const QuinticSpline& spline, const std::vector<Point>& points) {
    std::optional<double> at;
    double worst = 1e-7;
    for (int look = 1; look < looks; ++look) {
        const double x = spline.last() * look / looks;
        const double miss = spline.at(x)[1] - least_slope(x, points, spline.last());
        if (miss > worst) {
            worst = miss;
            at = x;
        }
    }
    return at;
}

bool is_one_hill(const QuinticSpline& spline, double peak_mm) {
    for (int look = 1; look < looks; ++look) {
        const auto here = spline.at(spline.last() * look / looks);
        if (!(here[1] < 1e-6 && here[1] > -steepest_mm_per_deg) || here[0] < -1e-5 ||
            here[0] > peak_mm + 1e-9) {
            return false;
        }
    }
    return true;
}

bool meets(const QuinticSpline& spline, const std::vector<Point>& points) {
    return std::all_of(points.begin(), points.end(), [&](const Point& point) {
        const auto here = spline.at(point.cam_deg);
        // 0.05 crank degrees both sides together are 0.0125 of cam a flank: a tenth of that.
        const double slack = 1e-9 + 0.001 * std::abs(here[1]);
        return std::abs(here[0] - point.lift_mm) < slack;
    });
}

/// One body over one span, and what has to be added.
struct Body {
    std::size_t span = 0;
    Eigen::VectorXd coefficients;
    Eigen::VectorXd wanted;
    double jerk = 0.0; ///< squared, of what has to be added
};

LawMotion body_law(std::size_t law, double u) {
    constexpr std::array laws{MotionLaw::cycloidal, MotionLaw::polynomial_345,
                              MotionLaw::polynomial_4567, MotionLaw::modified_sine,
                              MotionLaw::modified_trapezoid};
    return law < laws.size() ? law_motion(laws[law], u) : FlatTappetLaw{}.at(u);
}
constexpr std::size_t body_laws = 6;

Eigen::VectorXd body_coefficients(const SplineGrid& grid, std::size_t law, double peak_mm) {
    const double rise_deg = grid.last() - 3.0 * grid.step;
    return follow_curve(grid, [&](double x) {
        const LawMotion motion = body_law(law, 1.0 - std::abs(x) / rise_deg);
        return CurvePoint{peak_mm * motion.lift,
                          peak_mm * motion.acceleration / (rise_deg * rise_deg)};
    });
}

/// Everything about one span.
struct Span {
    LeastJerk least_jerk;
    Eigen::MatrixXd conditions;
    Eigen::MatrixXd responses;
};
Span make_span(double half_span_deg, const std::vector<Point>& points) {
    Span span{LeastJerk(half_span_deg), {}, {}};
    span.conditions.resize(span.least_jerk.grid().coefficients,
                           static_cast<Eigen::Index>(points.size()));
    for (std::size_t at = 0; at < points.size(); ++at) {
        span.conditions.col(static_cast<Eigen::Index>(at)) =
            span.least_jerk.condition(points[at].cam_deg, 0);
    }
    span.responses = span.least_jerk.responses(span.conditions);
    return span;
}

/// The body bent so that it meets all points, the slope held where it would turn back.
std::optional<QuinticSpline> held_curve(const Span& span, const Body& body,
                                        const std::vector<Point>& points) {
    constexpr int most_holds = 40;
    Eigen::MatrixXd conditions = span.conditions;
    Eigen::MatrixXd responses = span.responses;
    Eigen::VectorXd wanted = body.wanted;
    for (int hold = 0; hold < most_holds; ++hold) {
        const Added added = add_least_jerk(conditions, responses, wanted);
        const QuinticSpline curve =
            span.least_jerk.grid().spline(body.coefficients + added.coefficients);
        const auto turn = worst_turn(curve, points);
        if (!turn) {
            return meets(curve, points) ? std::optional(curve) : std::nullopt;
        }
        const double wanted_slope = 1.2 * least_slope(*turn, points, curve.last());
        const Eigen::VectorXd row = span.least_jerk.condition(*turn, 1);
        const auto last = conditions.cols();
        conditions.conservativeResize(Eigen::NoChange, last + 1);
        conditions.col(last) = row;
        responses.conservativeResize(Eigen::NoChange, last + 1);
        responses.col(last) = span.least_jerk.responses(row);
        wanted.conservativeResize(last + 1);
        wanted[last] = wanted_slope - row.dot(body.coefficients);
    }
    return std::nullopt;
}

std::optional<QuinticSpline> best_curve(double peak_mm, const std::vector<Point>& points) {
    std::vector<Span> spans;
    std::vector<Body> bodies;
    for (double ramp_deg = 1.5; ramp_deg <= most_ramp_deg; ramp_deg *= 1.08) {
        const double half_span = points.back().cam_deg + ramp_deg;
        if (half_span > 180.0) {
            break;
        }
        spans.push_back(make_span(half_span, points));
        const Span& span = spans.back();
        for (std::size_t law = 0; law < body_laws; ++law) {
            Body body;
            body.span = spans.size() - 1;
            body.coefficients = body_coefficients(span.least_jerk.grid(), law, peak_mm);
            body.wanted = Eigen::VectorXd(static_cast<Eigen::Index>(points.size()));
            for (std::size_t at = 0; at < points.size(); ++at) {
                const auto row = static_cast<Eigen::Index>(at);
                body.wanted[row] =
                    points[at].lift_mm - span.conditions.col(row).dot(body.coefficients);
            }
            body.jerk = add_least_jerk(span.conditions, span.responses, body.wanted).jerk /
                        std::pow(span.least_jerk.grid().step, 5);
            bodies.push_back(std::move(body));
        }
    }
    std::sort(bodies.begin(), bodies.end(),
              [](const Body& a, const Body& b) { return a.jerk < b.jerk; });
    for (const Body& body : bodies) {
        const Span& span = spans[body.span];
        const Added added = add_least_jerk(span.conditions, span.responses, body.wanted);
        const QuinticSpline curve =
            span.least_jerk.grid().spline(body.coefficients + added.coefficients);
        if (is_one_hill(curve, peak_mm) && meets(curve, points)) {
            return curve;
        }
    }
    constexpr std::size_t most_tries = 24;
    for (std::size_t at = 0; at < std::min(bodies.size(), most_tries); ++at) {
        const auto held = held_curve(spans[bodies[at].span], bodies[at], points);
        if (held && is_one_hill(*held, peak_mm)) {
            return held;
        }
    }
    return std::nullopt;
}

} // namespace

Result<QuinticSpline> card_curve(double peak_lift_mm, std::vector<CardDuration> durations) {
    const Error refused{ErrorCode::not_a_lobe, "card", {}, {}, {}, {}};
    if (durations.size() < 2) {
        return Error{ErrorCode::too_few_rows,
                     "card/durations",
                     std::to_string(durations.size()),
                     "2",
                     {},
                     {}};
    }
    for (const CardDuration& duration : durations) {
        if (!(duration.lobe_lift_mm > 0.0 && duration.lobe_lift_mm < peak_lift_mm &&
              duration.crank_deg > 0.0 && duration.crank_deg < 700.0) ||
            !(peak_lift_mm <= 20.0)) {
            return refused;
        }
    }
    std::sort(durations.begin(), durations.end(), [](const CardDuration& a, const CardDuration& b) {
        return a.lobe_lift_mm > b.lobe_lift_mm;
    });
    std::vector<Point> points{{0.0, peak_lift_mm}};
    for (const CardDuration& duration : durations) {
        const double cam_deg = duration.crank_deg / 4.0;
        if (!(duration.lobe_lift_mm < points.back().lift_mm && cam_deg > points.back().cam_deg)) {
            return Error{ErrorCode::order_wrong,
                         "card/durations",
                         std::to_string(duration.crank_deg),
                         {},
                         {},
                         {}};
        }
        points.push_back({cam_deg, duration.lobe_lift_mm});
    }
    const auto curve = best_curve(peak_lift_mm, points);
    return curve ? Result<QuinticSpline>(*curve) : Result<QuinticSpline>(refused);
}

} // namespace rodway
