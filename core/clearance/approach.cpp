#include "core/clearance/approach.h"

#include <algorithm>
#include <cmath>

// The proof
// ---------
// Let W be what the rod may touch and c(s) its clearance at lobe lift s: the least, over every
// point of the rod's axis, of the distance from W less the rod's radius there. A rod's point and a
// wall point q make a function f(s) = |q - X(s)| - ρ. For a vector w that moves,
// |w|'' = (w·w'' + |w'|² - (w'·ŵ)²)/|w| ≤ |w''| + |w'|²/|w|. Hence, with V ≥ |X'|, X₂ ≥ |X''| and
// D > 0 no more than any |q - X| in an interval [a, b],
//     f'' ≤ K = X₂ + V²/D,
// so each f - K·s²/2 is concave, so is their minimum, and a concave function lies above its chord:
//     c(s) ≥ chord(s) - K·(s - a)·(b - s)/2.                                     (second order)
// All that is asked of the functions: each is, at every s in [a, b], a point of the rod, and one of
// them is the nearest. Points whose clearance stays above the best found so far may be left out.
// And nothing moves faster than V:  c ≥ (c(a) + c(b) - V·(b - a))/2.              (first order)
//
// Family B: points fixed in the rod. X = P + t·û at station t, so X' lies between the lifter's
// axis, 1 long, and B', and |X''| = (t/L)·|B''|; both are bounded in linkage.cpp. That always
// holds, but V is about 1: the rod slides along its bore.
//
// Family A, in a bore: points of the axis's straight line at fixed heights μ along the bore (unit
// axis e), Y(μ, s). They hardly move. One that stays within one section of even radius is a point
// of the rod all the way, so A does without B if no end of a section, and nothing tapered, comes
// within reach. Reach: a ball at height |μ| > H + R + (ρ_most - ρ_least), H the half length, has
// more clearance than the axis leaves where it crosses an end plane; it can't be the nearest.
// An end of a section within reach does not matter either if, by first order, the balls that pass
// there keep more clearance than the best found.
//
// The rates of Y. With w = û/(û·e), and P the lower ball, whose height is linear in s (P' = a, the
// lifter's axis):
//     Y   = P + (μ - P·e)·w
//     Y'  = a - (a·e)·w + (μ - P·e)·w'
//     Y'' = -2·(a·e)·w' + (μ - P·e)·w''
//     w'  = (û' - (û'·e)·w)/(û·e),   w'' = (û'' - (û''·e)·w - 2·(û'·e)·w')/(û·e).
// I - w·eᵀ is an oblique projector of norm 1/(û·e), so with κ ≤ û·e over the interval
//     |w'| ≤ |û'|/κ²,   |w''| ≤ (|û''|/κ + 2·|û'|·|w'|)/κ,
// and û' = (B' - a)/L, û'' = B''/L. Y' at the interval's ends is exact; anywhere else is at most
// half the interval from an end, which adds Y₂ times that.
//
// D in a bore: the axis's own distance from the wall changes no faster than Y' while both ends of
// the rod stand beyond H + R, else no faster than V; over [a, b] it is nowhere less than
// (d(a) + d(b) - that·(b - a))/2. D > 0 also proves that the axis never touches the wall in
// between, so it goes through all the way. A rounded edge moves the wall, nothing else.
//
// Solids: family B. A capsule is its middle line grown by its radius, so D may be taken from that
// line. The distance from a plane is linear: K = X₂. Where D ≤ 0, inside a solid, first order
// serves. A rocker's body turns by φ about O: seen from it, Z = Rot(-φ)·(X - O), and with r the
// distance of X from O
//     |Z'|  ≤ V + |φ'|·r
//     |Z''| ≤ X₂ + |φ''|·r + 2·|φ'|·V + φ'²·r,
// where |φ'| = |B'|/|r_p| and |φ''| ≤ |B''|/|r_p|, r_p the ball arm across the shaft. A point
// farther from O than the body's farthest, its radius, the rod's and the best clearance together
// has more clearance than the best, so r needn't be more than that.

