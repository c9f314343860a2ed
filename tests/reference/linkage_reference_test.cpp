// The spatial linkage laid into a plane is the slider-crank and the four-bar of the textbooks.
// SC-n are rows of published and recomputed values; where only the formula is published the number
// was recomputed with 25 digits, which is said beside it.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "core/units/length.h"
#include "core/valvetrain/linkage.h"
#include "tests/reference/planar_train.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;

Linkage closed(const PlanarTrain& plane) {
    const auto closing = Linkage::close(train_of(plane));
    EXPECT_EQ(closing.status, TrainStatus::answered);
    return *closing.linkage;
}

/// Distance from crank axis to piston pin, in line: x = r·cos t + √(l² - r²·sin² t) (Heywood,
/// Internal Combustion Engine Fundamentals, Eq. 2.5, from memory).
double pin_mm(double r, double l, double t) {
    return r * std::cos(t) + std::sqrt(l * l - r * r * std::sin(t) * std::sin(t));
}

/// An engine's slider-crank, the piston driving: the lifter is the piston on its way down, its zero
/// at 5° past top dead centre, since at the dead centre itself a piston cannot turn a crank.
constexpr double start_deg = 5.0;
PlanarTrain piston(double r, double l) {
    return {0.0, 0.0, r, l, start_deg, pin_mm(r, l, radians(start_deg)), 0.0, 180.0};
}
double lift_at_crank(double r, double l, double crank_deg_on_paper) {
    return pin_mm(r, l, radians(start_deg)) - pin_mm(r, l, radians(crank_deg_on_paper));
}

/// Piston speed per radian of crank, downward, by the linkage's own rates.
double speed_per_rad(const Linkage& linkage, double s) {
    return 1.0 / linkage.rates(*linkage.at(s)).turned_rad_per_mm;
}

// SC-11. Norton, Design of Machinery, Example 4-2 (from memory; recomputed): a 40, b 120, c -20 mm,
// crank at 60°. Open 152.9130715° and 126.8380052 mm, crossed 27.0869285° and -86.8380052 mm.
// Tolerances: half of the last digit recomputed.
TEST(LinkageReference, OffsetSliderCrankClosesOpenAndCrossed) {
    struct Closure {
        double side; ///< +1 open, -1 crossed
        double rod_deg;
        double slider_mm;
    };
    for (const Closure& expected :
         {Closure{1.0, 152.9130715, 126.8380052}, Closure{-1.0, 27.0869285, -86.8380052}}) {
        // Start with the crank at 90°, by the closed form: the slider moves towards +x from there.
        const double start = expected.side * std::sqrt(120.0 * 120.0 - 60.0 * 60.0);
        const PlanarTrain plane{0.0, 0.0, 40.0, 120.0, 90.0, start, -20.0, 0.0};
        const Linkage linkage = closed(plane);
        const auto pose = linkage.at(expected.slider_mm - start);
        ASSERT_TRUE(pose.has_value());
        const Paper paper;
        // 5e-8 mm of slider turns the crank by less than 2e-7°.
        EXPECT_NEAR(crank_deg(plane, *pose), 60.0, 2e-7);
        const Vec3 pin = pose->upper_ball_K - linkage.pivot_K();
        EXPECT_NEAR(paper.x_of(pin), 40.0 * std::cos(pi / 3.0), 2e-7);
        EXPECT_NEAR(paper.y_of(pin), 40.0 * std::sin(pi / 3.0), 2e-7);
        EXPECT_NEAR(paper.angle_deg(pose->upper_ball_K - pose->lower_ball_K), expected.rod_deg,
                    1e-7);
        // Closed form: slider = a·cos θ ± √(b² - (a·sin θ - c)²), differentiated by hand.
        const double up = 40.0 * std::sin(pi / 3.0) + 20.0;
        const double slider_per_rad =
            -40.0 * std::sin(pi / 3.0) -
            expected.side * up * 40.0 * std::cos(pi / 3.0) / std::sqrt(120.0 * 120.0 - up * up);
        // Conditioning of the printed slider: 5e-8 mm in 40.
        EXPECT_NEAR(linkage.rates(*pose).turned_rad_per_mm, 1.0 / slider_per_rad, 1e-8);
    }
}

