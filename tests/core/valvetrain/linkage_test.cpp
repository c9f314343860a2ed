#include "core/valvetrain/linkage.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "tests/reference/planar_train.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20260402;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

TEST(Linkage, PoseAgreesWithBisectionOnThousandsOfSkewTrains) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    int answered = 0;
    double most_adjusted = 0.0;
    for (int made = 0; answered < 3000; ++made) {
        ASSERT_LT(made, 6000);
        const twins::RandomTrain train = twins::skew_train(random);
        const auto closing = Linkage::close(train.train);
        if (!closing.linkage) {
            continue;
        }
        const Linkage& linkage = *closing.linkage;
        const double s = between(random, 0.0, train.full_lift_mm);
        const auto pose = linkage.at(s);
        const auto slow = twins::slow_pose(train.train, linkage.adjuster_in_mm(), s);
        if (!pose || !slow) {
            continue;
        }
        ++answered;
        most_adjusted = std::max(most_adjusted, std::abs(linkage.adjuster_in_mm()));
        // 1e-9 mm: rounding of coordinates within 2 m.
        ASSERT_LT((pose->lower_ball_K - slow->lower_ball_K).norm(), 1e-9) << "train " << made;
        ASSERT_LT((pose->upper_ball_K - slow->upper_ball_K).norm(), 1e-9) << "train " << made;
        ASSERT_NEAR(std::hypot(pose->cos_turned, pose->sin_turned), 1.0, 1e-12);
        // The whole rocker turns: tip and ball by the same angle about the same shaft.
        const Vec3& n = train.train.rocker.axis_K;
        const Eigen::AngleAxisd turn(std::atan2(pose->sin_turned, pose->cos_turned), n);
        const Vec3 arm =
            train.train.rocker.ball_arm_K + linkage.adjuster_in_mm() * train.train.adjuster.axis_K;
        const Vec3& pivot = train.train.rocker.pivot_K;
        ASSERT_LT((pose->upper_ball_K - pivot - turn * arm).norm(), 1e-9) << "train " << made;
        ASSERT_LT((pose->roller_K - pivot - turn * train.train.rocker.tip_arm_K).norm(), 1e-9);
    }
    EXPECT_GT(most_adjusted, 1.0);
}

TEST(Linkage, RatesAreTheDerivativesOfThePose) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    const double h = 1e-3;
    for (int answered = 0; answered < 2000;) {
        const twins::RandomTrain train = twins::skew_train(random);
        const auto closing = Linkage::close(train.train);
        if (!closing.linkage) {
            continue;
        }
        const double s = between(random, 0.5, train.full_lift_mm);
        const auto below = closing.linkage->at(s - h);
        const auto here = closing.linkage->at(s);
        const auto above = closing.linkage->at(s + h);
        if (!below || !here || !above) {
            continue;
        }
        ++answered;
        const PoseRates rates = closing.linkage->rates(*here);
        const Vec3 speed = (above->upper_ball_K - below->upper_ball_K) / (2.0 * h);
        // Central difference: h²/6 of the third derivative, well below 1e-6, more near a dead
        // point.
        const double scale = 1.0 + rates.upper_ball_K.squaredNorm();
        ASSERT_LT((rates.upper_ball_K - speed).norm(), 1e-6 * scale * scale);
        const double sine =
            above->sin_turned * below->cos_turned - above->cos_turned * below->sin_turned;
        ASSERT_NEAR(rates.turned_rad_per_mm, std::asin(sine) / (2.0 * h), 1e-7 * scale * scale);
    }
}

