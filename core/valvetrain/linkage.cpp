#include "core/valvetrain/linkage.h"

#include <algorithm>
#include <cmath>

#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/train_check.h"

namespace rodway {
namespace {

constexpr double least_sin_alpha = 0.02;
constexpr double least_arm_mm = 1.0;

/// Least and greatest value of a quadratic p·s² + q·s + r over an interval.
struct Range {
    double low;
    double high;
};

Range quadratic_range(double p, double q, double r, double from, double to) {
    const auto value = [&](double s) { return (p * s + q) * s + r; };
    Range range{std::min(value(from), value(to)), std::max(value(from), value(to))};
    if (p != 0.0) {
        const double vertex = -q / (2.0 * p);
        if (vertex > from && vertex < to) {
            range.low = std::min(range.low, value(vertex));
            range.high = std::max(range.high, value(vertex));
        }
    }
    return range;
}

} // namespace

/// Shaft, lower ball and upper ball seen along the shaft: a triangle with sides |d_p|, |r_p| and
/// the rod's projection; α is its angle at the shaft.
struct Linkage::Corner {
    Vec3 lower_ball_K;
    Vec3 across_K; ///< unit, from the shaft towards the lower ball
    double d_across = 0.0;
    double cos_alpha = 0.0;
    TrainStatus status = TrainStatus::answered;
};

struct Linkage::CornerRange {
    double d_least;
    double sin_least_squared;