// SC-16. Stroke 3.48, rod 5.7 in; depth from top dead centre by Heywood, Eq. 2.5 (recomputed).
// Tolerance: half of 1e-10 in of the printed depth over the least travel per radian, 0.4 in.
TEST(LinkageReference, PistonDepthTurnsTheCrankToTheTablesAngle) {
    const double r = Length::inches(1.74).in_mm();
    const double l = Length::inches(5.7).in_mm();
    const PlanarTrain plane = piston(r, l);
    const Linkage linkage = closed(plane);
    const double top_mm = r + l;
    const std::pair<double, double> rows[] = {{10.0, 0.0344483284},
                                              {20.0, 0.1360868018},
                                              {45.0, 0.6440075514},
                                              {90.0, 2.0120722186},
                                              {135.0, 3.1047391499}};
    for (const auto& [angle, depth_in] : rows) {
        const double s =
            Length::inches(depth_in).in_mm() - (top_mm - pin_mm(r, l, radians(start_deg)));
        const auto pose = linkage.at(s);
        ASSERT_TRUE(pose.has_value());
        EXPECT_NEAR(crank_deg(plane, *pose), angle, 1e-8) << angle;
    }
    // At the dead centre there is no answer, only its name.
    const double at_top = pin_mm(r, l, radians(start_deg)) - top_mm;
    EXPECT_EQ(linkage.status_at(at_top + 1e-4), TrainStatus::near_dead_point);
    EXPECT_FALSE(linkage.at(at_top + 1e-4).has_value());
}

// SC-7. r 150, l 600 mm, 450 rpm, 60°: x, v, a, rod angle and rod speed by exact kinematics
// (recomputed with 25 digits). Tolerance 1e-8 relative: digits given.
TEST(LinkageReference, ExactPistonSpeedAndAccelerationAtSixtyDegrees) {
    const double r = 150.0;
    const double l = 600.0;
    const double omega = 450.0 * 2.0 * pi / 60.0;
    const PlanarTrain plane = piston(r, l);
    const Linkage linkage = closed(plane);
    const double s = pin_mm(r, l, radians(start_deg)) - 660.7687257;
    const auto pose = linkage.at(s);
    ASSERT_TRUE(pose.has_value());
    EXPECT_NEAR(crank_deg(plane, *pose), 60.0, 1e-7);
    const double v = omega * speed_per_rad(linkage, s);
    EXPECT_NEAR(v, 6905.35994, 6905.35994 * 1e-8);
    const Paper paper;
    const Vec3 rod = pose->upper_ball_K - pose->lower_ball_K;
    EXPECT_NEAR(180.0 - paper.angle_deg(rod), 12.5039166, 1e-7);
    // The rod turns by (dB/ds - a) square to itself, over its length.
    const Vec3 swing = linkage.rates(*pose).upper_ball_K - linkage.lifter_axis_K();
    EXPECT_NEAR(swing.norm() / l * v, 6.03359582, 6.03359582 * 1e-8);
    // a = d/ds(v²/2); the central difference's own error is some 1e-7.
    const double h = 0.05;
    const double above = omega * speed_per_rad(linkage, s + h);
    const double below = omega * speed_per_rad(linkage, s - h);
    EXPECT_NEAR((above * above - below * below) / (4.0 * h), 124949.3439, 124949.3439 * 1e-6);
    // SC-6, the two-term approximation of Khurmi & Gupta, Theory of Machines, ch. 15 (from memory):
    // 6.88677 m/s. It is 0.27 % off; we must not reproduce it.
    EXPECT_GT(std::abs(v - 6886.77) / v, 0.0025);
}

// SC-5. r 0.3, l 1 m, 200 rpm: fastest at 74.528930°, 6.5617322 m/s (exact, recomputed).
// Tolerance 1e-6 relative: digits given, and the difference quotient's step.
TEST(LinkageReference, FindsTheAngleOfGreatestPistonSpeedByItsOwnRates) {
    const double r = 300.0;
    const double l = 1000.0;
    const PlanarTrain plane = piston(r, l);
    const Linkage linkage = closed(plane);
    const auto rising = [&](double s) {
        const double h = 1e-3;
        return speed_per_rad(linkage, s + h) - speed_per_rad(linkage, s - h) > 0.0;
    };
    double low = lift_at_crank(r, l, 60.0);
    double high = lift_at_crank(r, l, 90.0);
    ASSERT_TRUE(rising(low));
    ASSERT_FALSE(rising(high));
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        (rising(middle) ? low : high) = middle;
    }
    const double angle = crank_deg(plane, *linkage.at(low));
    const double v = speed_per_rad(linkage, low) * 200.0 * 2.0 * pi / 60.0;
    EXPECT_NEAR(angle, 74.528930, 74.528930 * 1e-6);
    EXPECT_NEAR(v, 6561.7322, 6561.7322 * 1e-6);
    // SC-4, two-term approximation of Khurmi & Gupta, Ex. 15.3 (worked in Scilab-TBC 213/CH15):
    // 74.9553°, 6.540330 m/s. We must differ by 0.43° and 0.33 %.
    EXPECT_NEAR(74.9553 - angle, 0.4264, 0.0005);
    EXPECT_NEAR((v - 6540.330) / 6540.330, 0.00327, 0.00002);
}

