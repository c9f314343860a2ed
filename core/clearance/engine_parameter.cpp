#include "core/clearance/engine_parameter.h"

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "core/valvetrain/adjuster_setting.h"

namespace rodway {
namespace {

/// A tip arm that stands square to the valve by less than this can't follow it.
constexpr double least_sin_tip = 0.02;

/// Turns a rocker with all that is fixed to it, on its pivot.
void turn_rocker(Train& train, const Eigen::Matrix3d& turn) {
    train.rocker.ball_arm_K = turn * train.rocker.ball_arm_K;
    train.rocker.tip_arm_K = turn * train.rocker.tip_arm_K;
    if (train.adjuster.kind == AdjusterKind::screw) {
        train.adjuster.axis_K = (turn * train.adjuster.axis_K).normalized();
    }
    if (train.rocker.body_K) {
        train.rocker.body_K->from_K = turn * train.rocker.body_K->from_K;
        train.rocker.body_K->to_K = turn * train.rocker.body_K->to_K;
    }
}

/// Turns the rocker on the heel until its tip stands at `tip_along_valve_mm`. False if it can't.
bool lay_tip(Train& train, double tip_along_valve_mm) {
    const Vec3& n = train.rocker.axis_K;
    const Vec3& v = train.valve.axis_K;
    const Vec3& q = train.rocker.tip_arm_K;
    const Vec3 q_across = q - q.dot(n) * n;
    // cosine_part·cos ψ + sine_part·sin ψ must be `wanted`; the root near zero is the one.
    const double cosine_part = v.dot(q_across);
    const double sine_part = v.dot(n.cross(q_across));
    const double size = std::hypot(cosine_part, sine_part);
    if (!(std::abs(sine_part) >= least_sin_tip * size) || !(size > 0.0)) {
        return false;
    }
    const double rise = tip_along_valve_mm - v.dot(train.rocker.pivot_K + q);
    if (rise == 0.0) {
        return true;
    }
    const double wanted = (cosine_part + rise) / size;
    if (!(std::abs(wanted) < 1.0)) {
        return false;
    }
    const double left = -std::copysign(std::sqrt((1.0 - wanted) * (1.0 + wanted)), sine_part);
    const double cosine = (wanted * cosine_part - left * sine_part) / size;
    const double sine = (left * cosine_part + wanted * sine_part) / size;
    turn_rocker(train, Eigen::AngleAxisd(std::atan2(sine, cosine), n).toRotationMatrix());
    return true;
}

double tip_along_valve_mm(const Train& train) {
    return train.valve.axis_K.dot(train.rocker.pivot_K + train.rocker.tip_arm_K);
}

bool change_lifter(Train& train, ParameterKind kind, double delta, double outboard_y_sign) {
    Lifter& lifter = train.lifter;
    const AcrossAxis across = across_axis(lifter.axis_K, outboard_y_sign);
    const auto lean = [&](const Vec3& way) {
        lifter.axis_K = Eigen::AngleAxisd(delta, lifter.axis_K.cross(way)) * lifter.axis_K;
        lifter.axis_K.normalize();
    };
    switch (kind) {
        case ParameterKind::lifter_height:
            lifter.seat_height_mm += delta;
            return true;
        case ParameterKind::lifter_rearward:
            lifter.foot_K += delta * across.rearward_K;
            return true;
        case ParameterKind::lifter_outboard:
            lifter.foot_K += delta * across.outboard_K;
            return true;
        case ParameterKind::lifter_lean_rearward:
            lean(across.rearward_K);
            return true;
        case ParameterKind::lifter_lean_outboard:
            lean(across.outboard_K);
            return true;
        case ParameterKind::base_circle:
            lifter.foot_K += delta * lifter.axis_K;
            return true;
        default:
            return false;
    }
}

bool change_rod(Train& train, ParameterKind kind, double delta) {
    if (kind == ParameterKind::rod_length) {
        std::vector<RodSection>& profile = train.rod.profile;
        const bool to_the_end = !profile.empty() && profile.back().to_mm >= train.rod.length_mm;
        train.rod.length_mm += delta;
        if (to_the_end && profile.back().to_mm < train.rod.length_mm) {
            const RodSection last = profile.back(); // the new piece is as thick as the old end
            profile.push_back(
                {last.to_mm, train.rod.length_mm, last.diameter_to_mm, last.diameter_to_mm});
        }
        return true;
    }
    if (kind == ParameterKind::rod_diameter) {
        train.rod.diameter_mm += delta;
        for (RodSection& section : train.rod.profile) {
            section.diameter_from_mm += delta;
            section.diameter_to_mm += delta;
        }
        return true;
    }
    return false;
}

/// Pivot, arms and lash: the tip follows the valve.
bool change_rocker(Train& train, ParameterKind kind, double delta, double outboard_y_sign) {
    double tip_mm = tip_along_valve_mm(train);
    Rocker& rocker = train.rocker;
    switch (kind) {
        case ParameterKind::pivot_height:
            rocker.pivot_K.z() += delta;
            break;
        case ParameterKind::pivot_outboard:
            rocker.pivot_K.y() += outboard_y_sign * delta;
            break;
        case ParameterKind::pivot_rearward:
            rocker.pivot_K.x() += delta;
            break;
        case ParameterKind::tip_arm_length:
            rocker.tip_arm_K += delta * unit_across(rocker.tip_arm_K, rocker.axis_K);
            break;
        case ParameterKind::ball_arm_length:
            rocker.ball_arm_K += delta * unit_across(rocker.ball_arm_K, rocker.axis_K);
            return true;
        case ParameterKind::shaft_tilt_up:
        case ParameterKind::shaft_tilt_outboard: {
            const Vec3 about = shaft_lean_K(rocker, kind, outboard_y_sign);
            if (about.isZero()) {
                return false;
            }
            const Eigen::Matrix3d lean = Eigen::AngleAxisd(delta, about).toRotationMatrix();
            rocker.axis_K = (lean * rocker.axis_K).normalized();
            turn_rocker(train, lean);
            break;
        }
        case ParameterKind::lash:
            if (train.lifter.kind == LifterKind::hydraulic) {
                return false;
            }
            train.valve.lash_mm += delta;
            tip_mm += delta;
            break;
        default:
            return false;
    }
    return lay_tip(train, tip_mm);
}

/// Turned in from where the lash is set, the train stands as one with another lash, or preload.
bool turn_in(Train& train, double delta) {
    const AdjusterTurned turned = turn_adjuster(train, delta);
    if (turned.preload_mm) {
        train.lifter.preload_mm = *turned.preload_mm;
        return true;
    }
    if (!turned.lash_mm) {
        return false;
    }
    const double grown = *turned.lash_mm - train.valve.lash_mm;
    train.valve.lash_mm += grown;
    return lay_tip(train, tip_along_valve_mm(train) + grown);
}

bool change_passage(Bore& bore, ParameterKind kind, double delta, double outboard_y_sign) {
    const AcrossAxis across = across_axis(bore.axis_K, outboard_y_sign);
    const auto lean = [&](const Vec3& way) {
        const Eigen::AngleAxisd turn(delta, bore.axis_K.cross(way));
        bore.axis_K = (turn * bore.axis_K).normalized();
        bore.long_way_K = (turn * bore.long_way_K).normalized();
    };
    switch (kind) {
        case ParameterKind::passage_rearward:
            bore.centre_K += delta * across.rearward_K;
            return true;
        case ParameterKind::passage_outboard:
            bore.centre_K += delta * across.outboard_K;
            return true;
        case ParameterKind::passage_slide:
            bore.centre_K += delta * bore.axis_K;
            return true;
        case ParameterKind::passage_lean_rearward:
            lean(across.rearward_K);
            return true;
        case ParameterKind::passage_lean_outboard:
            lean(across.outboard_K);
            return true;
        case ParameterKind::passage_bore:
            bore.bore_radius_mm += delta / 2.0;
            return true;
        default:
            return false;
    }
}

void move_solid(Solid& solid, const Vec3& by_K) {
    std::visit(
        [&](auto& shape) {
            using Shape = std::decay_t<decltype(shape)>;
            if constexpr (std::is_same_v<Shape, HalfSpace>) {
                shape.point_K += by_K;
            } else if constexpr (std::is_same_v<Shape, Cuboid>) {
                shape.centre_K += by_K;
            } else {
                shape.from_K += by_K;
                shape.to_K += by_K;
            }
        },
        solid);
}

bool move_obstacle(Engine& engine, const EngineParameter& parameter, double delta) {
    const auto found =
        std::find_if(engine.obstacles.begin(), engine.obstacles.end(),
                     [&](const Obstacle& obstacle) { return obstacle.name == parameter.thing; });
    if (found == engine.obstacles.end()) {
        return false;
    }
    move_solid(found->solid, delta * parameter.direction_K);
    return true;
}

bool thicken_intake_gasket(Engine& engine, std::size_t bank, double delta) {
    if (bank >= engine.flanges.size() || !engine.flanges[bank]) {
        return false;
    }
    engine.flanges[bank]->gasket_mm += delta;
    return true;
}

bool thicken_head_gasket(Engine& engine, std::size_t bank, double delta) {
    if (bank >= engine.layout.banks.size()) {
        return false;
    }
    HeadSetting head = engine.heads.of(bank);
    head.gasket_mm += delta;
    engine.set_head(bank, head);
    return true;
}

/// What belongs to one train, and the lobe that works it.
bool change_train(Engine& engine, Train& train, const EngineParameter& parameter, double delta) {
    const double outboard = engine.outboard_y_sign(train);
    if (train.tube.name == parameter.thing &&
        change_passage(train.tube.bore, parameter.kind, delta, outboard)) {
        return true;
    }
    for (Passage& passage : train.further_passages) {
        if (passage.name == parameter.thing &&
            change_passage(passage.bore, parameter.kind, delta, outboard)) {
            return true;
        }
    }
    CamLobes lobes = engine.lobes(train.position);
    if (parameter.kind == ParameterKind::lobe_lift) {
        const double factor = 1.0 + delta / lobes.lobe.full_lift_mm();
        if (!(factor > 0.0)) {
            return false;
        }
        lobes.lobe = lobes.lobe.scaled(factor);
        engine.own_lobes.insert_or_assign(train.position, lobes);
        return true;
    }
    const auto changed = with_change(train, parameter.kind, delta, outboard);
    if (!changed) {
        return false;
    }
    if (parameter.kind == ParameterKind::base_circle) {
        lobes.base_circle_radius_mm += delta;
        engine.own_lobes.insert_or_assign(train.position, lobes);
    } else if (changed->valve.lash_mm != train.valve.lash_mm) {
        lobes.lash_mm += changed->valve.lash_mm - train.valve.lash_mm;
        engine.own_lobes.insert_or_assign(train.position, lobes);
    }
    train = *changed;
    return true;
}

} // namespace

Vec3 unit_across(const Vec3& vector_K, const Vec3& axis_K) {
    const Vec3 across = vector_K - vector_K.dot(axis_K) * axis_K;
    const double size = across.norm();
    return size > 1e-9 ? Vec3(across / size) : Vec3(Vec3::Zero());
}

AcrossAxis across_axis(const Vec3& axis_K, double outboard_y_sign) {
    Vec3 rearward = unit_across(Vec3::UnitX(), axis_K);
    if (rearward.isZero()) {
        rearward = axis_K.unitOrthogonal();
    }
    return {rearward, outboard_y_sign * axis_K.cross(rearward)};
}

Vec3 shaft_lean_K(const Rocker& rocker, ParameterKind kind, double outboard_y_sign) {
    const Vec3& n = rocker.axis_K;
    const Vec3 way = kind == ParameterKind::shaft_tilt_up ? Vec3(Vec3::UnitZ())
                                                          : Vec3(outboard_y_sign * Vec3::UnitY());
    const Vec3 rear = n.x() < 0.0 ? Vec3(-n) : n; // whichever way the axis itself points
    return rear.cross(unit_across(way, n));
}

std::optional<Train> with_change(const Train& train, ParameterKind kind, double delta,
                                 double outboard_y_sign) {
    if (!std::isfinite(delta)) {
        return std::nullopt;
    }
    Train changed = train;
    if (kind == ParameterKind::adjuster) {
        return turn_in(changed, delta) ? std::optional(changed) : std::nullopt;
    }
    const bool done = change_lifter(changed, kind, delta, outboard_y_sign) ||
                      change_rod(changed, kind, delta) ||
                      change_rocker(changed, kind, delta, outboard_y_sign);
    return done ? std::optional(changed) : std::nullopt;
}

std::optional<Engine> with_change(const Engine& engine, const EngineParameter& parameter,
                                  double delta) {
    if (!std::isfinite(delta)) {
        return std::nullopt;
    }
    Engine changed = engine;
    bool done = false;
    switch (parameter.kind) {
        case ParameterKind::intake_gasket:
            done = thicken_intake_gasket(changed, parameter.bank, delta);
            break;
        case ParameterKind::head_gasket:
            done = thicken_head_gasket(changed, parameter.bank, delta);
            break;
        case ParameterKind::obstacle_away:
            done = move_obstacle(changed, parameter, delta);
            break;
        default:
            for (Train& train : changed.trains) {
                if (!parameter.valve || *parameter.valve == train.position) {
                    if (!change_train(changed, train, parameter, delta)) {
                        return std::nullopt;
                    }
                    done = true;
                }
            }
    }
    return done ? std::optional(changed) : std::nullopt;
}

} // namespace rodway
