// Every kind of passage and obstacle, with rods of every profile: the certified minimum beside a
// walk of the lift and of the rod by slow twins that share nothing with it but the set-up.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <iostream>
#include <limits>
#include <map>

#include "core/clearance/certified_minimum.h"
#include "tests/twins/slow_distance.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261206;

double between(std::mt19937_64& random, double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
}

Vec3 about(std::mt19937_64& random, double spread) {
    return {between(random, -spread, spread), between(random, -spread, spread),
            between(random, -spread, spread)};
}

constexpr std::array kinds{"round tube", "rounded tube", "obround tube", "rounded obround", "plane",
                           "bar",        "box",          "capsule",      "rocker body"};
constexpr int passages = 4;
constexpr int profiles = 6;

/// Straight; thick middle; thick below a step inside the tube; a taper right through; swaged ends;
/// a mixture with a gap in what is given.
std::vector<RodSection> random_profile(std::mt19937_64& random, int kind, const Train& train) {
    const double L = train.rod.length_mm;
    const double thick = train.rod.diameter_mm;
    const double thin = between(random, 0.6, 0.95) * thick;
    const Bore& bore = train.tube.bore;
    const double lip = (bore.centre_K - train.lifter.lower_ball_K()).norm() +
                       (random() % 2 == 0 ? 0.5 : -0.5) * bore.length_mm;
    const double at = std::clamp(lip + between(random, -12.0, 12.0), 5.0, L - 5.0);
    switch (kind) {
        case 0:
            return {};
        case 1:
            return {{0, 0.3 * L, thin, thin},
                    {0.3 * L, 0.7 * L, thick, thick},
                    {0.7 * L, L, thin, thin}};
        case 2:
            return {{0, at, thick, thick}, {at, L, thin, thin}};
        case 3:
            return {{0, L, thin, thick}};
        case 4:
            return {{0, at, thin, thin},
                    {at, std::min(L, at + 4.0), thin, thick},
                    {std::min(L, at + 4.0), L, thick, thick}};
        default:
            return {{0, 0.2 * L, thin, thin}, {0.4 * L, at + L, thick, thick}};
    }
}

/// The same in the twin's hands: what isn't given is as thick as the thickest.
std::vector<RodSection> whole_profile(const Pushrod& rod) {
    if (rod.profile.empty()) {
        return {{0, rod.length_mm, rod.diameter_mm, rod.diameter_mm}};
    }
    std::vector<RodSection> whole;
    double covered = 0.0;
    for (RodSection section : rod.profile) {
        if (section.from_mm >= rod.length_mm) {
            continue;
        }
        if (section.from_mm > covered) {
            whole.push_back({covered, section.from_mm, rod.diameter_mm, rod.diameter_mm});
        }
        if (section.to_mm > rod.length_mm) { // only sections of even diameter stick out here
            section.to_mm = rod.length_mm;
        }
        whole.push_back(section);
        covered = section.to_mm;
    }
    if (covered < rod.length_mm) {
        whole.push_back({covered, rod.length_mm, rod.diameter_mm, rod.diameter_mm});
    }
    return whole;
}

Bore random_passage(std::mt19937_64& random, int kind, const Bore& round) {
    Bore bore = round;
    if (kind % 2 == 1) {
        bore.top_edge_radius_mm = between(random, 0.5, 5.0);
        bore.bottom_edge_radius_mm = between(random, 0.5, 5.0);
    }
    if (kind >= 2) {
        bore.half_straight_mm = between(random, 0.5, 6.0);
        const Vec3 u = bore.axis_K.unitOrthogonal();
        bore.long_way_K = Eigen::AngleAxisd(between(random, 0.0, 3.1), bore.axis_K) * u;
    }
    return bore;
}

