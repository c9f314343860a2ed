#include "core/clearance/clearance_rate.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "core/clearance/causes.h"
#include "core/geometry/segment.h"
#include "tests/core/clearance/one_train_engine.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261128;
constexpr double ball_mm = 3.0;
constexpr double body_mm = 20.0;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

/// A small ball beside the rod, or beside the lifter, fixed to one of the engine's parts.
struct Ball {
    FixedTo fixed_to;
    bool beside_lifter;
};

Vec3 ball_K(const Engine& engine, const Pose& pose, const Linkage& linkage, const Ball& ball) {
    if (ball.fixed_to == FixedTo::rocker) {
        const Vec3 heel = engine.trains[0].rocker.body_K->from_K;
        const Vec3& n = linkage.shaft_axis_K();
        return linkage.pivot_K() +
               Eigen::AngleAxisd(std::atan2(pose.sin_turned, pose.cos_turned), n) * heel;
    }
    return std::get<Capsule>(*engine.solid_in_place(engine.obstacles[0])).from_K;
}

Segment near_part(const Train& train, const Pose& pose, const Ball& ball, double s) {
    if (!ball.beside_lifter) {
        return {pose.lower_ball_K, pose.upper_ball_K};
    }
    const Vec3 foot = train.lifter.foot_K + s * train.lifter.axis_K;
    return {foot, foot + *train.lifter.body_length_mm * train.lifter.axis_K};
}

/// Clearance at one lobe lift by nothing but points and a segment; of one station of the rod, if
/// it is told which, as the edge of a step in its thickness would be.
std::optional<ClearancePlace> measured(const Engine& engine, const Ball& ball, double s,
                                       std::optional<double> station_mm = {}) {
    const Train& train = engine.trains[0];
    const auto closing = Linkage::close(train);
    const auto pose = closing.linkage ? closing.linkage->at(s) : std::nullopt;
    if (!pose) {
        return std::nullopt;
    }
    const Vec3 centre = ball_K(engine, *pose, *closing.linkage, ball);
    const Segment part = near_part(train, *pose, ball, s);
    const double along =
        station_mm ? *station_mm / (part.b - part.a).norm() : nearest_fraction(part, centre);
    ClearancePlace place;
    place.lobe_lift_mm = s;
    place.lifter_body = ball.beside_lifter;
    place.fixed_to = ball.fixed_to;
    place.thing = "ball";
    place.station_mm = along * (part.b - part.a).norm();
    place.ball_radius_mm = (ball.beside_lifter ? body_mm : train.rod.diameter_mm) / 2.0;
    const Vec3 gap = centre - part.at(along);
    place.normal_K = gap.normalized();
    place.clearance_mm = gap.norm() - ball_mm - place.ball_radius_mm;
    place.p_wall_K = centre - ball_mm * place.normal_K;
    place.p_rod_K = part.at(along) + place.ball_radius_mm * place.normal_K;
    return place;
}

/// A random train with a ball somewhere along its rod, beyond its upper end, or by its lifter.
Engine engine_with_ball(std::mt19937_64& random, const Ball& ball, double& s) {
    twins::RandomTrain some = twins::random_train(random);
    some.train.lifter.body_diameter_mm = body_mm;
    some.train.lifter.body_length_mm = 60.0;
    s = between(random, 0.0, some.full_lift_mm);
    Engine engine = engine_around(some.train, some.full_lift_mm);
    Train& train = engine.trains[0];
    const Linkage linkage = *Linkage::close(train).linkage;
    const Pose pose = *linkage.at(s);
    const Vec3 rod = pose.upper_ball_K - pose.lower_ball_K;
    const double along = between(random, 0.1, 1.15); // some beyond the upper ball
    const Vec3 aside =
        Eigen::AngleAxisd(between(random, 0.0, 6.28), rod.normalized()) * rod.unitOrthogonal();
    Vec3 at = pose.lower_ball_K + along * rod + 15.0 * aside;
    if (ball.beside_lifter) {
        at = train.lifter.foot_K + (s + 30.0) * train.lifter.axis_K + 20.0 * aside;
    }
    if (ball.fixed_to == FixedTo::rocker) {
        const double turned = std::atan2(pose.sin_turned, pose.cos_turned);
        const Vec3 heel =
            Eigen::AngleAxisd(-turned, linkage.shaft_axis_K()) * (at - linkage.pivot_K());
        train.rocker.body_K = Capsule{heel, heel, ball_mm};
    } else {
        if (ball.fixed_to == FixedTo::intake) {
            at -= *engine.intake_movement_K(0);
        }
        const Casting casting = ball.fixed_to == FixedTo::head     ? Casting::head
                                : ball.fixed_to == FixedTo::intake ? Casting::intake
                                                                   : Casting::block;
        engine.obstacles.push_back(
            {"ball", ObstacleKind::box, casting, 0, Capsule{at, at, ball_mm}});
    }
    return engine;
}

