#include "core/valvetrain/train_motion.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace rodway {
namespace {

/// Between two unit vectors, without the loss of digits of an arc cosine near zero.
double angle_between(const Vec3& a, const Vec3& b) {
    return std::atan2(a.cross(b).norm(), a.dot(b));
}

Vec3 turned(const Vec3& vector, const Vec3& axis, const Pose& pose) {
    const Vec3 along = vector.dot(axis) * axis;
    const Vec3 beside = vector - along;
    return along + pose.cos_turned * beside + pose.sin_turned * axis.cross(beside);
}

/// Across the valve's tip, in the plane of the rocker's swing, away from the pivot; zero if the
/// rocker's axis lies along the valve.
Vec3 across_tip(const Linkage& linkage) {
    const Vec3 square = linkage.shaft_axis_K().cross(linkage.valve_axis_K());
    const double size = square.norm();
    if (!(size > 1e-9)) {
        return Vec3::Zero();
    }
    return (square.dot(linkage.tip_arm_K()) < 0.0 ? -1.0 : 1.0) / size * square;
}

double sweep_at(const Train& train, const Linkage& linkage, const Pose& pose) {
    const Vec3 zero =
        train.valve.tip_K ? *train.valve.tip_K : Vec3(linkage.pivot_K() + linkage.tip_arm_K());
    return across_tip(linkage).dot(pose.roller_K - zero);
}

/// Root of a function over [low, high] whose ends differ in sign.
double bisect(double low, double high, const std::function<double(double)>& value) {
    const bool rising = value(high) > 0.0;
    while (high - low > 1e-12) {
        const double middle = (low + high) / 2.0;
        if (middle <= low || middle >= high) {
            break;
        }
        ((value(middle) > 0.0) == rising ? high : low) = middle;
    }
    return (low + high) / 2.0;
}

/// Lobe lift at which the contact turns back: its speed across the tip changes sign. The contact
/// runs along one circle, less than half a turn of it, so there is one such lift at most.
std::optional<double> turning_back(const Linkage& linkage, double full_lift_mm) {
    const Vec3 across = across_tip(linkage);
    const auto speed = [&](double s) {
        const Pose pose = *linkage.at(s);
        const Vec3 tip = pose.roller_K - linkage.pivot_K();
        return across.dot(linkage.shaft_axis_K().cross(tip)) *
               linkage.rates(pose).turned_rad_per_mm;
    };
    if (speed(0.0) * speed(full_lift_mm) >= 0.0) {
        return std::nullopt;
    }
    return bisect(0.0, full_lift_mm, speed);
}

Sweep sweep_of(const Train& train, const Linkage& linkage, double full_lift_mm) {
    const auto place = [&](double s) { return sweep_at(train, linkage, *linkage.at(s)); };
    const auto net = [&](double s) { return linkage.valve_lift_mm(*linkage.at(s)); };
    Sweep sweep;
    sweep.on_heel_mm = place(0.0);
    sweep.at_full_lift_mm = place(full_lift_mm);
    sweep.from_mm = std::min(sweep.on_heel_mm, sweep.at_full_lift_mm);
    sweep.to_mm = std::max(sweep.on_heel_mm, sweep.at_full_lift_mm);
    std::vector<double> parts{0.0};
    if (const auto back = turning_back(linkage, full_lift_mm)) {
        sweep.turns_back_at_net_lift_mm = net(*back);
        sweep.from_mm = std::min(sweep.from_mm, place(*back));
        sweep.to_mm = std::max(sweep.to_mm, place(*back));
        parts.push_back(*back);
    }
    parts.push_back(full_lift_mm);
    if (train.valve.tip_K) {
        for (std::size_t part = 1; part < parts.size(); ++part) {
            if (place(parts[part - 1]) * place(parts[part]) < 0.0) {
                sweep.centred_at_net_lift_mm = net(bisect(parts[part - 1], parts[part], place));
                break;
            }
        }
    }
    return sweep;
}

} // namespace

