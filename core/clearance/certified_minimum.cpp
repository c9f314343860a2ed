#include "core/clearance/certified_minimum.h"

#include <algorithm>
#include <cmath>
#include <vector>

// The proof
// ---------
// Let W be the tube's wall and c(s) the clearance at lobe lift s: the least distance from W to the
// rod's axis, less the rod's radius. In the tube's own frame (unit axis e, heights μ from its
// centre, half length H, bore radius R) write Y(μ, s) for the point of the axis's straight line at
// height μ. While the rod's ends stand below -H - R and above H + R, every point of the axis that
// could be the nearest has -H - R ≤ μ ≤ H + R: one farther out is more than R from the slab, and
// the axis is less than R from the rim where it crosses an end plane. So
//     c(s) + ρ = min over wall points q and heights μ of f(s) = |q - Y(μ, s)|.
// For a vector w that moves, |w|'' = (w·w'' + |w'|² - (w'·ŵ)²)/|w| ≤ |w''| + |w'|²/|w|. Hence, with
// Y₁ ≥ |Y'|, Y₂ ≥ |Y''| and D > 0 no more than any f in an interval [a, b],
//     f'' ≤ K = Y₂ + Y₁²/D   for every q and μ,
// so each f - K·s²/2 is concave, so is their minimum, and a concave function lies above its chord:
//     c(s) ≥ chord(s) - K·(s - a)·(b - s)/2.                                            (second
//     order)
//
// The rates of Y. With w = û/(û·e), û the rod's direction, and P the lower ball, whose height is
// linear in s (P' = a, the lifter's axis):
//     Y   = P + (μ - P·e)·w
//     Y'  = a - (a·e)·w + (μ - P·e)·w'
//     Y'' = -2·(a·e)·w' + (μ - P·e)·w''
//     w'  = (û' - (û'·e)·w)/(û·e),   w'' = (û'' - (û''·e)·w - 2·(û'·e)·w')/(û·e).
// I - w·eᵀ is an oblique projector of norm 1/(û·e), so with κ ≤ û·e over the interval
//     |w'| ≤ |û'|/κ²,   |w''| ≤ (|û''|/κ + 2·|û'|·|w'|)/κ,
// and û' = (B' - a)/L, û'' = B''/L are bounded in linkage.cpp. Y' at the interval's ends is exact;
// anywhere else is at most half the interval from an end, which adds Y₂ times that.
//
// D comes from the first order: f changes no faster than Y₁, so over [a, b] it is nowhere less than
// (f(a) + f(b) - Y₁·(b - a))/2. D > 0 also proves that the axis never touches the wall in between,
// so it goes through the tube all the way.
//
// Where a rod's end stands nearer to the tube, or D can't be had, points fixed in the rod serve
// instead: they move no faster than V = max(1, |B'|), and c is nowhere less than
// (c(a) + c(b) - V·(b - a))/2.                                                         (first
// order)

namespace rodway {
namespace {

constexpr double wanted_bound_mm = 0.0005; // half of what is promised
constexpr double least_interval_mm = 1e-5;
constexpr double least_cos_tilt = 0.2;
constexpr int most_evaluations = 200000;

/// One lobe lift looked at.
struct Sample {
    double s = 0.0;
    double distance = 0.0; ///< axis to wall
    double slope = 0.0;    ///< of the distance, by lobe lift
    double swing = 0.0;    ///< |B' - a|
    double cos_tilt = 1.0;
    double lower_height = 0.0; ///< of the rod's ends along the tube, from its centre
    double upper_height = 0.0;
    double side_speed = 0.0; ///< greater |Y'| of the two heights ±(H + R)
};

struct Interval {
    Sample a;
    Sample b;
    double least_distance = 0.0; ///< proved
};

bool less_urgent(const Interval& left, const Interval& right) {
    return left.least_distance > right.least_distance;
}

/// Why a search had to give up.
struct Trouble {
    TrainStatus status;
    double at_mm;
};

class Search {
  public:
    explicit Search(const RodInTube& rod)
        : rod_(rod), reach_(rod.tube.length_mm / 2.0 + rod.tube.bore_radius_mm) {}

    CertifiedMinimum run();

  private:
    std::optional<Sample> sample(double s);
    std::optional<double> least_distance(const Sample& a, const Sample& b);
    std::optional<double> second_order(const Sample& a, const Sample& b,
                                       const RateBounds& rates) const;
    bool examine(const Sample& a, const Sample& b);
    void polish(const Interval& interval);
    void offer(const Sample& sample) {
        if (!best_ || sample.distance < best_->distance) {
            best_ = sample;
        }
    }

