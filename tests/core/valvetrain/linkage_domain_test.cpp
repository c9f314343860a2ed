#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "core/clearance/certified_minimum.h"
#include "core/valvetrain/adjuster_setting.h"
#include "core/valvetrain/linkage.h"
#include "core/valvetrain/train_check.h"
#include "core/valvetrain/train_motion.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261126;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

/// Half of them lie in one plane, half are skew.
twins::RandomTrain planar_or_skew(std::mt19937_64& random, bool planar) {
    twins::RandomTrain made = twins::random_train(random);
    Train& train = made.train;
    if (planar) {
        train.rocker.axis_K = Vec3::UnitX();
        for (Vec3* vector : {&train.lifter.foot_K, &train.lifter.axis_K, &train.rocker.pivot_K,
                             &train.rocker.ball_arm_K, &train.rocker.tip_arm_K,
                             &train.adjuster.axis_K, &train.valve.axis_K}) {
            vector->x() = 0.0;
        }
        train.lifter.axis_K.normalize();
        train.adjuster.axis_K.normalize();
        train.valve.axis_K.normalize();
        train.rod.length_mm =
            (train.rocker.pivot_K + train.rocker.ball_arm_K - train.lifter.lower_ball_K()).norm();
    }
    train.rod.length_mm += between(random, -2.0, 2.0);
    return made;
}

/// The table of accuracy in linkage.h.
TEST(LinkageDomain, AccuracyTableHoldsOverAHundredThousandTrains) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int answered = 0;
    double worst_place = 0.0;
    double worst_turned = 0.0;
    double worst_rate = 0.0;
    double worst_lift = 0.0;
    for (int made = 0; made < 100000; ++made) {
        const twins::RandomTrain drawn = planar_or_skew(random, made % 2 == 0);
        const Train& train = drawn.train;
        ASSERT_TRUE(check_train(train)) << "train " << made;
        const auto closing = Linkage::close(train);
        if (!closing.linkage) {
            continue;
        }
        const Linkage& linkage = *closing.linkage;
        const double s = between(random, 0.0, drawn.full_lift_mm);
        const auto pose = linkage.at(s);
        const auto slow = twins::slow_pose(train, linkage.adjuster_in_mm(), s);
        if (!pose || !slow) {
            continue;
        }
        ++answered;
        const Vec3& n = train.rocker.axis_K;
        const Vec3 arm = train.rocker.ball_arm_K + linkage.adjuster_in_mm() * train.adjuster.axis_K;
        const Vec3 arm_now = slow->upper_ball_K - train.rocker.pivot_K;
        const auto beside = [&](const Vec3& vector) { return Vec3(vector - vector.dot(n) * n); };
        const double turned =
            std::atan2(n.dot(beside(arm).cross(beside(arm_now))), beside(arm).dot(beside(arm_now)));
        const Vec3 roller =
            train.rocker.pivot_K + Eigen::AngleAxisd(turned, n) * train.rocker.tip_arm_K;
        const double gross =
            -train.valve.axis_K.dot(roller - train.rocker.pivot_K - train.rocker.tip_arm_K);
        worst_place = std::max({worst_place, (pose->upper_ball_K - slow->upper_ball_K).norm(),
                                (pose->lower_ball_K - slow->lower_ball_K).norm(),
                                (pose->roller_K - roller).norm()});
        worst_turned =
            std::max(worst_turned,
                     std::abs(std::remainder(
                         std::atan2(pose->sin_turned, pose->cos_turned) - turned, 6.283185307)));
        worst_lift = std::max(worst_lift, std::abs(linkage.gross_lift_mm(*pose) - gross));
        // Along the rod both balls move alike: what the rate must satisfy, by itself.
        const PoseRates rates = linkage.rates(*pose);
        const Vec3 rod = (slow->upper_ball_K - slow->lower_ball_K).normalized();
        const double lever = rod.dot(n.cross(arm_now));
        worst_rate = std::max(
            worst_rate, std::abs(rates.turned_rad_per_mm - rod.dot(train.lifter.axis_K) / lever));
    }
    std::cout << answered << " trains; worst place " << worst_place << " mm, angle " << worst_turned
              << " rad, rate " << worst_rate << " rad/mm, lift " << worst_lift << " mm\n";
    EXPECT_GT(answered, 95000);
    EXPECT_LT(worst_place, accuracy::place_mm);
    EXPECT_LT(worst_turned, accuracy::turned_rad);
    EXPECT_LT(worst_rate, accuracy::turned_rate_rad_per_mm);
    EXPECT_LT(worst_lift, accuracy::lift_mm);
}