std::optional<TrainAtLift> train_at_lift(const Train& train, const Linkage& linkage,
                                         double lobe_lift_mm) {
    const auto pose = linkage.at(lobe_lift_mm);
    if (!pose) {
        return std::nullopt;
    }
    const PoseRates rates = linkage.rates(*pose);
    const Vec3& n = linkage.shaft_axis_K();
    const Vec3 rod = (pose->upper_ball_K - pose->lower_ball_K) / linkage.rod_length_mm();
    const Vec3 tip_speed = rates.turned_rad_per_mm * n.cross(pose->roller_K - linkage.pivot_K());
    TrainAtLift at;
    at.lobe_lift_mm = lobe_lift_mm;
    at.gross_lift_mm = linkage.gross_lift_mm(*pose);
    at.net_lift_mm = linkage.valve_lift_mm(*pose);
    at.gross_ratio = -linkage.valve_axis_K().dot(tip_speed);
    if (at.net_lift_mm > 0.0) {
        at.net_ratio = at.gross_ratio;
    }
    const Vec3 heel_rod =
        (linkage.pivot_K() + linkage.ball_arm_K() - linkage.at(0.0)->lower_ball_K) /
        linkage.rod_length_mm();
    const Vec3 cup_axis =
        train.adjuster.kind == AdjusterKind::screw ? Vec3(-train.adjuster.axis_K) : heel_rod;
    at.rod_to_adjuster_rad = angle_between(rod, turned(cup_axis, n, *pose));
    at.rod_to_lifter_rad = angle_between(rod, linkage.lifter_axis_K());
    at.side_share = rod.dot(n);
    at.sweep_mm = sweep_at(train, linkage, *pose);
    return at;
}

TrainMotion train_motion(const Train& train, double full_lift_mm) {
    TrainMotion motion;
    const Linkage::Closing closing = Linkage::close(train);
    motion.status = closing.status;
    motion.adjuster_needed_mm = closing.adjuster_needed_mm;
    if (!closing.linkage) {
        if (closing.status != TrainStatus::outside_domain) {
            motion.trouble_at_mm = 0.0;
        }
        return motion;
    }
    if (!(full_lift_mm > 0.0) || !std::isfinite(full_lift_mm)) {
        motion.status = TrainStatus::outside_domain;
        return motion;
    }
    const Linkage& linkage = *closing.linkage;
    if (const auto trouble = linkage.first_trouble(full_lift_mm)) {
        motion.status = trouble->status;
        motion.trouble_at_mm = trouble->lobe_lift_mm;
        return motion;
    }
    motion.on_heel = train_at_lift(train, linkage, 0.0);
    motion.half_lift = train_at_lift(train, linkage, full_lift_mm / 2.0);
    motion.full_lift = train_at_lift(train, linkage, full_lift_mm);
    motion.sweep = sweep_of(train, linkage, full_lift_mm);
    motion.adjuster_in_mm = linkage.adjuster_in_mm();
    motion.preload_mm = linkage.preload_mm();
    motion.lash_mm = linkage.lash_mm();
    const Pose full = *linkage.at(full_lift_mm);
    motion.rocker_swing_rad = std::abs(std::atan2(full.sin_turned, full.cos_turned));
    motion.steepest_rod_to_adjuster_rad =
        std::max({motion.on_heel->rod_to_adjuster_rad, motion.half_lift->rod_to_adjuster_rad,
                  motion.full_lift->rod_to_adjuster_rad});
    if (train.adjuster.cup_limit_rad) {
        motion.cup_room_rad = *train.adjuster.cup_limit_rad - motion.steepest_rod_to_adjuster_rad;
    }
    return motion;
}

std::optional<double> lobe_lift_at_valve_lift(const Linkage& linkage, double net_lift_mm,
                                              double full_lobe_lift_mm) {
    const double gross = net_lift_mm + linkage.lash_mm();
    const auto above = [&](double s) {
        const auto pose = linkage.at(s);
        return pose ? linkage.gross_lift_mm(*pose) - gross : -1.0;
    };
    if (!(net_lift_mm >= 0.0) || !(above(full_lobe_lift_mm) >= 0.0)) {
        return std::nullopt;
    }
    if (above(0.0) >= 0.0) {
        return 0.0;
    }
    return bisect(0.0, full_lobe_lift_mm, above);
}

} // namespace rodway