namespace rodway {
namespace {

constexpr double least_cos_tilt = 0.2;

/// Least of chord - K·(s - a)(b - s)/2 over an interval, a parabola that opens upward. Also the
/// chord's lower end for K = 0.
double least_of_parabola(double at_a, double at_b, double length, double K) {
    if (!(K > 0.0)) {
        return std::min(at_a, at_b);
    }
    const double rise = (at_b - at_a) / length;
    const double at = std::clamp(length / 2.0 - rise / K, 0.0, length);
    return at_a + rise * at - K * at * (length - at) / 2.0;
}

double mean_less(double a, double b, double speed, double length) {
    return (a + b - speed * length) / 2.0;
}

} // namespace

struct Approach::Rates {
    double length = 0.0; ///< of the interval
    double V = 0.0;      ///< |X'|
    double X2 = 0.0;     ///< |X''|
    double swing = 0.0;  ///< |B' - a|
    double ball_speed = 0.0;
};

Approach::Approach(const RodPair& pair) : pair_(pair), L_(pair.linkage.rod_length_mm()) {
    thinnest_ = pair.rod.front().least_radius_mm();
    for (const RoundSection& section : pair.rod) {
        thinnest_ = std::min(thinnest_, section.least_radius_mm());
        thickest_ = std::max(thickest_, section.most_radius_mm());
    }
    straight_ = pair.rod.size() == 1 && thinnest_ == thickest_;
    if (pair.bore != nullptr) {
        end_reach_ = pair.bore->length_mm / 2.0 + pair.bore->bore_radius_mm;
        reach_ = end_reach_ + thickest_ - thinnest_;
        return;
    }
    flat_ = std::holds_alternative<HalfSpace>(*pair.solid);
    if (const auto* capsule = std::get_if<Capsule>(pair.solid)) {
        core_mm_ = capsule->radius_mm;
        body_reach_ = std::max(capsule->from_K.norm(), capsule->to_K.norm()) + core_mm_;
    }
    const Vec3& arm = pair.linkage.ball_arm_K();
    const Vec3& n = pair.linkage.shaft_axis_K();
    arm_across_ = (arm - arm.dot(n) * n).norm();
}

TrainStatus Approach::status_at(double s_mm) const {
    const TrainStatus status = pair_.linkage.status_at(s_mm);
    if (status != TrainStatus::answered) {
        return status;
    }
    return pair_.bore != nullptr ? TrainStatus::does_not_go_through : TrainStatus::outside_domain;
}

std::optional<Approach::Look> Approach::look(double s_mm) const {
    const std::optional<Pose> pose = pair_.linkage.at(s_mm);
    if (!pose) {
        return std::nullopt;
    }
    const auto ball = closest_ball(pair_, *pose);
    if (!ball) {
        return std::nullopt;
    }
    std::optional<Look> found(std::in_place);
    found->ball = *ball;
    ApproachSample& sample = found->sample;
    sample.s_mm = s_mm;
    sample.clearance_mm = ball->clearance_mm;
    sample.p_lower_K = pose->lower_ball_K;
    sample.p_upper_K = pose->upper_ball_K;
    const PoseRates rates = pair_.linkage.rates(*pose);
    const Vec3 swing = rates.upper_ball_K - pair_.linkage.lifter_axis_K();
    sample.swing = swing.norm();
    sample.ball_speed = rates.upper_ball_K.norm();
    if (pair_.bore != nullptr) {
        look_in_bore(*found, swing, *pose);
    } else {
        look_at_solid(*found, swing, rates);
    }
    return found;
}

// The nearest wall point, and the station or the height of the nearest ball, are stationary, so
// that only the movement of the point they leave counts: at a fixed height where the wall holds it,
// at a fixed station where an end of a section does.
void Approach::look_in_bore(Look& look, const Vec3& swing, const Pose& pose) const {
    ApproachSample& sample = look.sample;
    const ClosestBall& ball = look.ball;
    const Bore& bore = *pair_.bore;
    const Vec3& e = bore.axis_K;
    const Vec3& a = pair_.linkage.lifter_axis_K();
    const Vec3 u = (pose.upper_ball_K - pose.lower_ball_K) / L_;
    const double g = u.dot(e);
    sample.cos_tilt = g;
    sample.lower_mm = (pose.lower_ball_K - bore.centre_K).dot(e);
    sample.upper_mm = sample.lower_mm + L_ * g;
    const Vec3 w = u / g;
    const Vec3 u_rate = swing / L_;
    const Vec3 w_rate = (u_rate - u_rate.dot(e) * w) / g;
    const Vec3 lower_rate = a - a.dot(e) * w;
    const auto side_rate = [&](double height) -> Vec3 {
        return lower_rate + (height - sample.lower_mm) * w_rate;
    };
    sample.side_speed =
        std::sqrt(std::max(side_rate(reach_).squaredNorm(), side_rate(-reach_).squaredNorm()));

    const Vec3 rate = a + ball.station_mm * u_rate;
    const double slides = ball.held_by_rod ? 0.0 : -rate.dot(e) / g;
    sample.slope = -ball.normal_K.dot(rate + slides * u) - ball.taper * slides;
    sample.axis_mm = ball.axis_mm();
    if (!straight_) {
        const auto axis = axis_to_wall(bore, pose.lower_ball_K, pose.upper_ball_K);
        sample.axis_mm = axis ? axis->distance_mm : 0.0;
    }
}

void Approach::look_at_solid(Look& look, const Vec3& swing, const PoseRates& rates) const {
    ApproachSample& sample = look.sample;
    const ClosestBall& ball = look.ball;
    const Linkage& linkage = pair_.linkage;
    const Vec3 u = (sample.p_upper_K - sample.p_lower_K) / L_;
    Vec3 rate = linkage.lifter_axis_K() + ball.station_mm / L_ * swing;
    if (pair_.kind == FeatureKind::rocker_body) {
        rate -= rates.turned_rad_per_mm *
                linkage.shaft_axis_K().cross(ball.p_axis_K - linkage.pivot_K());
    }
    const double slides = ball.held_by_rod ? 0.0 : -rate.dot(u);
    sample.slope = -ball.normal_K.dot(rate + slides * u) - ball.taper * slides;
    sample.axis_mm = ball.clearance_mm + thinnest_ + core_mm_;
}

std::optional<double> Approach::least_between(const ApproachSample& a, const ApproachSample& b,
                                              double best_mm) const {
    const auto bounds = pair_.linkage.bounds(a.s_mm, b.s_mm, std::max(a.swing, b.swing));
    if (!bounds) {
        return std::nullopt;
    }
    Rates rates;
    rates.length = b.s_mm - a.s_mm;
    rates.X2 = bounds->upper_ball_curving_per_mm;
    rates.swing = bounds->swing_speed;
    rates.ball_speed = std::min(bounds->upper_ball_speed, std::max(a.ball_speed, b.ball_speed) +
                                                              rates.X2 * rates.length / 2.0);
    rates.V = std::max(1.0, rates.ball_speed);
    if (pair_.bore == nullptr) {
        return least_at_solid(a, b, rates, best_mm);
    }
    return least_in_bore(a, b, rates, best_mm);
}

std::optional<double> Approach::least_in_bore(const ApproachSample& a, const ApproachSample& b,
                                              const Rates& rates, double best_mm) const {
    const double h = rates.length;
    const double first_order = mean_less(a.clearance_mm, b.clearance_mm, rates.V, h);
    const Bore& bore = *pair_.bore;
    // The lower ball's height is linear; the upper ball's lies off its chord by no more than this.
    const double off_chord = rates.X2 * h * h / 8.0;
    const double lower = std::max(a.lower_mm, b.lower_mm);
    const double upper = std::min(a.upper_mm, b.upper_mm) - off_chord;
    if (upper < bore.length_mm / 2.0 - bore.top_edge_radius_mm) {
        return std::nullopt;
    }
    const double u1 = rates.swing / L_;
    const double k = std::min(a.cos_tilt, b.cos_tilt) - u1 * h / 2.0;
    const bool upright = k >= least_cos_tilt;
    double Y1 = rates.V;
    double Y2 = 0.0;
    if (upright) {
        const double a_along = std::abs(pair_.linkage.lifter_axis_K().dot(bore.axis_K));
        const double w1 = u1 / (k * k);
        const double w2 = (rates.X2 / (L_ * k) + 2.0 * u1 * w1) / k;
        const double arm = reach_ - std::min(a.lower_mm, b.lower_mm);
        Y2 = 2.0 * a_along * w1 + std::max(arm, reach_ + lower) * w2;
        Y1 = std::max(a.side_speed, b.side_speed) + Y2 * h / 2.0;
    }
    const bool ends_clear = upright && lower < -end_reach_ && upper > end_reach_;
    const double D = mean_less(a.axis_mm, b.axis_mm, ends_clear ? Y1 : rates.V, h);
    if (!(D > 0.0)) {
        // The axis nears the wall, or its end does: it may still be proved to go through.
        return mean_less(a.axis_mm, b.axis_mm, rates.V, h) > 0.0 ? std::optional(first_order)
                                                                 : std::nullopt;
    }
    const double in_rod = rates.X2 + rates.V * rates.V / D;
    double least = first_order;
    if (upright && !section_ends_matter(a, b, rates, k, best_mm)) {
        const double at_height = Y2 + Y1 * Y1 / D;
        least = std::max(
            {least, mean_less(a.clearance_mm, b.clearance_mm, Y1, h),
             least_of_parabola(a.clearance_mm, b.clearance_mm, h, std::min(in_rod, at_height))});
    } else {
        least = std::max(least, least_of_parabola(a.clearance_mm, b.clearance_mm, h, in_rod));
    }
    return least;
}

bool Approach::section_ends_matter(const ApproachSample& a, const ApproachSample& b,
                                   const Rates& rates, double cos_tilt, double best_mm) const {
    const double off_chord = rates.X2 * rates.length * rates.length / 8.0;
    struct Heights {
        double low, high;
    };
    const auto heights = [&](double station) {
        const double part = station / L_;
        const double at_a = a.lower_mm + part * (a.upper_mm - a.lower_mm);
        const double at_b = b.lower_mm + part * (b.upper_mm - b.lower_mm);
        return Heights{std::min(at_a, at_b) - part * off_chord,
                       std::max(at_a, at_b) + part * off_chord};
    };
    for (const RoundSection& section : pair_.rod) {
        const Heights from = heights(section.from_mm);
        const Heights to = heights(section.to_mm);
        if (section.radius_from_mm != section.radius_to_mm) {
            if (from.low <= reach_ && to.high >= -reach_) {
                return true;
            }
            continue;
        }
        for (const double station : {section.from_mm, section.to_mm}) {
            const Heights& end = station == section.from_mm ? from : to;
            if (end.low > reach_ || end.high < -reach_) {
                continue;
            }
            // Balls of this section that pass this end's heights are no farther from it than this.
            const double passing = (end.high - end.low) / cos_tilt;
            const auto clearance = [&](const ApproachSample& at) {
                const Vec3 X = at.p_lower_K + station / L_ * (at.p_upper_K - at.p_lower_K);
                return signed_distance_to_wall(*pair_.bore, X) - section.radius_from_mm;
            };
            if (!(mean_less(clearance(a), clearance(b), rates.V, rates.length) - passing >=
                  best_mm)) {
                return true;
            }
        }
    }
    return false;
}

double Approach::least_at_solid(const ApproachSample& a, const ApproachSample& b,
                                const Rates& rates, double best_mm) const {
    const double h = rates.length;
    double V = rates.V;
    double X2 = rates.X2;
    if (pair_.kind == FeatureKind::rocker_body) {
        const Vec3& O = pair_.linkage.pivot_K();
        const double r = std::min(body_reach_ + thickest_ + std::max(0.0, best_mm),
                                  std::max({(a.p_lower_K - O).norm(), (b.p_lower_K - O).norm(),
                                            (b.p_upper_K - O).norm()}));
        const double turning = rates.ball_speed / arm_across_;
        X2 += rates.X2 / arm_across_ * r + 2.0 * turning * V + turning * turning * r;
        V += turning * r;
    }
    const double first_order = mean_less(a.clearance_mm, b.clearance_mm, V, h);
    const double D = mean_less(a.axis_mm, b.axis_mm, V, h);
    if (!flat_ && !(D > 0.0)) {
        return first_order;
    }
    const double K = flat_ ? X2 : X2 + V * V / D;
    return std::max(first_order, least_of_parabola(a.clearance_mm, b.clearance_mm, h, K));
}

} // namespace rodway
