#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <optional>
#include <string_view>
#include <vector>

#include "core/barring/open_valves.h"

namespace rodway {

constexpr double plain_lift_mm = 9.0;

/// A lobe measured, not estimated: the 3-4-5 law (Norton, Cam Design and Manufacturing Handbook)
/// in rows one cam degree apart, off its heel by more than `heel_mm` for about `crank_deg`.
inline Lobe smooth_lobe(double crank_deg) {
    const auto rise = [](double u) { return u * u * u * (10.0 + u * (-15.0 + 6.0 * u)); };
    double low = 0.0;
    double high = 1.0;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        (plain_lift_mm * rise(middle) < heel_mm ? low : high) = middle;
    }
    const double half_cam_deg = crank_deg / 4.0 / (1.0 - low);
    LiftTable table;
    table.resolution_mm = 1e-5;
    const int rows = static_cast<int>(std::ceil(half_cam_deg)) + 3;
    for (int row = -rows; row <= rows; ++row) {
        const double u = std::max(0.0, 1.0 - std::abs(row) / half_cam_deg);
        table.rows.push_back({static_cast<double>(row), plain_lift_mm * rise(u)});
    }
    const auto lobe = Lobe::from_table(table);
    EXPECT_TRUE(lobe.ok());
    return *lobe;
}

/// How long a lobe really is off its heel, crank degrees.
inline double off_heel_deg(const Lobe& lobe) {
    const Flanks flanks = lobe.at_lift(heel_mm);
    return crank_angle(flanks.closing - flanks.opening).in_deg();
}

/// An engine of which only firing angles and lobes are known: one bank, no trains.
inline Engine plain_engine(const std::vector<double>& firing_deg, const CamLobes& intake,
                           const CamLobes& exhaust) {
    Engine engine{.intake = intake, .exhaust = exhaust};
    engine.layout.banks.push_back({"row", 0.0, BankFrame(0.0)});
    for (const double firing : firing_deg) {
        const int number = static_cast<int>(engine.layout.cylinders.size()) + 1;
        engine.layout.cylinders.push_back({number, 0, 100.0 * number});
        engine.layout.firing_angles.push_back(CrankAngle::deg(firing));
    }
    return engine;
}

inline Engine plain_engine(std::string_view order_text, int cylinders, const Lobe& lobe,
                           double centreline_crank_deg) {
    const auto order = FiringOrder::parse(order_text, cylinders);
    EXPECT_TRUE(order.ok());
    std::vector<double> firing_deg;
    for (int number = 1; number <= cylinders; ++number) {
        firing_deg.push_back(order->firing_angle(number).in_deg());
    }
    const CamLobes lobes{lobe, 14.2, 0.4, centreline_crank_deg};
    return plain_engine(firing_deg, lobes, lobes);
}

/// A train that closes: rod, valve and lifter upright, arms of 20 and 30 mm square to them.
inline Train upright_train(const ValvePosition& position, double lash_mm) {
    Train train;
    train.position = position;
    train.lifter.foot_K = Vec3(0.0, -20.0, 100.0);
    train.lifter.axis_K = Vec3::UnitZ();
    train.rod.length_mm = 200.0;
    train.rod.diameter_mm = 8.0;
    train.rocker.pivot_K = Vec3(0.0, 0.0, 300.0);
    train.rocker.axis_K = Vec3::UnitX();
    train.rocker.ball_arm_K = Vec3(0.0, -20.0, 0.0);
    train.rocker.tip_arm_K = Vec3(0.0, 30.0, 0.0);
    train.adjuster.axis_K = -Vec3::UnitZ();
    train.adjuster.can_go_in_mm = 2.0;
    train.adjuster.can_go_out_mm = 2.0;
    train.valve.axis_K = Vec3::UnitZ();
    train.valve.lash_mm = lash_mm;
    return train;
}

inline void give_trains(Engine& engine) {
    engine.trains.clear();
    for (const Cylinder& cylinder : engine.layout.cylinders) {
        for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
            Train train = upright_train({cylinder.number, kind, 1}, engine.lobes(kind).lash_mm);
            train.bank = cylinder.bank;
            engine.trains.push_back(train);
        }
    }
}

/// The load of the springs below, N: 550 on the seat, 66 more for each millimetre of valve lift.
constexpr double test_seat_N = 550.0;
constexpr double test_rate_N_per_mm = 66.0;
constexpr double test_spring_N(double valve_lift_mm) {
    return test_seat_N + test_rate_N_per_mm * valve_lift_mm;
}
inline void give_springs(Engine& engine) {
    for (const Train& train : engine.trains) {
        ValveSpring spring;
        spring.installed_height_mm = 47.0;
        spring.loads = {{47.0, test_spring_N(0.0)}, {32.0, test_spring_N(15.0)}};
        engine.springs[train.position] = spring;
    }
}

} // namespace rodway