// Differences at a fixed lobe lift; five points over 0.004 mm or 4e-5 rad. Rounding, 1e-12 mm over
// 0.002, and for tilts 2e-5 rad, dominates.
TEST(ClearanceRate, AgreesWithDifferencesWhateverIsNearAndWhateverItIsFixedTo) {
    std::mt19937_64 random(seed);
    std::cout << "seed " << seed << '\n';
    int rates_compared = 0;
    int beyond = 0;
    double worst = 0.0;
    for (const Ball& ball :
         {Ball{FixedTo::block, false}, Ball{FixedTo::head, false}, Ball{FixedTo::intake, false},
          Ball{FixedTo::rocker, false}, Ball{FixedTo::block, true}, Ball{FixedTo::head, true}}) {
        for (int made = 0; made < 40; ++made) {
            double s = 0.0;
            const Engine engine = engine_with_ball(random, ball, s);
            const Train& train = engine.trains[0];
            const Linkage linkage = *Linkage::close(train).linkage;
            const ClearancePlace place = *measured(engine, ball, s);
            beyond += !ball.beside_lifter && place.station_mm >= linkage.rod_length_mm() - 1e-9;
            for (const EngineParameter& parameter : parameters_at(engine, train, place)) {
                const double h = is_angle(parameter.kind) ? 2e-5 : 2e-3;
                const auto after = [&](double delta) {
                    return measured(*with_change(engine, parameter, delta), ball, s)->clearance_mm;
                };
                const double slow =
                    (8.0 * (after(h) - after(-h)) - (after(2.0 * h) - after(-2.0 * h))) /
                    (12.0 * h);
                const auto rates = parameter_rates(engine, train, place, parameter);
                ASSERT_TRUE(rates.has_value());
                const auto fast =
                    clearance_rate(train, linkage, place, *rates, Held::adjuster_reset);
                ASSERT_TRUE(fast.has_value());
                const double unit = is_angle(parameter.kind) ? 100.0 : 1.0;
                worst = std::max(worst, std::abs(*fast - slow) / unit);
                ASSERT_NEAR(*fast, slow, 1e-6 * unit)
                    << "parameter " << static_cast<int>(parameter.kind) << ", fixed to "
                    << static_cast<int>(ball.fixed_to) << ", station " << place.station_mm;
                ++rates_compared;
            }
        }
    }
    std::cout << rates_compared << " rates, " << beyond << " places at the rod's end, worst "
              << worst << '\n';
    EXPECT_GT(beyond, 5);
}

TEST(ClearanceRate, FollowsTheEdgeOfAStepThatIsNotTheAxissNearestPoint) {
    std::mt19937_64 random(seed + 3);
    const Ball ball{FixedTo::block, false};
    for (int made = 0; made < 40; ++made) {
        double s = 0.0;
        const Engine engine = engine_with_ball(random, ball, s);
        const Train& train = engine.trains[0];
        const Linkage linkage = *Linkage::close(train).linkage;
        const double edge = between(random, 0.2, 0.8) * linkage.rod_length_mm();
        const ClearancePlace place = *measured(engine, ball, s, edge);
        for (const ParameterKind kind :
             {ParameterKind::rod_length, ParameterKind::lifter_height, ParameterKind::lash}) {
            const EngineParameter parameter{kind, train.position};
            const auto after = [&](double delta) {
                return measured(*with_change(engine, parameter, delta), ball, s, edge)
                    ->clearance_mm;
            };
            const double h = 1e-3; // a central difference's bend, 1e-6/15, dominates
            EXPECT_NEAR(*clearance_rate(train, linkage, place,
                                        *parameter_rates(engine, train, place, parameter),
                                        Held::adjuster_reset),
                        (after(h) - after(-h)) / (2.0 * h), 1e-6);
        }
    }
}