    /// Not so for NaN.
    [[nodiscard]] bool closes() const {
        return d_least >= least_arm_mm && sin_least_squared >= least_sin_alpha * least_sin_alpha;
    }
};

Linkage::Corner Linkage::corner(double lobe_lift_mm) const {
    Corner corner;
    corner.lower_ball_K = P0_ + lobe_lift_mm * a_;
    const Vec3 d = corner.lower_ball_K - O_;
    const double d_along = d.dot(n_);
    const Vec3 d_p = d - d_along * n_;
    corner.d_across = d_p.norm();
    if (corner.d_across < least_arm_mm || r_across_ < least_arm_mm) {
        corner.status = TrainStatus::arm_too_short;
        return corner;
    }
    corner.across_K = d_p / corner.d_across;
    const double r_squared = r_along_ * r_along_ + r_across_ * r_across_;
    corner.cos_alpha = (d.squaredNorm() + r_squared - L_ * L_ - 2.0 * d_along * r_along_) /
                       (2.0 * corner.d_across * r_across_);
    if (corner.cos_alpha >= 1.0) {
        corner.status = TrainStatus::rod_too_short;
    } else if (corner.cos_alpha <= -1.0) {
        corner.status = TrainStatus::rod_too_long;
    } else if ((1.0 - corner.cos_alpha) * (1.0 + corner.cos_alpha) <
               least_sin_alpha * least_sin_alpha) {
        corner.status = TrainStatus::near_dead_point;
    }
    return corner;
}

Linkage::Closing Linkage::close(const Train& train) {
    Closing closing;
    if (!can_be_worked_out(train)) {
        closing.status = TrainStatus::outside_domain;
        return closing;
    }
    Setting setting;
    if (train.adjuster.kind == AdjusterKind::screw) {
        setting = set_screw(train);
    } else if (train.adjuster.kind == AdjusterKind::nut) {
        setting = set_nut(train);
    } else if (train.lifter.kind == LifterKind::hydraulic) {
        setting = set_plunger(train);
    } else {
        setting = set_nothing(train);
    }
    closing.status = setting.status;
    closing.adjuster_needed_mm = setting.needed_mm;
    if (setting.status != TrainStatus::answered) {
        return closing;
    }
    Linkage linkage;
    linkage.O_ = setting.pivot_K;
    linkage.n_ = train.rocker.axis_K;
    linkage.a_ = train.lifter.axis_K;
    linkage.P0_ = setting.lower_ball_K;
    linkage.r0_ = setting.ball_arm_K;
    linkage.q0_ = setting.tip_arm_K;
    linkage.v_ = train.valve.axis_K;
    linkage.L_ = train.rod.length_mm;
    linkage.lash_mm_ = setting.lash_mm;
    linkage.adjuster_in_mm_ = setting.adjuster_in_mm;
    linkage.preload_mm_ = setting.preload_mm;
    linkage.keep_branch();
    closing.status = linkage.status_at(0.0);
    if (closing.status == TrainStatus::answered) {
        closing.linkage = linkage;
    }
    return closing;
}

void Linkage::keep_branch() {
    r_along_ = r0_.dot(n_);
    const Vec3 r_p = r0_ - r_along_ * n_;
    r_across_ = r_p.norm();
    branch_ = n_.dot((P0_ - O_).cross(r_p)) < 0.0 ? -1.0 : 1.0;
}

TrainStatus Linkage::status_at(double lobe_lift_mm) const {
    return corner(lobe_lift_mm).status;
}

std::optional<Pose> Linkage::at(double lobe_lift_mm) const {
    const Corner closed = corner(lobe_lift_mm);
    if (closed.status != TrainStatus::answered) {
        return std::nullopt;
    }
    const double sin_alpha = std::sqrt((1.0 - closed.cos_alpha) * (1.0 + closed.cos_alpha));
    const Vec3 r_p = r_across_ * (closed.cos_alpha * closed.across_K +
                                  branch_ * sin_alpha * n_.cross(closed.across_K));
    const Vec3 r0_p = r0_ - r_along_ * n_;
    const double scale = r_across_ * r_across_;
    Pose pose;
    pose.lower_ball_K = closed.lower_ball_K;
    pose.upper_ball_K = O_ + r_along_ * n_ + r_p;
    pose.cos_turned = r0_p.dot(r_p) / scale;
    pose.sin_turned = n_.dot(r0_p.cross(r_p)) / scale;
    const Vec3 q_along = q0_.dot(n_) * n_;
    const Vec3 q_across = q0_ - q_along;
    pose.roller_K =
        O_ + q_along + pose.cos_turned * q_across + pose.sin_turned * n_.cross(q_across);
    return pose;
}

// Along the rod both balls move alike: û·(dB/ds - a) = 0 with û the rod's direction, and
// dB/ds = φ'·t with t = n × r. Hence φ' = (û·a)/(û·t).
PoseRates Linkage::rates(const Pose& pose) const {
    const Vec3 rod = pose.upper_ball_K - pose.lower_ball_K;
    const Vec3 t = n_.cross(pose.upper_ball_K - O_);
    const double turned = rod.dot(a_) / rod.dot(t);
    return {turned * t, turned};
}

// Differentiated once more, with w = B - P and B'' = φ''·t - φ'²·r_p:
// |w'|² + w·(B'' - P'') = 0, hence φ'' = (w·(P'' + φ'²·r_p) - |w'|²)/(w·t).
RockerTurning Linkage::turning(const Pose& pose, const Vec3& lower_velocity_K,
                               const Vec3& lower_acceleration_K) const {
    const Vec3 rod = pose.upper_ball_K - pose.lower_ball_K;
    const Vec3 r_p = pose.upper_ball_K - O_ - r_along_ * n_;
    const Vec3 t = n_.cross(r_p);
    const double arm = rod.dot(t);
    const double velocity = rod.dot(lower_velocity_K) / arm;
    const Vec3 swing = velocity * t - lower_velocity_K;
    const double acceleration =
        (rod.dot(lower_acceleration_K + velocity * velocity * r_p) - swing.squaredNorm()) / arm;
    return {velocity, acceleration};
}

std::optional<Linkage::Trouble> Linkage::first_trouble(double full_lift_mm) const {
    constexpr double narrow_mm = 1e-6;
    double clear_to = 0.0;
    double step = full_lift_mm;
    while (clear_to < full_lift_mm) {
        const double to = std::min(full_lift_mm, clear_to + step);
        if (corner_range(clear_to, to).closes()) {
            clear_to = to;
            step *= 2.0;
        } else if (to - clear_to > narrow_mm) {
            step = (to - clear_to) / 2.0;
        } else {
            const TrainStatus status = status_at(to);
            // Within a millionth of a millimetre of trouble is trouble.
            return Trouble{status == TrainStatus::answered ? TrainStatus::near_dead_point : status,
                           clear_to};
        }
    }
    return std::nullopt;
}

// Derivation of the bounds. Write û for the rod's direction, t = n × r, and m = û·t, the rod's
// moment arm about the shaft. Then |m| = |d_p|·|r_p|·sin α / L, so that a least |d_p| and a
// greatest |cos α| over the interval (both from quadratics in s) give a least moment arm m₀ > 0,
// and
//   |φ'|  = |û·a|/|m| ≤ 1/m₀,                            since |û·a| ≤ 1
//   |B'|  = |φ'|·|r_p|.
// Differentiating û·(B' - a) = 0, with û' = (B' - a)/L and B'' = φ''·t - φ'²·r_p:
//   φ''   = (φ'²·û·r_p - |B' - a|²/L)/m,   |û·r_p| ≤ √(|r_p|² - m₀²)
//   |B''| = |r_p|·√(φ''² + φ'⁴).
// B' - a is bounded first by 1 + |B'|, then by its value at the nearer end of the interval, at most
// half the interval away, plus |B''| times that; the sharper bound then sharpens B''.
Linkage::CornerRange Linkage::corner_range(double from_mm, double to_mm) const {
    const Vec3 d0 = P0_ - O_;
    const double a_along = a_.dot(n_);
    const double d0_along = d0.dot(n_);
    const Vec3 a_p = a_ - a_along * n_;
    const Vec3 d0_p = d0 - d0_along * n_;
    const Range d_squared =
        quadratic_range(a_p.squaredNorm(), 2.0 * d0_p.dot(a_p), d0_p.squaredNorm(), from_mm, to_mm);
    const double d_least = std::sqrt(std::max(0.0, d_squared.low));
    const double r_squared = r_along_ * r_along_ + r_across_ * r_across_;
    const Range numerator = quadratic_range(
        a_.squaredNorm(), 2.0 * (d0.dot(a_) - r_along_ * a_along),
        d0.squaredNorm() + r_squared - L_ * L_ - 2.0 * d0_along * r_along_, from_mm, to_mm);
    const double cos_greatest =
        std::max(std::abs(numerator.low), std::abs(numerator.high)) / (2.0 * d_least * r_across_);
    return {d_least, (1.0 - cos_greatest) * (1.0 + cos_greatest)};
}

std::optional<RateBounds> Linkage::bounds(double from_mm, double to_mm,
                                          double swing_at_ends) const {
    const CornerRange range = corner_range(from_mm, to_mm);
    if (!range.closes()) {
        return std::nullopt;
    }
    const double d_least = range.d_least;
    const double sin_least_squared = range.sin_least_squared;
    const double arm = d_least * r_across_ * std::sqrt(sin_least_squared) / L_;

    const double turning = 1.0 / arm;
    const double beside_arm = std::sqrt(std::max(0.0, r_across_ * r_across_ - arm * arm));
    const auto curving = [&](double swing) {
        const double turning_change = (turning * turning * beside_arm + swing * swing / L_) / arm;
        const double turning_squared = turning * turning;
        return r_across_ *
               std::sqrt(turning_change * turning_change + turning_squared * turning_squared);
    };
    RateBounds bounds;
    bounds.upper_ball_speed = turning * r_across_;
    const double rough_swing = 1.0 + bounds.upper_ball_speed;
    const double half = (to_mm - from_mm) / 2.0;
    bounds.swing_speed = std::min(rough_swing, swing_at_ends + curving(rough_swing) * half);
    bounds.upper_ball_curving_per_mm = curving(bounds.swing_speed);
    return bounds;
}

double Linkage::gross_lift_mm(const Pose& pose) const {
    return -v_.dot(pose.roller_K - (O_ + q0_));
}

double Linkage::valve_lift_mm(const Pose& pose) const {
    return std::max(0.0, gross_lift_mm(pose) - lash_mm_);
}

} // namespace rodway