/// A solid about `gap` away from a place on the rod's axis.
Solid random_obstacle(std::mt19937_64& random, int kind, const Vec3& on_axis, const Vec3& along_rod,
                      double gap) {
    const Vec3 any = along_rod.unitOrthogonal();
    const Vec3 out = Eigen::AngleAxisd(between(random, 0.0, 6.28), along_rod) * any;
    const Vec3 touch = on_axis + gap * out;
    const Vec3 lean = (out + about(random, 0.3)).normalized();
    const double r = between(random, 1.0, 10.0);
    const Vec3 side = lean.unitOrthogonal();
    switch (kind) {
        case 4:
            return HalfSpace{touch, -lean};
        case 5:
            return RoundBar{touch, touch + between(random, 3.0, 30.0) * lean, r};
        case 6:
            return Cuboid{touch + r * lean,
                          {lean, side, lean.cross(side)},
                          Vec3(r, between(random, 1.0, 20.0), between(random, 1.0, 20.0))};
        default: {
            const Vec3 middle = touch + r * out;
            const Vec3 half = about(random, 20.0);
            const Vec3 across = half - half.dot(out) * out;
            return Capsule{middle - across, middle + across, r};
        }
    }
}

struct Case {
    twins::RandomTrain random;
    TrainSurroundings surroundings;
    int kind = 0;
};

std::optional<Case> random_case(std::mt19937_64& random, int number) {
    twins::RandomTrain drawn = twins::random_train(random);
    drawn.train.rod.profile =
        random_profile(random, number / static_cast<int>(kinds.size()) % profiles, drawn.train);
    const auto closing = Linkage::close(drawn.train);
    if (!closing.linkage) {
        return std::nullopt;
    }
    Case made{drawn,
              {*closing.linkage, rod_sections(drawn.train.rod), drawn.full_lift_mm, 1.0, {}, {}},
              number % static_cast<int>(kinds.size())};
    const Train& train = made.random.train;
    const double s = between(random, 0.0, made.random.full_lift_mm);
    const auto pose = closing.linkage->at(s);
    if (!pose) {
        return std::nullopt;
    }
    const Vec3 along = (pose->upper_ball_K - pose->lower_ball_K).normalized();
    const Vec3 on_axis =
        pose->lower_ball_K + between(random, 0.05, 0.95) * train.rod.length_mm * along;
    const double gap = train.rod.diameter_mm / 2.0 + between(random, -1.0, 6.0);
    const std::string name = kinds[static_cast<std::size_t>(made.kind)];
    if (made.kind < passages) {
        made.surroundings.features.push_back(
            {FeatureKind::passage, name, random_passage(random, made.kind, train.tube.bore)});
    } else if (made.kind == 8) {
        const Vec3 arm = train.rocker.ball_arm_K;
        const Vec3 off = about(random, 12.0);
        made.surroundings.features.push_back(
            {FeatureKind::rocker_body, name,
             Solid(Capsule{0.1 * arm + off, between(random, 0.5, 0.9) * arm + off,
                           between(random, 2.0, 6.0)})});
    } else {
        made.surroundings.features.push_back(
            {FeatureKind::obstacle, name, random_obstacle(random, made.kind, on_axis, along, gap)});
    }
    return made;
}

/// The twin's own pose, its own turned rocker body, its own distances.
double slow_clearance_at(const Case& made, double s) {
    const Train& train = made.random.train;
    const auto pose = twins::slow_pose(train, made.surroundings.linkage.adjuster_in_mm(), s);
    EXPECT_TRUE(pose.has_value());
    const Feature& feature = made.surroundings.features.front();
    twins::PointDistance distance;
    if (const Bore* bore = std::get_if<Bore>(&feature.shape)) {
        distance = [bore](const Vec3& p) { return twins::slow_distance(*bore, p); };
    } else if (feature.kind == FeatureKind::rocker_body) {
        distance =
            [&, turn = Eigen::AngleAxisd(-pose->turned_rad, train.rocker.axis_K)](const Vec3& p) {
                return twins::slow_distance(*std::get_if<Solid>(&feature.shape),
                                            turn * Vec3(p - train.rocker.pivot_K));
            };
    } else {
        distance = [&](const Vec3& p) {
            return twins::slow_distance(*std::get_if<Solid>(&feature.shape), p);
        };
    }
    return twins::slow_clearance(distance, pose->lower_ball_K, pose->upper_ball_K,
                                 whole_profile(train.rod));
}