// An adjuster left as it is: the same train without one, its screw's travel built into the arm.
TEST(ClearanceRate, WithNothingResetTheLashTakesUpWhatMoves) {
    std::mt19937_64 random(seed + 1);
    const Ball ball{FixedTo::block, false};
    for (int made = 0; made < 60; ++made) {
        double s = 0.0;
        Engine engine = engine_with_ball(random, ball, s);
        Train& train = engine.trains[0];
        train.rod.length_mm += between(random, -0.5, 0.5);
        const Linkage linkage = *Linkage::close(train).linkage;
        const ClearancePlace place = *measured(engine, ball, s);
        Engine built = engine;
        built.trains[0].rocker.ball_arm_K = linkage.ball_arm_K();
        built.trains[0].adjuster.kind = AdjusterKind::none;
        built.trains[0].valve.lash_mm = 2.0;
        for (int way = 0; way < 4; ++way) {
            ParameterRates rates;
            (way < 3 ? rates.foot_K : rates.pivot_K) =
                way < 3 ? Vec3(Vec3::Unit(way)) : train.rocker.axis_K;
            const auto after = [&](double delta) {
                Engine moved = built;
                moved.trains[0].lifter.foot_K += delta * rates.foot_K;
                moved.trains[0].rocker.pivot_K += delta * rates.pivot_K;
                return measured(moved, ball, s)->clearance_mm;
            };
            const double h = 1e-3; // a central difference's bend, 1e-6/100, dominates
            EXPECT_NEAR(*clearance_rate(train, linkage, place, rates, Held::nothing_reset),
                        (after(h) - after(-h)) / (2.0 * h), 1e-6);
        }
    }
}

TEST(ClearanceRate, SaysWhereNothingCanBeHeldSo) {
    std::mt19937_64 random(seed + 2);
    double s = 0.0;
    const Ball ball{FixedTo::block, false};
    const Engine engine = engine_with_ball(random, ball, s);
    Train train = engine.trains[0];
    const Linkage linkage = *Linkage::close(train).linkage;
    const ClearancePlace place = *measured(engine, ball, s);
    ParameterRates longer;
    longer.rod_length = 1.0;
    EXPECT_FALSE(clearance_rate(train, linkage, place, longer, Held::rod_rechosen));
    ParameterRates taller;
    taller.seat_height = 1.0;
    // A screw square to the rod can't set a lash.
    const Pose heel = *linkage.at(0.0);
    train.adjuster.axis_K = (heel.upper_ball_K - heel.lower_ball_K).unitOrthogonal();
    EXPECT_FALSE(clearance_rate(train, linkage, place, taller, Held::adjuster_reset));
    EXPECT_TRUE(clearance_rate(train, linkage, place, taller, Held::rod_rechosen));
    train.adjuster.kind = AdjusterKind::none;
    ParameterRates lash;
    lash.lash = 1.0;
    EXPECT_FALSE(clearance_rate(train, linkage, place, lash, Held::adjuster_reset));
    // Another rod still gives another lash; a taller lifter just leaves less of it.
    EXPECT_TRUE(clearance_rate(train, linkage, place, lash, Held::rod_rechosen));
    EXPECT_TRUE(clearance_rate(train, linkage, place, taller, Held::adjuster_reset));
    // What belongs to another valve, or to another thing, moves nothing here.
    EXPECT_FALSE(parameter_rates(engine, train, place, {ParameterKind::lash, ValvePosition{7}}));
    EXPECT_FALSE(
        parameter_rates(engine, train, place, {ParameterKind::passage_bore, {}, 0, "tube"}));
    EXPECT_FALSE(parameter_rates(engine, train, place, {ParameterKind::head_gasket, {}, 9}));
}

} // namespace
} // namespace rodway