    const RodInTube& rod_;
    double reach_; ///< H + R
    int evaluations_ = 0;
    std::vector<Interval>
        intervals_; ///< together the whole turn; a heap, least proved distance first
    std::optional<Sample> best_;
    std::optional<Trouble> trouble_;
};

std::optional<Sample> Search::sample(double s) {
    ++evaluations_;
    const std::optional<Pose> pose = rod_.linkage.at(s);
    if (!pose) {
        const auto first = rod_.linkage.first_trouble(rod_.full_lift_mm);
        trouble_ = first ? Trouble{first->status, first->lobe_lift_mm}
                         : Trouble{rod_.linkage.status_at(s), s};
        return std::nullopt;
    }
    const auto nearest = axis_to_wall(rod_.tube, pose->lower_ball_K, pose->upper_ball_K);
    if (!nearest) {
        trouble_ = Trouble{TrainStatus::does_not_go_through, s};
        return std::nullopt;
    }
    const Vec3& e = rod_.tube.axis_K;
    const Vec3& a = rod_.linkage.lifter_axis_K();
    const Vec3 swing = rod_.linkage.rates(*pose).upper_ball_K - a;
    const double L = rod_.linkage.rod_length_mm();
    const Vec3 u = (pose->upper_ball_K - pose->lower_ball_K) / L;
    const double g = u.dot(e);
    const Vec3 w = u / g;
    const Vec3 u_rate = swing / L;
    const Vec3 w_rate = (u_rate - u_rate.dot(e) * w) / g;
    const Vec3 lower_rate = a - a.dot(e) * w;

    Sample sample;
    sample.s = s;
    sample.distance = nearest->distance_mm;
    sample.swing = swing.norm();
    sample.cos_tilt = g;
    sample.lower_height = (pose->lower_ball_K - rod_.tube.centre_K).dot(e);
    sample.upper_height = (pose->upper_ball_K - rod_.tube.centre_K).dot(e);
    const auto side_rate = [&](double height) -> Vec3 {
        return lower_rate + (height - sample.lower_height) * w_rate;
    };
    sample.side_speed = std::max(side_rate(reach_).norm(), side_rate(-reach_).norm());
    // The nearest wall point and height are stationary, so only Y's own movement counts.
    const Vec3 normal = (nearest->p_wall_K - nearest->p_axis_K) / nearest->distance_mm;
    sample.slope = -normal.dot(side_rate(nearest->along_tube_mm));
    return sample;
}

std::optional<double> Search::second_order(const Sample& a, const Sample& b,
                                           const RateBounds& rates) const {
    const double h = b.s - a.s;
    const double L = rod_.linkage.rod_length_mm();
    const double u1 = rates.swing_speed / L;
    const double u2 = rates.upper_ball_curving_per_mm / L;
    const double k = std::min(a.cos_tilt, b.cos_tilt) - u1 * h / 2.0;
    const double lower_height = std::max(a.lower_height, b.lower_height);
    // The upper ball's height between the two samples: first order from the nearer one.
    const double upper_height =
        std::min(a.upper_height, b.upper_height) - rates.upper_ball_speed * h / 2.0;
    if (k < least_cos_tilt || lower_height > -reach_ || upper_height < reach_) {
        return std::nullopt;
    }
    const double a_along = std::abs(rod_.linkage.lifter_axis_K().dot(rod_.tube.axis_K));
    const double w1 = u1 / (k * k);
    const double w2 = (u2 / k + 2.0 * u1 * w1) / k;
    const double arm = reach_ - std::min(a.lower_height, b.lower_height);
    const double Y2 = 2.0 * a_along * w1 + arm * w2;
    const double Y1 = std::max(a.side_speed, b.side_speed) + Y2 * h / 2.0;
    const double D = (a.distance + b.distance - Y1 * h) / 2.0;
    if (D <= 0.0) {
        return std::nullopt;
    }
    const double K = Y2 + Y1 * Y1 / D;
    // Least of chord - K·(s - a)(b - s)/2 over [a, b], a parabola that opens upward.
    const double rise = (b.distance - a.distance) / h;
    const double at = std::clamp(h / 2.0 - rise / K, 0.0, h);
    const double parabola = a.distance + rise * at - K * at * (h - at) / 2.0;
    return std::max(parabola, D);
}

std::optional<double> Search::least_distance(const Sample& a, const Sample& b) {
    const auto rates = rod_.linkage.bounds(a.s, b.s, std::max(a.swing, b.swing));
    if (!rates) {
        return std::nullopt;
    }
    const double speed = std::max(1.0, rates->upper_ball_speed);
    const double first_order = (a.distance + b.distance - speed * (b.s - a.s)) / 2.0;
    if (const auto curved = second_order(a, b, *rates)) {
        return std::max(*curved, first_order);
    }
    // An end of the rod is near the tube, or the axis near the wall: prove that it goes through.
    const double half_length = rod_.tube.length_mm / 2.0;
    const double upper_height =
        std::min(a.upper_height, b.upper_height) - speed * (b.s - a.s) / 2.0;
    return first_order > 0.0 && upper_height >= half_length ? std::optional(first_order)
                                                            : std::nullopt;
}

/// Keeps an interval with what can be proved of it. False if it is too narrow to prove anything.
bool Search::examine(const Sample& a, const Sample& b) {
    const auto least = least_distance(a, b);
    if (!least) {
        if (b.s - a.s < least_interval_mm) {
            const double middle = (a.s + b.s) / 2.0;
            const TrainStatus status = rod_.linkage.bounds(a.s, b.s, std::max(a.swing, b.swing))
                                           ? TrainStatus::does_not_go_through
                                           : TrainStatus::near_dead_point;
            trouble_ = Trouble{status, middle};
            return false;
        }
        intervals_.push_back({a, b, -1.0});
    } else {
        intervals_.push_back({a, b, *least});
    }
    std::push_heap(intervals_.begin(), intervals_.end(), less_urgent);
    return true;
}

/// Finds the local minimum in an interval where the slope turns from falling to rising, by the
/// secant method kept inside its bracket. A minimum of smooth functions has its own minima only
/// where one of them has: kinks point upward.
void Search::polish(const Interval& interval) {
    Sample low = interval.a;
    Sample high = interval.b;
    if (!(low.slope < 0.0 && high.slope > 0.0)) {
        return;
    }
    double low_weight = low.slope;
    double high_weight = high.slope;
    for (int step = 0; step < 40 && high.s - low.s > 1e-11; ++step) {
        double s = low.s + (high.s - low.s) * (low_weight / (low_weight - high_weight));
        if (!(s > low.s && s < high.s)) {
            s = (low.s + high.s) / 2.0;
        }
        const auto middle = sample(s);
        if (!middle) {
            return;
        }
        offer(*middle);
        if (std::abs(middle->slope) < 1e-13) {
            return;
        }
        if (middle->slope < 0.0) {
            low = *middle;
            low_weight = middle->slope;
            high_weight /= 2.0;
        } else {
            high = *middle;
            high_weight = middle->slope;
            low_weight /= 2.0;
        }
    }
}

CertifiedMinimum Search::run() {
    CertifiedMinimum answer;
    const auto heel = sample(0.0);
    const auto full = heel ? sample(rod_.full_lift_mm) : std::nullopt;
    if (heel && full) {
        offer(*heel);
        offer(*full);
        examine(*heel, *full);
    }
    while (!trouble_ && !intervals_.empty() &&
           intervals_.front().least_distance < best_->distance - wanted_bound_mm) {
        std::pop_heap(intervals_.begin(), intervals_.end(), less_urgent);
        const Interval interval = intervals_.back();
        intervals_.pop_back();
        const auto middle = sample((interval.a.s + interval.b.s) / 2.0);
        RODWAY_ASSERT(evaluations_ < most_evaluations);
        if (!middle) {
            break;
        }
        offer(*middle);
        if (!examine(interval.a, *middle) || !examine(*middle, interval.b)) {
            break;
        }
    }
    if (!trouble_) {
        for (const Interval& interval : intervals_) {
            if (interval.least_distance < best_->distance) {
                polish(interval);
            }
        }
    }
    answer.evaluations = evaluations_;
    if (trouble_) {
        answer.status = trouble_->status;
        answer.status_at_mm = trouble_->at_mm;
        return answer;
    }
    answer.on_heel = rod_clearance_at(rod_, 0.0);
    answer.at_full_lift = rod_clearance_at(rod_, rod_.full_lift_mm);
    answer.minimum = rod_clearance_at(rod_, best_->s);
    answer.bound_mm = std::max(0.0, best_->distance - intervals_.front().least_distance);
    return answer;
}

} // namespace

CertifiedMinimum certified_minimum(const RodInTube& rod) {
    return Search(rod).run();
}

Result<TrainInTube> rod_in_tube(const Engine& engine, const Train& train) {
    const Result<Bore> tube = engine.tube_in_place(train);
    if (!tube) {
        return tube.error();
    }
    const Linkage::Closing closing = Linkage::close(train);
    TrainInTube result;
    result.status = closing.status;
    result.adjuster_needed_mm = closing.adjuster_needed_mm;
    if (closing.linkage) {
        result.rod = RodInTube{*closing.linkage, *tube, train.rod.diameter_mm / 2.0,
                               engine.lobes(train.position).lobe.full_lift_mm(),
                               engine.outboard_y_sign(train)};
    }
    return result;
}

} // namespace rodway