TEST(CertifiedMinima, HoldBothWaysForEveryKindOfThingAndProfile) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    struct Count {
        int answered = 0, beside = 0, negative = 0, middle = 0, worst = 0;
        long evaluations = 0;
    };
    std::map<std::string, Count> counts;
    int answered = 0;
    for (int number = 0; answered < 2000; ++number) {
        ASSERT_LT(number, 6000);
        const auto made = random_case(random, number);
        if (!made) {
            continue;
        }
        const CertifiedMinimum found = certified_minima(made->surroundings).front();
        Count& count = counts[kinds[static_cast<std::size_t>(made->kind)]];
        if (found.status != TrainStatus::answered) {
            ASSERT_LT(made->kind, passages) << number;
            ASSERT_EQ(found.status, TrainStatus::does_not_go_through) << number;
            ++count.beside;
            continue;
        }
        ++answered;
        ++count.answered;
        count.negative += found.minimum->clearance_mm < 0.0;
        count.evaluations += found.evaluations;
        count.worst = std::max(count.worst, found.evaluations);
        ASSERT_LE(found.bound_mm, 0.001) << number;
        const double least = found.minimum->clearance_mm;
        const double at = found.minimum->lobe_lift_mm;
        const double full = made->surroundings.full_lift_mm;
        count.middle += at > 0.0 && at < full;
        // Attained where it says; 1e-7 mm: golden section, bisection and rounding.
        ASSERT_NEAR(slow_clearance_at(*made, at), least, 1e-7) << number;
        ASSERT_NEAR(slow_clearance_at(*made, 0.0), found.on_heel->clearance_mm, 1e-7) << number;
        // And nowhere less. The walk can't be below the truth but for rounding.
        constexpr int looks = 12;
        for (int look = 0; look <= looks; ++look) {
            ASSERT_GE(slow_clearance_at(*made, full * look / looks), least - 1e-9)
                << number << ' ' << kinds[static_cast<std::size_t>(made->kind)];
        }
        for (const double near : {-0.01, 0.01}) {
            ASSERT_GE(slow_clearance_at(*made, std::clamp(at + near, 0.0, full)), least - 1e-9)
                << number;
        }
        const RodClearance& w = *found.minimum;
        ASSERT_LT((w.p_wall_K - w.p_rod_K - w.clearance_mm * w.normal_K).norm(), 1e-9) << number;
        ASSERT_EQ(w.in_passage.has_value(), made->kind < passages);
    }
    for (const auto& [kind, count] : counts) {
        std::cout << kind << ": " << count.answered << " answered, " << count.beside
                  << " not through, " << count.negative << " negative, " << count.middle
                  << " in mid-lift, "
                  << static_cast<double>(count.evaluations) / std::max(1, count.answered)
                  << " evaluations, " << count.worst << " at most\n";
        EXPECT_GT(count.answered, 100) << kind;
        EXPECT_GT(count.negative, 5) << kind;
        EXPECT_GT(count.middle, 5) << kind;
    }
    EXPECT_EQ(counts.size(), kinds.size());
}

TEST(CertifiedMinima, FineWalksOfTheLiftFindNothingBelow) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    int walked = 0;
    for (int number = 0; walked < 60; ++number) {
        const auto made = random_case(random, number);
        if (!made) {
            continue;
        }
        const CertifiedMinimum found = certified_minima(made->surroundings).front();
        if (found.status != TrainStatus::answered) {
            continue;
        }
        ++walked;
        double least = 1e9;
        for (int look = 0; look <= 1000; ++look) {
            const double s = made->surroundings.full_lift_mm * look / 1000.0;
            least = std::min(least, pair_clearance_at(made->surroundings, {0}, s)->clearance_mm);
        }
        ASSERT_GE(least, found.minimum->clearance_mm - 1e-9) << number;
    }
}