TEST(LinkageDomain, TurningAgreesWithFiniteDifferences) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    constexpr double h = 1e-3;
    for (int answered = 0; answered < 5000;) {
        const twins::RandomTrain drawn = planar_or_skew(random, answered % 2 == 0);
        const auto closing = Linkage::close(drawn.train);
        if (!closing.linkage) {
            continue;
        }
        const Linkage& linkage = *closing.linkage;
        const double s = between(random, 0.5, drawn.full_lift_mm);
        const auto here = linkage.at(s);
        const auto below = linkage.at(s - h);
        const auto above = linkage.at(s + h);
        if (!here || !below || !above) {
            continue;
        }
        ++answered;
        const Vec3& a = linkage.lifter_axis_K();
        const RockerTurning turning = linkage.turning(*here, a, Vec3::Zero());
        ASSERT_NEAR(turning.velocity_rad, linkage.rates(*here).turned_rad_per_mm, 1e-14);
        const double change =
            (linkage.rates(*above).turned_rad_per_mm - linkage.rates(*below).turned_rad_per_mm) /
            (2.0 * h);
        // Central difference: h²/6 of the rate's third derivative.
        ASSERT_NEAR(turning.acceleration_rad, change, 1e-7 * (1.0 + std::abs(change) * 1e3));
    }
}

/// A number as hostile as can be.
double any_number(std::mt19937_64& random) {
    switch (random() % 12) {
        case 0:
            return 0.0;
        case 1:
            return std::numeric_limits<double>::quiet_NaN();
        case 2:
            return std::numeric_limits<double>::infinity();
        case 3:
            return -std::numeric_limits<double>::infinity();
        case 4:
            return 1e300;
        case 5:
            return 5e-324;
        case 6:
            return -between(random, 0.0, 1e-12);
        default:
            return between(random, -1.0, 1.0) * std::pow(10.0, between(random, -6.0, 6.0));
    }
}

Vec3 any_point(std::mt19937_64& random) {
    const double x = any_number(random);
    const double y = any_number(random);
    return {x, y, any_number(random)};
}

/// A plausible train of which a few numbers were put wrong, or, one time in four, all of them.
Train hostile_train(std::mt19937_64& random) {
    Train train = twins::random_train(random).train;
    const bool all = random() % 4 == 0;
    const auto hit = [&] { return all || random() % 12 == 0; };
    for (Vec3* vector : {&train.lifter.foot_K, &train.lifter.axis_K, &train.rocker.pivot_K,
                         &train.rocker.axis_K, &train.rocker.ball_arm_K, &train.rocker.tip_arm_K,
                         &train.adjuster.axis_K, &train.valve.axis_K}) {
        if (hit()) {
            *vector = any_point(random);
        }
        if (vector == &train.rocker.axis_K && random() % 2 == 0) {
            vector->normalize();
        }
    }
    for (double* number :
         {&train.rod.length_mm, &train.lifter.seat_height_mm, &train.lifter.preload_mm,
          &train.lifter.plunger_travel_mm, &train.valve.lash_mm, &train.adjuster.can_go_in_mm,
          &train.adjuster.can_go_out_mm}) {
        if (hit()) {
            *number = any_number(random);
        }
    }
    train.lifter.kind = random() % 2 == 0 ? LifterKind::solid : LifterKind::hydraulic;
    train.adjuster.kind = static_cast<AdjusterKind>(random() % 3);
    if (random() % 8 == 0) {
        train.rocker.axis_K = ball_pivot_axis_K(Guide::tip_rails, train.adjuster.axis_K,
                                                train.rocker.ball_arm_K, train.rocker.tip_arm_K);
    }
    return train;
}

bool finite(const TrainAtLift& at) {
    return std::isfinite(at.gross_lift_mm) && std::isfinite(at.net_lift_mm) &&
           std::isfinite(at.gross_ratio) && std::isfinite(at.rod_to_adjuster_rad) &&
           std::isfinite(at.rod_to_lifter_rad) && std::isfinite(at.side_share) &&
           std::isfinite(at.sweep_mm);
}