TEST(Linkage, BoundsHoldOnRandomSubintervalsAndAreNotIdle) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    int bounded = 0;
    double tightest_curving = 0.0;
    for (int tried = 0; tried < 3000; ++tried) {
        const twins::RandomTrain train = twins::skew_train(random);
        const auto closing = Linkage::close(train.train);
        if (!closing.linkage) {
            continue;
        }
        const Linkage& linkage = *closing.linkage;
        double from = between(random, 0.0, train.full_lift_mm);
        double to = between(random, 0.0, train.full_lift_mm);
        if (from > to) {
            std::swap(from, to);
        }
        const auto swing_at = [&](double s) {
            return (linkage.rates(*linkage.at(s)).upper_ball_K - linkage.lifter_axis_K()).norm();
        };
        if (!linkage.at(from) || !linkage.at(to)) {
            continue;
        }
        const auto bounds = linkage.bounds(from, to, std::max(swing_at(from), swing_at(to)));
        if (!bounds) {
            continue;
        }
        ++bounded;
        constexpr int looks = 40;
        for (int look = 0; look <= looks; ++look) {
            const double s = from + (to - from) * look / looks;
            const auto pose = linkage.at(s);
            ASSERT_TRUE(pose.has_value()) << "bounds promise that it closes all the way";
            const double speed = linkage.rates(*pose).upper_ball_K.norm();
            ASSERT_LE(speed, bounds->upper_ball_speed * (1.0 + 1e-12)); // rounding
            ASSERT_LE(swing_at(s), bounds->swing_speed * (1.0 + 1e-12));
            const double h = 1e-4;
            if (s - h < from || s + h > to) {
                continue;
            }
            const Vec3 curving = (linkage.rates(*linkage.at(s + h)).upper_ball_K -
                                  linkage.rates(*linkage.at(s - h)).upper_ball_K) /
                                 (2.0 * h);
            // 1e-6: the central difference of rates, relative.
            ASSERT_LE(curving.norm(), bounds->upper_ball_curving_per_mm * (1.0 + 1e-6));
            tightest_curving =
                std::max(tightest_curving, curving.norm() / bounds->upper_ball_curving_per_mm);
        }
    }
    EXPECT_GT(bounded, 2000);
    EXPECT_GT(tightest_curving, 0.3); // a bound of, say, 1000 would pass everything above
}

// Closed form: a rod along the adjuster's own line needs the difference in length.
TEST(Linkage, AdjusterTakesUpTheRodsLengthAndSaysWhatItNeeds) {
    const PlanarTrain plane{0.0, 0.0, 22.0, 200.0, 180.0, -22.0, -200.0, 90.0};
    Train train = train_of(plane);
    train.adjuster.can_go_in_mm = 3.0;
    train.adjuster.can_go_out_mm = 2.0;
    for (const double longer : {-3.0, -1.25, 0.0, 0.5, 2.0}) {
        train.rod.length_mm = 200.0 + longer;
        const auto closing = Linkage::close(train);
        ASSERT_EQ(closing.status, TrainStatus::answered) << longer;
        EXPECT_NEAR(closing.linkage->adjuster_in_mm(), -longer, 1e-11);
        EXPECT_FALSE(closing.adjuster_needed_mm.has_value());
        const Pose heel = *closing.linkage->at(0.0);
        EXPECT_NEAR((heel.upper_ball_K - heel.lower_ball_K).norm(), train.rod.length_mm, 1e-11);
        EXPECT_NEAR(heel.sin_turned, 0.0, 1e-12); // set on the heel, where the rocker stands
    }
    for (const double longer : {-3.01, 2.01, 60.0}) {
        train.rod.length_mm = 200.0 + longer;
        const auto closing = Linkage::close(train);
        EXPECT_EQ(closing.status, TrainStatus::adjuster_out_of_thread) << longer;
        EXPECT_FALSE(closing.linkage.has_value());
        ASSERT_TRUE(closing.adjuster_needed_mm.has_value());
        EXPECT_NEAR(*closing.adjuster_needed_mm, -longer, 1e-11);
    }
}