/// A train without a random thing, for what is built by hand.
Case plain_case(std::mt19937_64& random) {
    for (int number = 0;; number += static_cast<int>(kinds.size())) {
        if (auto made = random_case(random, number)) {
            const Bore tube = made->random.train.tube.bore;
            made->surroundings.features = {{FeatureKind::port_tube, "tube", tube}};
            const auto found = certified_minima(made->surroundings).front();
            if (found.status == TrainStatus::answered) {
                return *made;
            }
        }
    }
}

TEST(CertifiedMinima, AnObstacleThatTheRodStandsInIsNegativeByItsDepth) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    for (int tried = 0; tried < 20; ++tried) {
        Case made = plain_case(random);
        made.random.train.rod.profile.clear();
        made.surroundings.rod = rod_sections(made.random.train.rod);
        const double rod = made.random.train.rod.diameter_mm / 2.0;
        const Pose pose = *made.surroundings.linkage.at(0.5 * made.surroundings.full_lift_mm);
        const Vec3 middle = (pose.lower_ball_K + pose.upper_ball_K) / 2.0;
        const Vec3 along = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        const Vec3 side = along.unitOrthogonal();
        // The rod runs through the middle of each, along its shortest way out.
        made.surroundings.features = {
            {FeatureKind::obstacle, "capsule",
             Solid(Capsule{middle - 30.0 * side, middle + 30.0 * side, 4.0})},
            {FeatureKind::obstacle, "box",
             Solid(Cuboid{middle, {side, along.cross(side), along}, Vec3(6.0, 9.0, 20.0)})},
            {FeatureKind::obstacle, "bar",
             Solid(RoundBar{middle - 20.0 * along, middle + 20.0 * along, 5.0})}};
        const auto all = certified_minima(made.surroundings);
        const std::array deepest{4.0, 6.0, 5.0};
        for (std::size_t at = 0; at < 3; ++at) {
            ASSERT_EQ(all[at].status, TrainStatus::answered);
            ASSERT_LE(all[at].bound_mm, 0.001);
            // In mid-lift the rod is at the very middle; nowhere can it be deeper than that.
            ASSERT_NEAR(all[at].minimum->clearance_mm, -deepest[at] - rod, 1e-3) << tried << at;
            ASSERT_GE(all[at].minimum->clearance_mm, -deepest[at] - rod - 1e-9);
        }
        EXPECT_EQ(deciding(all).feature, "box");
    }
}

// A lump far out on the rocker sweeps past the rod, several times as fast as the rod moves: with
// plenty of room on the heel and at full lift, and 0.2 mm in mid-lift.
TEST(CertifiedMinima, ALumpOnTheRockerThatSweepsPastTheRodIsSeen) {
    std::cout << "seed " << seed + 7 << '\n';
    std::mt19937_64 random(seed + 7);
    for (int tried = 0; tried < 20; ++tried) {
        Case made = plain_case(random);
        made.random.train.rod.profile.clear();
        made.surroundings.rod = rod_sections(made.random.train.rod);
        const Train& train = made.random.train;
        const double middle = 0.5 * made.surroundings.full_lift_mm;
        const auto pose =
            twins::slow_pose(train, made.surroundings.linkage.adjuster_in_mm(), middle);
        ASSERT_TRUE(pose.has_value());
        const Vec3 along = (pose->upper_ball_K - pose->lower_ball_K).normalized();
        const Vec3& n = train.rocker.axis_K;
        const Vec3 aside = (n - n.dot(along) * along).normalized();
        const Vec3 lump_K = (pose->lower_ball_K + pose->upper_ball_K) / 2.0 +
                            (train.rod.diameter_mm / 2.0 + 1.0 + 0.2) * aside;
        const Vec3 on_heel =
            Eigen::AngleAxisd(-pose->turned_rad, n) * Vec3(lump_K - train.rocker.pivot_K);
        made.surroundings.features = {
            {FeatureKind::rocker_body, "lump", Solid(Capsule{on_heel, on_heel, 1.0})}};
        const CertifiedMinimum found = certified_minima(made.surroundings).front();
        ASSERT_EQ(found.status, TrainStatus::answered);
        ASSERT_LE(found.bound_mm, 0.001);
        ASSERT_LE(found.minimum->clearance_mm, 0.2 + 1e-9);
        ASSERT_GT(found.on_heel->clearance_mm, 5.0);
        ASSERT_GT(found.at_full_lift->clearance_mm, 5.0);
        ASSERT_NEAR(slow_clearance_at(made, found.minimum->lobe_lift_mm),
                    found.minimum->clearance_mm, 1e-7);
        for (int look = -20; look <= 20; ++look) {
            ASSERT_GE(slow_clearance_at(made, middle + 0.005 * look),
                      found.minimum->clearance_mm - 1e-9);
        }
    }
}

