#include "tests/twins/slow_causes.h"

#include <cmath>

#include "core/valvetrain/adjuster_setting.h"
#include "tests/twins/slow_train.h"

namespace rodway::twins {
namespace {

Train& train_of(Engine& engine, const ValvePosition& valve) {
    for (Train& train : engine.trains) {
        if (train.position == valve) {
            return train;
        }
    }
    return engine.trains.front();
}

/// Between ball centres, on the heel with the lash right and the adjuster where it is told to be.
std::optional<double> rod_that_fits_mm(const Train& train, double adjuster_in_mm,
                                       double preload_mm) {
    Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
    Vec3 lower = train.lifter.lower_ball_K();
    if (train.adjuster.kind == AdjusterKind::screw) {
        upper += adjuster_in_mm * train.adjuster.axis_K;
    } else if (train.adjuster.kind == AdjusterKind::nut) {
        const auto stud = stud_standing(train, adjuster_in_mm);
        if (!stud) {
            return std::nullopt;
        }
        upper = stud->pivot_K + stud->ball_arm_K;
    } else if (train.lifter.kind == LifterKind::hydraulic) {
        lower =
            train.lifter.foot_K + (train.lifter.seat_height_mm - preload_mm) * train.lifter.axis_K;
    }
    return (upper - lower).norm();
}

/// The engine with the parameter changed and, if the rod is chosen again, with the new rod.
std::optional<Engine> changed_engine(const Engine& engine, const ValvePosition& valve,
                                     const EngineParameter& parameter, double delta, Held held) {
    const Linkage::Closing before = Linkage::close(*engine.train(valve));
    if (!before.linkage || held == Held::nothing_reset) {
        return std::nullopt;
    }
    const bool rechosen = held == Held::rod_rechosen;
    const bool turned = parameter.kind == ParameterKind::adjuster;
    std::optional<Engine> changed =
        turned && rechosen ? std::optional(engine) : with_change(engine, parameter, delta);
    if (!changed || !rechosen) {
        return changed;
    }
    Train& train = train_of(*changed, valve);
    const auto length =
        rod_that_fits_mm(train, before.linkage->adjuster_in_mm() + (turned ? delta : 0.0),
                         before.linkage->preload_mm());
    if (!length) {
        return std::nullopt;
    }
    train = *with_change(train, ParameterKind::rod_length, *length - train.rod.length_mm, 1.0);
    return changed;
}

std::optional<RodClearance> minimum_of(const Engine& engine, const ValvePosition& valve,
                                       double& full_lift_mm) {
    const auto closed = train_surroundings(engine, *engine.train(valve));
    if (!closed || !closed->surroundings) {
        return std::nullopt;
    }
    full_lift_mm = closed->surroundings->full_lift_mm;
    return deciding(certified_minima(*closed->surroundings)).minimum;
}

int part_of_turn(const RodClearance& found, double full_lift_mm) {
    if (found.lobe_lift_mm <= 0.0) {
        return 0;
    }
    return found.lobe_lift_mm >= full_lift_mm ? 2 : 1;
}

} // namespace

std::optional<double> resolved_minimum_mm(const Engine& engine, const ValvePosition& valve,
                                          const EngineParameter& parameter, double delta,
                                          Held held) {
    double lift_before = 0.0;
    double lift_after = 0.0;
    const auto before = minimum_of(engine, valve, lift_before);
    const auto changed = changed_engine(engine, valve, parameter, delta, held);
    const auto after = changed ? minimum_of(*changed, valve, lift_after) : std::nullopt;
    if (!before || !after || before->feature != after->feature || before->part != after->part ||
        part_of_turn(*before, lift_before) != part_of_turn(*after, lift_after) ||
        (before->p_wall_K - after->p_wall_K).norm() > 1.0) {
        return std::nullopt;
    }
    return after->clearance_mm;
}

std::optional<double> slow_rate(const Engine& engine, const ValvePosition& valve,
                                const EngineParameter& parameter, Held held) {
    const double h = is_angle(parameter.kind) ? 2e-5 : 2e-3;
    const auto at = [&](double delta) {
        return resolved_minimum_mm(engine, valve, parameter, delta, held);
    };
    const auto far_less = at(-2.0 * h);
    const auto less = at(-h);
    const auto more = at(h);
    const auto far_more = at(2.0 * h);
    if (!far_less || !less || !more || !far_more) {
        return std::nullopt;
    }
    return (8.0 * (*more - *less) - (*far_more - *far_less)) / (12.0 * h);
}

std::optional<double> slow_side_rate(const Engine& engine, const ValvePosition& valve,
                                     const EngineParameter& parameter, Held held, double side) {
    constexpr double h = 1e-5;
    double lift = 0.0;
    const auto before = minimum_of(engine, valve, lift);
    const auto changed = changed_engine(engine, valve, parameter, side * h, held);
    const auto after = changed ? minimum_of(*changed, valve, lift) : std::nullopt;
    if (!before || !after) {
        return std::nullopt;
    }
    return side * (after->clearance_mm - before->clearance_mm) / h;
}

double walked_minimum_mm(const Engine& engine, const Train& train) {
    const Vec3 lower = train.lifter.lower_ball_K();
    // The screw by bisection: turned in, it comes nearer to the lifter.
    double out = -8.0;
    double in = 8.0;
    for (int halving = 0; halving < 200; ++halving) {
        const double middle = (out + in) / 2.0;
        const Vec3 upper =
            train.rocker.pivot_K + train.rocker.ball_arm_K + middle * train.adjuster.axis_K;
        ((upper - lower).norm() > train.rod.length_mm ? out : in) = middle;
    }
    const Bore tube = *engine.tube_in_place(train);
    const double full_lift = engine.lobes(train.position).lobe.full_lift_mm();
    const auto clearance = [&](double s) {
        const auto pose = slow_pose(train, in, s);
        return pose ? slow_clearance(tube, pose->lower_ball_K, pose->upper_ball_K,
                                     train.rod.diameter_mm / 2.0)
                    : std::nan("");
    };
    constexpr int looks = 24;
    int best = 0;
    for (int look = 1; look <= looks; ++look) {
        if (clearance(full_lift * look / looks) < clearance(full_lift * best / looks)) {
            best = look;
        }
    }
    constexpr double golden = 0.6180339887498949;
    double from = full_lift * std::max(0, best - 1) / looks;
    double to = full_lift * std::min(looks, best + 1) / looks;
    double least = clearance(full_lift * best / looks);
    for (int step = 0; step < 50; ++step) {
        const double a = to - golden * (to - from);
        const double b = from + golden * (to - from);
        (clearance(a) < clearance(b) ? to : from) = clearance(a) < clearance(b) ? b : a;
    }
    return std::min(least, clearance((from + to) / 2.0));
}

} // namespace rodway::twins