TEST(Linkage, ARodThatNoAdjusterReachesIsTooShort) {
    Train train = train_of({0.0, 0.0, 22.0, 200.0, 180.0, -22.0, -200.0, 90.0});
    train.adjuster.can_go_in_mm = 1000.0;
    train.adjuster.can_go_out_mm = 1000.0;
    // The screw's line passes the lower ball 10 mm beside it: a rod of 9.9 mm can't join them.
    const double beside = 10.0 / 200.0;
    const Paper paper;
    train.adjuster.axis_K = paper.direction(beside, -std::sqrt(1.0 - beside * beside));
    train.rod.length_mm = 9.9;
    EXPECT_EQ(Linkage::close(train).status, TrainStatus::rod_too_short);
    EXPECT_FALSE(Linkage::close(train).linkage.has_value());
    train.rod.length_mm = 10.1;
    EXPECT_NE(Linkage::close(train).status, TrainStatus::rod_too_short);
}

/// Slider in line with the crank, pushing outward: ball arm 30, rod 100, distance 130 stretched,
/// 70 folded.
TEST(Linkage, NamesWhatEndsItsTravel) {
    const double start = 30.0 * std::cos(radians(60.0)) + std::sqrt(1e4 - 30.0 * 30.0 * 0.75);
    const PlanarTrain plane{0.0, 0.0, 30.0, 100.0, 60.0, start, 0.0, 0.0};
    const Linkage outward = *Linkage::close(train_of(plane)).linkage;
    EXPECT_EQ(outward.status_at(0.0), TrainStatus::answered);
    EXPECT_EQ(outward.status_at(130.0 - start - 1e-3), TrainStatus::near_dead_point);
    EXPECT_EQ(outward.status_at(130.0 - start + 1e-3), TrainStatus::rod_too_short);
    EXPECT_EQ(outward.status_at(500.0), TrainStatus::rod_too_short);
    // Inward: folded at 70, where ball arm and rod lie over one another.
    EXPECT_EQ(outward.status_at(70.0 - start + 1e-3), TrainStatus::near_dead_point);
    EXPECT_EQ(outward.status_at(70.0 - start - 1e-3), TrainStatus::rod_too_long);
    EXPECT_EQ(outward.status_at(0.5 - start), TrainStatus::arm_too_short);
    for (const double s : {130.0 - start - 1e-3, 500.0, 70.0 - start - 1e-3, 0.5 - start}) {
        EXPECT_FALSE(outward.at(s).has_value()) << s;
    }
    // sin α = 0.02 is the line: cos α by the law of cosines, arm 30, rod 100, distance d.
    const auto sine = [](double d) {
        const double c = (d * d + 900.0 - 1e4) / (60.0 * d);
        return std::sqrt(1.0 - c * c);
    };
    double low = 125.0;
    double high = 130.0;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (low + high) / 2.0;
        (sine(middle) > 0.02 ? low : high) = middle;
    }
    EXPECT_EQ(outward.status_at(low - start - 1e-6), TrainStatus::answered);
    EXPECT_EQ(outward.status_at(low - start + 1e-6), TrainStatus::near_dead_point);
    EXPECT_FALSE(outward.bounds(100.0 - start, 130.0 - start, 5.0).has_value());
}

TEST(Linkage, RefusesAnArmWithoutLength) {
    Train train = train_of({0.0, 0.0, 22.0, 200.0, 180.0, -22.0, -200.0, 90.0});
    // The ball almost on the shaft: all its arm lies along it.
    train.rocker.ball_arm_K =
        20.0 * train.rocker.axis_K + 0.9 * train.rocker.ball_arm_K.normalized();
    const Vec3 rod = train.lifter.lower_ball_K() - train.rocker.pivot_K - train.rocker.ball_arm_K;
    train.rod.length_mm = rod.norm();
    train.adjuster.axis_K = rod.normalized();
    const auto closing = Linkage::close(train);
    EXPECT_EQ(closing.status, TrainStatus::arm_too_short);
    EXPECT_FALSE(closing.linkage.has_value());
}