// Concentric at mid-lift, so that the whole rim ties there, at both ends; and a second obstacle
// that mirrors the first, so that two places tie all the way.
TEST(CertifiedMinima, TiesAreNoTrouble) {
    std::cout << "seed " << seed + 3 << '\n';
    std::mt19937_64 random(seed + 3);
    for (int tried = 0; tried < 50; ++tried) {
        Case made = plain_case(random);
        const Pose pose = *made.surroundings.linkage.at(0.5 * made.surroundings.full_lift_mm);
        Bore& tube = *std::get_if<Bore>(&made.surroundings.features.front().shape);
        tube.axis_K = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        tube.centre_K = pose.lower_ball_K + 0.5 * (pose.upper_ball_K - pose.lower_ball_K);
        tube.bore_radius_mm = 12.0;
        const CertifiedMinimum found = certified_minima(made.surroundings).front();
        ASSERT_EQ(found.status, TrainStatus::answered);
        ASSERT_LE(found.bound_mm, 0.001);
        ASSERT_LE(found.evaluations, 300);
        made.kind = 0;
        for (int look = 0; look <= 40; ++look) {
            ASSERT_GE(slow_clearance_at(made, made.surroundings.full_lift_mm * look / 40.0),
                      found.minimum->clearance_mm - 1e-9);
        }
    }
}

// The tube is tilted until its wall passes the axis by a thousandth of a millimetre.
TEST(CertifiedMinima, ATubeTiltedToItsLimitIsAnsweredUpToThereAndNotBeyond) {
    std::cout << "seed " << seed + 4 << '\n';
    std::mt19937_64 random(seed + 4);
    for (int tried = 0; tried < 20; ++tried) {
        Case made = plain_case(random);
        Bore& tube = *std::get_if<Bore>(&made.surroundings.features.front().shape);
        const Vec3 axis = tube.axis_K;
        const Vec3 about_K = axis.unitOrthogonal();
        const auto tilted = [&](double rad) {
            tube.axis_K = (Eigen::AngleAxisd(rad, about_K) * axis).normalized();
            return certified_minima(made.surroundings).front();
        };
        double low = 0.0;
        double high = 1.0;
        for (int halving = 0; halving < 40; ++halving) {
            const double middle = (low + high) / 2.0;
            (tilted(middle).status == TrainStatus::answered ? low : high) = middle;
        }
        const CertifiedMinimum last = tilted(low);
        ASSERT_EQ(last.status, TrainStatus::answered);
        ASSERT_LE(last.bound_mm, 0.001);
        const double axis_left = last.minimum->clearance_mm + last.minimum->ball_radius_mm;
        // The search gives up where its narrowest interval can't prove that the axis passes.
        ASSERT_LT(std::abs(axis_left), 0.2) << tried;
        ASSERT_NEAR(slow_clearance_at(made, last.minimum->lobe_lift_mm), last.minimum->clearance_mm,
                    1e-7);
        ASSERT_EQ(tilted(high + 0.01).status, TrainStatus::does_not_go_through);
    }
}

