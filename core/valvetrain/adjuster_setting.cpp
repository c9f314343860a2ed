#include "core/valvetrain/adjuster_setting.h"

#include <algorithm>
#include <cmath>

#include "core/valvetrain/train_check.h"

namespace rodway {
namespace {

/// A tip arm that stands square to the valve by less than this can't be followed.
constexpr double least_sin_tip = 0.02;

/// How far along `way` a point must go from `w` so that it is `length` from the origin: the smaller
/// move of the two that fit, on the side that `way` points away from. Empty if no point fits.
std::optional<double> reach(const Vec3& w, const Vec3& way, double length) {
    // x² + 2·along·x + |w|² - L² = 0.
    const double along = w.dot(way);
    const double beside_squared = w.squaredNorm() - along * along;
    const double reach_squared = length * length - beside_squared;
    if (!(reach_squared >= 0.0)) {
        return std::nullopt;
    }
    const double root = std::sqrt(reach_squared);
    // Whichever keeps the two ends on the side where they are, without losing digits.
    const double far_from_zero = along < 0.0 ? -along + root : -along - root;
    const double product = w.squaredNorm() - length * length;
    return far_from_zero == 0.0 ? 0.0 : product / far_from_zero;
}

Setting as_found(const Train& train) {
    Setting setting;
    setting.pivot_K = train.rocker.pivot_K;
    setting.lower_ball_K = train.lifter.lower_ball_K();
    setting.ball_arm_K = train.rocker.ball_arm_K;
    setting.tip_arm_K = train.rocker.tip_arm_K;
    setting.preload_mm = train.lifter.preload_mm;
    setting.lash_mm = train.valve.lash_mm;
    return setting;
}

Setting failed(TrainStatus status, std::optional<double> needed_mm = {}) {
    Setting setting;
    setting.status = status;
    setting.needed_mm = needed_mm;
    return setting;
}

Vec3 turned(const Vec3& vector, const Vec3& axis, double cosine, double sine) {
    const Vec3 along = vector.dot(axis) * axis;
    const Vec3 beside = vector - along;
    return along + cosine * beside + sine * axis.cross(beside);
}

/// Rod's length with the nut so far in; empty where the tip can't follow.
std::optional<double> length_with_nut(const Train& train, double in_mm) {
    const auto stud = stud_standing(train, in_mm);
    if (!stud) {
        return std::nullopt;
    }
    return (stud->pivot_K + stud->ball_arm_K - train.lifter.lower_ball_K()).norm();
}

/// Where, between two ends, the nut leaves exactly the rod's length: bisection.
double nut_between(const Train& train, double low, double high) {
    const bool low_is_longer = *length_with_nut(train, low) > train.rod.length_mm;
    for (int halving = 0; halving < 200; ++halving) {
        const double middle = (low + high) / 2.0;
        if (middle == low || middle == high) {
            break;
        }
        const auto length = length_with_nut(train, middle);
        if (!length) {
            break;
        }
        ((*length > train.rod.length_mm) == low_is_longer ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

/// The root nearest to where the nut was found, within `in` and `out`.
std::optional<double> nearest_nut(const Train& train, double out_mm, double in_mm) {
    constexpr int looks = 48;
    const auto differs = [&](double x) -> std::optional<double> {
        const auto length = length_with_nut(train, x);
        return length ? std::optional(*length - train.rod.length_mm) : std::nullopt;
    };
    const auto here = differs(0.0);
    if (!here) {
        return std::nullopt;
    }
    if (*here == 0.0) {
        return 0.0;
    }
    std::optional<double> ends[2] = {here, here};
    const double reach_mm[2] = {in_mm, -out_mm};
    for (int look = 1; look <= looks; ++look) {
        for (int side = 0; side < 2; ++side) {
            if (!ends[side]) {
                continue; // the tip could follow no farther this way
            }
            const double before = reach_mm[side] * (look - 1) / looks;
            const double now = reach_mm[side] * look / looks;
            const auto there = differs(now);
            if (there && (*there > 0.0) != (*ends[side] > 0.0)) {
                return nut_between(train, before, now);
            }
            ends[side] = there;
        }
    }
    return std::nullopt;
}

/// Gap at the valve after the rocker has turned to meet the rod: lash less gross lift.
std::optional<double> gap_at(const Train& train, const Vec3& pivot_K, const Vec3& ball_arm_K,
                             const Vec3& tip_arm_K, Setting* rested) {
    // Closing |P - (O + Rot(φ)·r)| = L about the axis, the branch kept from how the arm stands.
    const Vec3& n = train.rocker.axis_K;
    const Vec3 P = train.lifter.lower_ball_K();
    const Vec3 d = P - pivot_K;
    const double d_along = d.dot(n);
    const double r_along = ball_arm_K.dot(n);
    const Vec3 d_p = d - d_along * n;
    const Vec3 r_p = ball_arm_K - r_along * n;
    const double across = d_p.norm() * r_p.norm();
    const double L = train.rod.length_mm;
    const double cosine =
        (d.squaredNorm() + ball_arm_K.squaredNorm() - L * L - 2.0 * d_along * r_along) /
        (2.0 * across);
    if (!(std::abs(cosine) <= 1.0)) {
        return std::nullopt;
    }
    const double branch = n.dot(d_p.cross(r_p)) < 0.0 ? -1.0 : 1.0;
    const double sine = branch * std::sqrt((1.0 - cosine) * (1.0 + cosine));
    const Vec3 unit = d_p / d_p.norm();
    const Vec3 r_now = r_p.norm() * (cosine * unit + sine * n.cross(unit));
    const double scale = r_p.squaredNorm();
    const double cos_turned = r_p.dot(r_now) / scale;
    const double sin_turned = n.dot(r_p.cross(r_now)) / scale;
    const Vec3 tip_now = turned(tip_arm_K, n, cos_turned, sin_turned);
    if (rested) {
        rested->ball_arm_K = r_along * n + r_now;
        rested->tip_arm_K = tip_now;
    }
    const Vec3 tip_found = train.rocker.pivot_K + train.rocker.tip_arm_K;
    return train.valve.lash_mm + train.valve.axis_K.dot(pivot_K + tip_now - tip_found);
}

} // namespace

Setting set_screw(const Train& train) {
    Setting setting = as_found(train);
    const Vec3& j = train.adjuster.axis_K;
    const auto in = reach(train.rocker.pivot_K + train.rocker.ball_arm_K - setting.lower_ball_K, j,
                          train.rod.length_mm);
    if (!in) {
        return failed(TrainStatus::rod_too_short);
    }
    if (*in > train.adjuster.can_go_in_mm || *in < -train.adjuster.can_go_out_mm) {
        return failed(TrainStatus::adjuster_out_of_thread, in);
    }
    setting.adjuster_in_mm = *in;
    setting.ball_arm_K = train.rocker.ball_arm_K + *in * j;
    return setting;
}

Setting set_nut(const Train& train) {
    Setting setting = as_found(train);
    constexpr double far_mm = 25.0;
    const auto in = nearest_nut(train, train.adjuster.can_go_out_mm, train.adjuster.can_go_in_mm);
    if (!in) {
        const auto needed = nearest_nut(train, far_mm, far_mm);
        return needed ? failed(TrainStatus::adjuster_out_of_thread, needed)
                      : failed(TrainStatus::adjuster_out_of_thread);
    }
    const auto stud = stud_standing(train, *in);
    setting.adjuster_in_mm = *in;
    setting.pivot_K = stud->pivot_K;
    setting.ball_arm_K = stud->ball_arm_K;
    setting.tip_arm_K = stud->tip_arm_K;
    return setting;
}

Setting set_plunger(const Train& train) {
    Setting setting = as_found(train);
    const Vec3 stopped = train.lifter.foot_K + train.lifter.seat_height_mm * train.lifter.axis_K;
    const Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
    const auto deep = reach(upper - stopped, train.lifter.axis_K, train.rod.length_mm);
    if (!deep) {
        return failed(TrainStatus::rod_too_short);
    }
    if (*deep < 0.0 || *deep > train.lifter.plunger_travel_mm) {
        return failed(TrainStatus::plunger_out_of_travel, deep);
    }
    setting.preload_mm = *deep;
    setting.lower_ball_K = stopped - *deep * train.lifter.axis_K;
    return setting;
}

Setting set_nothing(const Train& train) {
    Setting setting = as_found(train);
    const auto gap = gap_at(train, train.rocker.pivot_K, train.rocker.ball_arm_K,
                            train.rocker.tip_arm_K, &setting);
    if (!gap) {
        const double apart =
            (train.rocker.pivot_K + train.rocker.ball_arm_K - setting.lower_ball_K).norm();
        return failed(train.rod.length_mm < apart ? TrainStatus::rod_too_short
                                                  : TrainStatus::rod_too_long);
    }
    if (*gap < 0.0) {
        return failed(TrainStatus::rod_too_long);
    }
    setting.lash_mm = *gap;
    return setting;
}

std::optional<StudStanding> stud_standing(const Train& train, double in_mm) {
    const Vec3& n = train.rocker.axis_K;
    const Vec3& v = train.valve.axis_K;
    const Vec3& q0 = train.rocker.tip_arm_K;
    const Vec3 q_p = q0 - q0.dot(n) * n;
    // v·Rot(φ)·q_p = cosine_part·cos φ + sine_part·sin φ must grow by -x·(v·t).
    const double cosine_part = v.dot(q_p);
    const double sine_part = v.dot(n.cross(q_p));
    const double size = std::hypot(cosine_part, sine_part);
    if (!(size > 0.0) || std::abs(sine_part) < least_sin_tip * size) {
        return std::nullopt;
    }
    const double wanted = (cosine_part - in_mm * v.dot(train.adjuster.axis_K)) / size;
    const double left_squared = (1.0 - wanted) * (1.0 + wanted);
    if (!(left_squared >= least_sin_tip * least_sin_tip)) {
        return std::nullopt;
    }
    // φ = φ0 + β, with cos φ0 = cosine_part/size and sin φ0 = sine_part/size, cos β = wanted; at
    // x = 0 the angle is zero, so sin β has the sign of -sine_part.
    const double sine_left = -std::copysign(std::sqrt(left_squared), sine_part);
    StudStanding stud{};
    stud.cos_turned = (wanted * cosine_part - sine_left * sine_part) / size;
    stud.sin_turned = (sine_left * cosine_part + wanted * sine_part) / size;
    stud.pivot_K = train.rocker.pivot_K + in_mm * train.adjuster.axis_K;
    stud.ball_arm_K = turned(train.rocker.ball_arm_K, n, stud.cos_turned, stud.sin_turned);
    stud.tip_arm_K = turned(q0, n, stud.cos_turned, stud.sin_turned);
    return stud;
}

AdjusterTurned turn_adjuster(const Train& train, double in_mm) {
    AdjusterTurned result;
    const auto fail = [&](TrainStatus status) {
        result.status = status;
        return result;
    };
    if (train.adjuster.kind == AdjusterKind::none || !std::isfinite(in_mm)) {
        return fail(TrainStatus::outside_domain);
    }
    const Linkage::Closing closing = Linkage::close(train);
    if (!closing.linkage) {
        return fail(closing.status);
    }
    const double in = closing.linkage->adjuster_in_mm() + in_mm;
    if (in > train.adjuster.can_go_in_mm || in < -train.adjuster.can_go_out_mm) {
        return fail(TrainStatus::adjuster_out_of_thread);
    }
    Vec3 pivot = train.rocker.pivot_K;
    Vec3 ball_arm = train.rocker.ball_arm_K;
    Vec3 tip_arm = train.rocker.tip_arm_K;
    if (train.adjuster.kind == AdjusterKind::screw) {
        ball_arm += in * train.adjuster.axis_K;
    } else {
        const auto stud = stud_standing(train, in);
        if (!stud) {
            return fail(TrainStatus::near_dead_point);
        }
        pivot = stud->pivot_K;
        ball_arm = stud->ball_arm_K;
        tip_arm = stud->tip_arm_K;
    }
    if (train.lifter.kind == LifterKind::hydraulic) {
        // The tip stays on the valve; the plunger gives way.
        const Vec3 stopped =
            train.lifter.foot_K + train.lifter.seat_height_mm * train.lifter.axis_K;
        result.preload_mm =
            reach(pivot + ball_arm - stopped, train.lifter.axis_K, train.rod.length_mm);
        return result.preload_mm ? result : fail(TrainStatus::rod_too_short);
    }
    result.lash_mm = gap_at(train, pivot, ball_arm, tip_arm, nullptr);
    return result.lash_mm ? result : fail(TrainStatus::rod_too_long);
}

std::optional<RodLengths> rod_lengths(const Train& train) {
    if (!can_be_worked_out(train)) {
        return std::nullopt;
    }
    const Vec3 lower = train.lifter.lower_ball_K();
    const Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
    RodLengths lengths;
    lengths.as_found_mm = (upper - lower).norm();
    if (train.adjuster.kind == AdjusterKind::screw) {
        const Vec3& j = train.adjuster.axis_K;
        lengths.shortest_mm = (upper + train.adjuster.can_go_in_mm * j - lower).norm();
        lengths.longest_mm = (upper - train.adjuster.can_go_out_mm * j - lower).norm();
    } else if (train.adjuster.kind == AdjusterKind::nut) {
        const auto shortest = length_with_nut(train, train.adjuster.can_go_in_mm);
        const auto longest = length_with_nut(train, -train.adjuster.can_go_out_mm);
        if (!shortest || !longest) {
            return std::nullopt;
        }
        lengths.shortest_mm = *shortest;
        lengths.longest_mm = *longest;
    } else if (train.lifter.kind == LifterKind::hydraulic) {
        const Vec3 stopped =
            train.lifter.foot_K + train.lifter.seat_height_mm * train.lifter.axis_K;
        lengths.shortest_mm = (upper - stopped).norm();
        lengths.longest_mm =
            (upper - stopped + train.lifter.plunger_travel_mm * train.lifter.axis_K).norm();
    } else {
        lengths.shortest_mm = lengths.longest_mm = lengths.as_found_mm;
    }
    return lengths;
}

} // namespace rodway