/// The four-bar of SC-12 with its input link at 40°, a straight lifter standing in for the link's
/// end at that instant: it passes the link's end along the link's own direction of motion. Where
/// the rocker stands `before` millimetres earlier is found by bisection.
PlanarTrain four_bar(double rocker_low_deg, double rocker_high_deg, double before_mm) {
    const double link = radians(40.0);
    const double x = 40.0 * std::cos(link) + before_mm * std::sin(link);
    const double y = 40.0 * std::sin(link) - before_mm * std::cos(link);
    const auto too_far = [&](double rocker_deg) {
        const double angle = radians(rocker_deg);
        return std::hypot(100.0 + 80.0 * std::cos(angle) - x, 80.0 * std::sin(angle) - y) > 120.0;
    };
    double low = rocker_low_deg;
    double high = rocker_high_deg;
    const bool low_far = too_far(low);
    EXPECT_NE(low_far, too_far(high));
    for (int halving = 0; halving < 100; ++halving) {
        const double middle = (low + high) / 2.0;
        (too_far(middle) == low_far ? low : high) = middle;
    }
    return {100.0, 0.0, 80.0, 120.0, low, x, y, 130.0};
}

// SC-12, SC-13, SC-14. Norton, Design of Machinery, Examples 4-1 and 6-7 (from memory; recomputed):
// links 40, 120, 80, ground 100, input at 40° and 25 rad/s. Rocker 57.3248801° open, -98.0049641°
// crossed; coupler 20.2978828° and -60.9779668°; open: rocker 6.99798524, coupler -4.12091442
// rad/s. Tolerances: digits given.
TEST(LinkageReference, FourBarRockerFollowsALifterThatStandsInForTheInputLink) {
    struct Closure {
        double low_deg, high_deg;
        double rocker_deg, coupler_deg;
    };
    const Closure open{40.0, 80.0, 57.3248801, 20.2978828};
    const Closure crossed{-120.0, -80.0, -98.0049641, -60.9779668};
    const double before_mm = 3.0;
    const Paper paper;
    for (const Closure& expected : {open, crossed}) {
        const PlanarTrain plane = four_bar(expected.low_deg, expected.high_deg, before_mm);
        const Linkage linkage = closed(plane);
        const auto pose = linkage.at(before_mm);
        ASSERT_TRUE(pose.has_value());
        EXPECT_GT(std::abs(plane.crank_at_start_deg - expected.rocker_deg), 0.1)
            << "the answer must not be what was put in";
        EXPECT_NEAR(crank_deg(plane, *pose), expected.rocker_deg, 1e-7);
        const Vec3 rod = pose->upper_ball_K - pose->lower_ball_K;
        EXPECT_NEAR(paper.angle_deg(rod), expected.coupler_deg, 1e-7);
    }
    const PlanarTrain plane = four_bar(open.low_deg, open.high_deg, before_mm);
    const Linkage linkage = closed(plane);
    const auto pose = linkage.at(before_mm);
    const double s_per_s = 40.0 * 25.0;
    const PoseRates rates = linkage.rates(*pose);
    EXPECT_NEAR(rates.turned_rad_per_mm * s_per_s, 6.99798524, 7e-8);
    const Vec3 swing = (rates.upper_ball_K - linkage.lifter_axis_K()) * s_per_s;
    const Vec3 rod = pose->upper_ball_K - pose->lower_ball_K;
    EXPECT_NEAR(paper.shaft().dot(rod.cross(swing)) / rod.squaredNorm(), -4.12091442, 5e-8);

    // SC-14, Example 7-1 (from memory; recomputed): the input link also gains 15 rad/s each second.
    const double input = radians(40.0);
    const Vec3 round = paper.direction(-std::sin(input), std::cos(input));
    const Vec3 out = paper.direction(std::cos(input), std::sin(input));
    const Vec3 pin_speed = 40.0 * 25.0 * round;
    const Vec3 pin_change = 40.0 * (15.0 * round - 25.0 * 25.0 * out);
    const RockerTurning turning = linkage.turning(*pose, pin_speed, pin_change);
    EXPECT_NEAR(turning.velocity_rad, 6.99798524, 7e-8);
    EXPECT_NEAR(turning.acceleration_rad, 470.133530, 5e-6);
    const Vec3 arm = pose->upper_ball_K - linkage.pivot_K();
    const Vec3 ball_change = turning.acceleration_rad * paper.shaft().cross(arm) -
                             turning.velocity_rad * turning.velocity_rad * arm;
    EXPECT_NEAR(paper.shaft().dot(rod.cross(ball_change - pin_change)) / rod.squaredNorm(),
                296.089193, 3e-6);
}

} // namespace
} // namespace rodway