// A lifter's body moves along its own axis only: beside a plane square to it the least is at full
// lift, exactly the lift less than on the heel; under a low one, on the heel; past a pin, between.
TEST(CertifiedMinima, ALiftersBodyAgainstObstaclesOnly) {
    std::mt19937_64 random(seed + 5);
    Case made = plain_case(random);
    TrainSurroundings& around = made.surroundings;
    const Vec3& a = around.linkage.lifter_axis_K();
    const Vec3 foot = made.random.train.lifter.foot_K;
    around.lifter_body = LifterBody{foot, 40.0, 10.0};
    const Vec3 side = a.unitOrthogonal();
    around.features.push_back(
        {FeatureKind::obstacle, "roof", Solid(HalfSpace{foot + 70.0 * a, -a})});
    around.features.push_back(
        {FeatureKind::obstacle, "floor", Solid(HalfSpace{foot - 11.0 * a, a})});
    const Vec3 pin = foot + (40.0 + 0.5 * around.full_lift_mm) * a + 15.0 * side;
    around.features.push_back(
        {FeatureKind::obstacle, "pin", Solid(Capsule{pin, pin + 20.0 * side, 2.0})});
    around.features.push_back(
        {FeatureKind::rocker_body, "rocker", Solid(Capsule{-foot, foot, 1.0})});
    const auto all = certified_minima(around);
    ASSERT_EQ(all.size(), 5u + 3u);
    const auto body = [&](std::size_t at) -> const CertifiedMinimum& {
        EXPECT_EQ(all[5 + at].part, MovedPart::lifter_body);
        EXPECT_EQ(all[5 + at].minimum->part, MovedPart::lifter_body);
        return all[5 + at];
    };
    EXPECT_NEAR(body(0).minimum->clearance_mm, 20.0 - around.full_lift_mm, 1e-9);
    EXPECT_EQ(body(0).minimum->lobe_lift_mm, around.full_lift_mm);
    EXPECT_NEAR(body(0).on_heel->clearance_mm, 20.0, 1e-9);
    EXPECT_NEAR(body(1).minimum->clearance_mm, 1.0, 1e-9);
    EXPECT_EQ(body(1).minimum->lobe_lift_mm, 0.0);
    EXPECT_NEAR(body(2).minimum->clearance_mm, 3.0, 1e-9); // 15 - 2 - 10
    EXPECT_NEAR(body(2).minimum->lobe_lift_mm, 0.5 * around.full_lift_mm, 1e-4);
    EXPECT_LE(body(2).bound_mm, 1e-9);
    for (int look = 0; look <= 100; ++look) {
        const double s = around.full_lift_mm * look / 100.0;
        for (std::size_t at = 0; at < 3; ++at) {
            EXPECT_GE(pair_clearance_at(around, {at + 1, MovedPart::lifter_body}, s)->clearance_mm,
                      body(at).minimum->clearance_mm - 1e-9);
        }
    }
}

TEST(CertifiedMinima, WhatIsNoNumberIsOutsideTheDomainAndNeverStopsTheProgram) {
    std::mt19937_64 random(seed + 6);
    Case made = plain_case(random);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    made.surroundings.lifter_body = LifterBody{Vec3::Zero(), 40.0, 10.0};
    made.surroundings.features.push_back(
        {FeatureKind::obstacle, "bad", Solid(HalfSpace{{nan, 0, 0}, Vec3::UnitZ()})});
    Bore bad = made.random.train.tube.bore;
    bad.bore_radius_mm = nan;
    made.surroundings.features.push_back({FeatureKind::passage, "bad hole", bad});
    const auto all = certified_minima(made.surroundings);
    ASSERT_EQ(all.size(), 4u);
    EXPECT_EQ(all[0].status, TrainStatus::answered);
    EXPECT_EQ(all[1].status, TrainStatus::outside_domain);
    EXPECT_EQ(all[2].status, TrainStatus::does_not_go_through);
    EXPECT_EQ(all[3].status, TrainStatus::outside_domain);
    EXPECT_EQ(deciding(all).feature, "bad");
    EXPECT_FALSE(least_clearance_at(made.surroundings, 0.0).has_value());
}

} // namespace
} // namespace rodway