TEST(Linkage, NetLiftIsGrossLessLashAndNeverNegative) {
    std::cout << "seed " << seed + 3 << '\n';
    std::mt19937_64 random(seed + 3);
    int taking_up = 0;
    int lifting = 0;
    for (int tried = 0; tried < 300; ++tried) {
        const twins::RandomTrain train = twins::random_train(random);
        const auto closing = Linkage::close(train.train);
        if (!closing.linkage) {
            continue;
        }
        const Linkage& linkage = *closing.linkage;
        EXPECT_NEAR(linkage.gross_lift_mm(*linkage.at(0.0)), 0.0, 1e-11); // rounding
        for (const double share : {0.01, 0.03, 0.2, 1.0}) {
            const auto pose = linkage.at(share * train.full_lift_mm);
            if (!pose) {
                continue;
            }
            const double gross = linkage.gross_lift_mm(*pose);
            const Vec3 moved =
                pose->roller_K - train.train.rocker.pivot_K - train.train.rocker.tip_arm_K;
            EXPECT_NEAR(gross, -train.train.valve.axis_K.dot(moved), 1e-11);
            const double net = gross - train.train.valve.lash_mm;
            EXPECT_NEAR(linkage.valve_lift_mm(*pose), net > 0.0 ? net : 0.0, 1e-11);
            taking_up += net < 0.0;
            lifting += net > 0.0;
        }
    }
    EXPECT_GT(taking_up, 50);
    EXPECT_GT(lifting, 200);
}

// Nonsense in: a status or a finite pose comes out.
TEST(Linkage, NeverAnswersWithNaN) {
    std::cout << "seed " << seed + 4 << '\n';
    std::mt19937_64 random(seed + 4);
    int closed = 0;
    int poses = 0;
    for (int tried = 0; tried < 20000; ++tried) {
        twins::RandomTrain made = twins::random_train(random);
        Train& train = made.train;
        const auto spoil = [&](Vec3& point) {
            if (between(random, 0.0, 1.0) < 0.3) {
                point = Vec3(between(random, -400, 400), between(random, -400, 400),
                             between(random, -400, 400));
            } else if (between(random, 0.0, 1.0) < 0.05) {
                point = Vec3::Zero();
            }
        };
        spoil(train.lifter.foot_K);
        spoil(train.rocker.pivot_K);
        spoil(train.rocker.ball_arm_K);
        train.rod.length_mm *= between(random, 0.05, 2.0);
        train.adjuster.can_go_in_mm = 500.0;
        train.adjuster.can_go_out_mm = 500.0;
        const auto closing = Linkage::close(train);
        ASSERT_EQ(closing.status == TrainStatus::answered, closing.linkage.has_value());
        if (!closing.linkage) {
            continue;
        }
        ++closed;
        ASSERT_TRUE(std::isfinite(closing.linkage->adjuster_in_mm()));
        for (double s = 0.0; s < 60.0; s += 1.5) {
            const auto pose = closing.linkage->at(s);
            ASSERT_EQ(pose.has_value(), closing.linkage->status_at(s) == TrainStatus::answered);
            if (!pose) {
                continue;
            }
            ++poses;
            ASSERT_TRUE(pose->upper_ball_K.allFinite() && pose->roller_K.allFinite());
            const PoseRates rates = closing.linkage->rates(*pose);
            ASSERT_TRUE(rates.upper_ball_K.allFinite() && std::isfinite(rates.turned_rad_per_mm));
            ASSERT_NEAR((pose->upper_ball_K - pose->lower_ball_K).norm(), train.rod.length_mm,
                        1e-9);
            const auto bounds = closing.linkage->bounds(s, s + 1.0, 3.0);
            ASSERT_TRUE(!bounds || std::isfinite(bounds->upper_ball_curving_per_mm));
        }
    }
    EXPECT_GT(closed, 1000);
    EXPECT_GT(poses, 20000);
}

} // namespace
} // namespace rodway
