#include "core/loads/rod_load.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// One train of a demo, closed, at lobe lifts as the camshaft turns.
struct Turning {
    explicit Turning(const char* demo, std::size_t at = 0)
        : engine(demo_engine(demo)),
          train(engine.trains[at]),
          linkage(*Linkage::close(train).linkage),
          lobe(engine.lobes(train.position).lobe) {}
    [[nodiscard]] double gross_mm(double cam_deg) const {
        return linkage.gross_lift_mm(*linkage.at(lobe.lift_mm(CamAngle::deg(cam_deg))));
    }
    Engine engine;
    const Train& train;
    Linkage linkage;
    const Lobe& lobe;
};

constexpr double cam_rad_per_s = 3000.0 * 2.0 * 3.14159265358979 / 60.0; // 6000 of the crank

// The lift differenced twice over a fifth of a degree: its own error, the fourth derivative times
// the step squared over 12, is what the tolerance allows for.
TEST(RodLoad, TheValvesAccelerationIsTheSecondDifferenceOfItsLift) {
    for (const char* demo : demo_names) {
        const Turning train(demo);
        constexpr double step_deg = 0.2;
        double largest = 0.0;
        for (double deg = -55.0; deg <= 55.0; deg += 5.0) {
            const double by_difference =
                (train.gross_mm(deg + step_deg) - 2.0 * train.gross_mm(deg) +
                 train.gross_mm(deg - step_deg)) /
                std::pow(radians(step_deg) / cam_rad_per_s, 2);
            const LobeMotion motion = train.lobe.at(CamAngle::deg(deg));
            const double by_linkage = valve_acceleration(
                train.linkage, *train.linkage.at(motion.lift), motion.velocity * cam_rad_per_s,
                motion.acceleration * cam_rad_per_s * cam_rad_per_s);
            largest = std::max(largest, std::abs(by_linkage));
            EXPECT_NEAR(by_linkage, by_difference, 2e4) << demo << " at " << deg;
        }
        EXPECT_GT(largest, 2e6) << "the tolerance is a hundredth of what there is";
    }
}

// Virtual work: raising the lifter by ds lifts the valve by dh against its spring.
TEST(RodLoad, TheSpringComesDownTheRodByTheRatioAtThatLift) {
    const Turning train("v8-port-tubes");
    const ValveSpring spring{48.0, {{48.0, 600.0}, {32.0, 1900.0}}, {}, {}, {}};
    for (const double lift_mm : {1.0, 4.0, 9.0}) {
        constexpr double step_mm = 1e-4;
        const auto gross = [&](double lift) {
            return train.linkage.gross_lift_mm(*train.linkage.at(lift));
        };
        const double ratio = (gross(lift_mm + step_mm) - gross(lift_mm - step_mm)) / (2 * step_mm);
        const Pose pose = *train.linkage.at(lift_mm);
        const Vec3 way = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        const double net_mm = gross(lift_mm) - train.linkage.lash_mm();
        const double spring_N = 600.0 + net_mm * 1300.0 / 16.0;
        EXPECT_NEAR(spring_on_rod_N(train.train, train.linkage, pose, spring) *
                        way.dot(train.train.lifter.axis_K),
                    spring_N * ratio, 1e-4 * spring_N) // of the difference
            << lift_mm;
    }
}

TEST(RodLoad, EachMassIsThrownByItsOwnAcceleration) {
    const Turning train("v8-port-tubes");
    const ValveSpring spring{48.0, {{48.0, 600.0}, {32.0, 1900.0}}, {}, {}, {}};
    for (const double deg : {-50.0, -30.0, 0.0, 40.0}) {
        const LobeMotion motion = train.lobe.at(CamAngle::deg(deg));
        const Pose pose = *train.linkage.at(motion.lift);
        const auto load = [&](const MovingMasses& masses, double speed) {
            return running_load_N(train.train, train.linkage, pose, spring, motion,
                                  {masses, speed});
        };
        const double still = spring_on_rod_N(train.train, train.linkage, pose, spring);
        EXPECT_EQ(load({}, cam_rad_per_s), still) << "no mass";
        // 100 g at the valve: what a spring stronger by m·a would put on the rod.
        const double thrown =
            valve_acceleration(train.linkage, pose, motion.velocity * cam_rad_per_s,
                               motion.acceleration * cam_rad_per_s * cam_rad_per_s);
        const double share = still / spring.load_N(48.0 - train.linkage.valve_lift_mm(pose));
        const double valve = load({1e-4, 0.0, 0.0}, cam_rad_per_s) - still;
        EXPECT_NEAR(valve, 1e-4 * thrown * share, 1e-9 * still);
        EXPECT_NEAR(load({0.0, 1e-4, 0.0}, cam_rad_per_s) - still, valve, 1e-9 * still);
        EXPECT_NEAR(load({1e-4, 0.0, 0.0}, cam_rad_per_s / 2.0) - still, valve / 4.0, 1e-9 * still)
            << "by the square of the speed";
        // Half of an 80 g rod, at the lifter's acceleration along the rod.
        const Vec3 way = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        const double rod = load({0.0, 0.0, 8e-5}, cam_rad_per_s) - still;
        EXPECT_NEAR(rod,
                    4e-5 * motion.acceleration * cam_rad_per_s * cam_rad_per_s *
                        way.dot(train.train.lifter.axis_K),
                    1e-9 * still);
    }
}

// Over the nose the valve is thrown on and only the spring brings it back.
TEST(RodLoad, OverTheNoseSpeedTakesTheLoadOffTheRod) {
    const Turning train("v8-port-tubes");
    const ValveSpring spring{48.0, {{48.0, 600.0}, {32.0, 1900.0}}, {}, {}, {}};
    const LobeMotion nose = train.lobe.at(CamAngle::deg(0.0));
    const Pose pose = *train.linkage.at(nose.lift);
    const double still = spring_on_rod_N(train.train, train.linkage, pose, spring);
    const RunningSpeed fast{{1.5e-4, 3e-5, 7e-5}, cam_rad_per_s};
    EXPECT_LT(running_load_N(train.train, train.linkage, pose, spring, nose, fast), 0.8 * still);
    const RunningSpeed far_too_fast{fast.masses, 4.0 * cam_rad_per_s};
    EXPECT_LT(running_load_N(train.train, train.linkage, pose, spring, nose, far_too_fast), 0.0);
}

} // namespace
} // namespace rodway