TEST(LinkageDomain, AMillionHostileTrainsNeitherCrashNorAnswerNaN) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    int answered = 0;
    for (int made = 0; made < 1000000; ++made) {
        const Train train = hostile_train(random);
        const double full_lift =
            random() % 8 == 0 ? any_number(random) : between(random, 5.0, 15.0);
        const TrainMotion motion = train_motion(train, full_lift);
        if (motion.status != TrainStatus::answered) {
            ASSERT_FALSE(motion.on_heel.has_value()) << "train " << made;
            ASSERT_TRUE(!motion.trouble_at_mm || std::isfinite(*motion.trouble_at_mm));
            ASSERT_TRUE(!motion.adjuster_needed_mm || std::isfinite(*motion.adjuster_needed_mm));
        } else {
            ++answered;
            ASSERT_TRUE(finite(*motion.on_heel) && finite(*motion.half_lift) &&
                        finite(*motion.full_lift))
                << "train " << made;
            ASSERT_TRUE(std::isfinite(motion.sweep->width_mm())) << "train " << made;
        }
        const AdjusterTurned turned = turn_adjuster(train, any_number(random));
        ASSERT_TRUE(!turned.lash_mm || std::isfinite(*turned.lash_mm)) << "train " << made;
        ASSERT_TRUE(!turned.preload_mm || std::isfinite(*turned.preload_mm)) << "train " << made;
        const auto lengths = rod_lengths(train);
        ASSERT_TRUE(!lengths ||
                    (std::isfinite(lengths->as_found_mm) && std::isfinite(lengths->shortest_mm) &&
                     std::isfinite(lengths->longest_mm)))
            << "train " << made;
    }
    std::cout << answered << " answered\n";
    EXPECT_GT(answered, 100000) << "most were not so hostile";
}

TEST(LinkageDomain, PlausibleTrainsAreAnsweredAndAgreeWithTheTwin) {
    std::cout << "seed " << seed + 3 << '\n';
    std::mt19937_64 random(seed + 3);
    int answered = 0;
    int compared = 0;
    for (int made = 0; made < 10000; ++made) {
        const twins::RandomTrain drawn = planar_or_skew(random, false);
        const TrainMotion motion = train_motion(drawn.train, drawn.full_lift_mm);
        if (motion.status != TrainStatus::answered) {
            continue;
        }
        ++answered;
        if (made % 10 != 0) {
            continue;
        }
        const auto slow = twins::slow_pose(drawn.train, motion.adjuster_in_mm, drawn.full_lift_mm);
        ASSERT_TRUE(slow.has_value());
        ++compared;
        const auto closing = Linkage::close(drawn.train);
        ASSERT_LT(
            (closing.linkage->at(drawn.full_lift_mm)->upper_ball_K - slow->upper_ball_K).norm(),
            accuracy::place_mm);
        // Ratio by finite differences of the twin: 1e-5 is its own rounding.
        const auto before =
            twins::slow_pose(drawn.train, motion.adjuster_in_mm, drawn.full_lift_mm - 1e-3);
        const auto lift_of = [&](const twins::SlowPose& pose) {
            const Vec3& n = drawn.train.rocker.axis_K;
            const Vec3 arm =
                drawn.train.rocker.ball_arm_K + motion.adjuster_in_mm * drawn.train.adjuster.axis_K;
            const Vec3 now = pose.upper_ball_K - drawn.train.rocker.pivot_K;
            const auto beside = [&](const Vec3& v) { return Vec3(v - v.dot(n) * n); };
            const double turned =
                std::atan2(n.dot(beside(arm).cross(beside(now))), beside(arm).dot(beside(now)));
            const Vec3& q = drawn.train.rocker.tip_arm_K;
            return -drawn.train.valve.axis_K.dot(Eigen::AngleAxisd(turned, n) * q - q);
        };
        const double ratio = (lift_of(*slow) - lift_of(*before)) / 1e-3;
        ASSERT_NEAR(motion.full_lift->gross_ratio, ratio, 2e-3);
    }
    EXPECT_GE(answered, 9500);
    EXPECT_GE(compared, 950);
}

/// The lobe lift named is where it happens: all is well just before, nothing just after.
TEST(LinkageDomain, TroubleIsNamedAtTheLobeLiftWhereItHappens) {
    std::cout << "seed " << seed + 4 << '\n';
    std::mt19937_64 random(seed + 4);
    int met = 0;
    for (int made = 0; made < 20000; ++made) {
        twins::RandomTrain drawn = twins::random_train(random);
        Train& train = drawn.train;
        train.rocker.ball_arm_K *= between(random, 0.2, 0.5);
        train.rod.length_mm =
            (train.rocker.pivot_K + train.rocker.ball_arm_K - train.lifter.lower_ball_K()).norm();
        const TrainMotion motion = train_motion(train, 14.0);
        if (motion.status == TrainStatus::answered || !motion.trouble_at_mm ||
            *motion.trouble_at_mm < 0.01) {
            continue;
        }
        ++met;
        const Linkage linkage = *Linkage::close(train).linkage;
        for (double s = 0.0; s < *motion.trouble_at_mm - 1e-5; s += 0.05) {
            ASSERT_EQ(linkage.status_at(s), TrainStatus::answered) << "train " << made;
        }
        ASSERT_NE(linkage.status_at(*motion.trouble_at_mm + 1e-5), TrainStatus::answered);
        ASSERT_EQ(motion.status, linkage.status_at(*motion.trouble_at_mm + 1e-5));
    }
    EXPECT_GT(met, 200);
}

} // namespace
} // namespace rodway
