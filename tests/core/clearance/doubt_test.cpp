#include "core/clearance/doubt.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/valvetrain/train_motion.h"
#include "tests/core/clearance/one_train_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr DoubtSource measured = DoubtSource::measured;

/// A train that closes and goes through its tube, with its minimum where it is wanted.
struct Case {
    Engine engine;
    RodInTube rod;
    CertifiedMinimum found;

    const Train& train() const { return engine.trains[0]; }
    std::optional<ClearanceDoubt> doubt(const EngineDoubt& stated) const {
        const auto around = train_surroundings(engine, train());
        return doubt_of(engine, train(), *around->surroundings,
                        certified_minima(*around->surroundings), stated);
    }
};

enum class Where { heel, elsewhere };

Case a_case(std::mt19937_64& random, Where where) {
    while (true) {
        const twins::RandomTrain some = twins::random_train(random);
        Engine engine = engine_around(some.train, some.full_lift_mm);
        const auto closed = rod_in_tube(engine, engine.trains[0]);
        if (!closed->rod) {
            continue;
        }
        const CertifiedMinimum found = certified_minimum(*closed->rod);
        if (!found.minimum) {
            continue;
        }
        // Well away from heel and full lift, or one of them, so that it alone rules.
        const double least = found.minimum->clearance_mm;
        const double s = found.minimum->lobe_lift_mm;
        const bool alone =
            (s == 0.0 || found.on_heel->clearance_mm > least + 0.05) &&
            (s == closed->rod->full_lift_mm || found.at_full_lift->clearance_mm > least + 0.05);
        if (alone && (s == 0.0) == (where == Where::heel)) {
            return {engine, *closed->rod, found};
        }
    }
}

/// The clearance at the minimum's lobe lift with the lower ball or the pivot moved, the screw left
/// as it stands: the linkage is closed from a train that has the screw's travel in its arm.
double moved_clearance_mm(const Case& some, const Vec3& lower_by_K, const Vec3& pivot_by_K) {
    Train train = some.train();
    train.rocker.ball_arm_K = some.rod.linkage.ball_arm_K();
    train.adjuster.kind = AdjusterKind::none;
    train.lifter.kind = LifterKind::solid;
    train.lifter.seat_height_mm -= some.rod.linkage.preload_mm();
    train.lifter.preload_mm = 0.0;
    train.valve.lash_mm = 2.5; // wide enough for any of this
    train.lifter.foot_K += lower_by_K;
    train.rocker.pivot_K += pivot_by_K;
    RodInTube rod = some.rod;
    rod.linkage = *Linkage::close(train).linkage;
    return rod_clearance_at(rod, some.found.minimum->lobe_lift_mm)->clearance_mm;
}

double change_mm(const Case& some, const Vec3& lower_by_K, const Vec3& pivot_by_K) {
    return moved_clearance_mm(some, lower_by_K, pivot_by_K) - some.found.minimum->clearance_mm;
}

// Sizes of a hundredth of a millimetre: what bends in a clearance, its square over the bore's
// radius, is below 5e-5 mm. It dominates.
constexpr double small_mm = 0.01;
constexpr double bend_mm = 5e-5;

TEST(Doubt, IsUnknownWhereNothingIsStated) {
    std::mt19937_64 random(seed);
    const Case some = a_case(random, Where::heel);
    EXPECT_FALSE(some.doubt({}).has_value());
    EngineDoubt none;
    none.rod_runout = StatedSize{0.0, measured}; // a zero is no doubt either
    EXPECT_FALSE(some.doubt(none).has_value());
    none.leak_down = StatedSize{1.0, measured}; // of a solid lifter
    EXPECT_FALSE(some.doubt(none).has_value());
    for (const double odd : {std::numeric_limits<double>::quiet_NaN(),
                             std::numeric_limits<double>::infinity(), -1.0}) {
        EngineDoubt strange;
        strange.rod_runout = strange.seat_off_axis = strange.lifter_bore_slop =
            StatedSize{odd, measured};
        strange.inputs[ParameterKind::rod_length] = {odd, measured};
        EXPECT_FALSE(some.doubt(strange).has_value()) << odd;
    }
}

TEST(Doubt, EndFloatActsTowardsTheSideToWhichTheRodLeans) {
    std::mt19937_64 random(seed + 1);
    std::cout << "seed " << seed << '\n';
    int took = 0;
    int gave = 0;
    for (int made = 0; made < 40; ++made) {
        Case some = a_case(random, made % 2 ? Where::heel : Where::elsewhere);
        some.engine.trains[0].rocker.end_float_mm = 2.0 * small_mm;
        const double s = some.found.minimum->lobe_lift_mm;
        const double side = train_at_lift(some.train(), some.rod.linkage, s)->side_share;
        const Vec3 pushed = std::copysign(small_mm, side) * some.rod.linkage.shaft_axis_K();
        const double change = change_mm(some, Vec3::Zero(), pushed);
        const auto doubt = some.doubt({});
        if (std::abs(change) < bend_mm || std::abs(side) < 0.01) {
            continue;
        }
        ASSERT_TRUE(doubt.has_value());
        EXPECT_NEAR(doubt->minus_mm, std::max(0.0, -change), bend_mm);
        EXPECT_NEAR(doubt->plus_mm, std::max(0.0, change), bend_mm);
        EXPECT_EQ(doubt->contributions[0].kind, DoubtKind::end_float);
        ++(change < 0.0 ? took : gave);
    }
    EXPECT_GT(took, 5);
    EXPECT_GT(gave, 5);
}

TEST(Doubt, ASeatOffAxisStandsTheWorstWaySomeTimeInItsTurn) {
    std::mt19937_64 random(seed + 2);
    for (int made = 0; made < 12; ++made) {
        Case some = a_case(random, made % 2 ? Where::heel : Where::elsewhere);
        const AcrossAxis across = across_axis(some.train().lifter.axis_K, 1.0);
        double least = 0.0;
        double most = 0.0;
        for (int look = 0; look < 720; ++look) {
            const double turn = look * std::numbers::pi / 360.0;
            const Vec3 by = small_mm * (std::cos(turn) * across.rearward_K +
                                        std::sin(turn) * across.outboard_K);
            const double change = change_mm(some, by, Vec3::Zero());
            least = std::min(least, change);
            most = std::max(most, change);
        }
        EngineDoubt stated;
        stated.seat_off_axis = StatedSize{small_mm, measured};
        const auto doubt = some.doubt(stated);
        ASSERT_TRUE(doubt.has_value());
        EXPECT_NEAR(doubt->minus_mm, -least, bend_mm);
        EXPECT_NEAR(doubt->plus_mm, most, bend_mm);
        EXPECT_GT(doubt->minus_mm, 0.2 * small_mm);
        // A roller lifter is kept from turning.
        some.engine.trains[0].lifter.follower = FollowerKind::roller;
        EXPECT_FALSE(some.doubt(stated).has_value());
    }
}

TEST(Doubt, LifterSlopActsInTheCamsPlaneOffTheHeelAndAllRoundOnIt) {
    std::mt19937_64 random(seed + 3);
    EngineDoubt stated;
    stated.lifter_bore_slop = StatedSize{2.0 * small_mm, DoubtSource::common_practice};
    double across_cam = 0.0;
    for (int made = 0; made < 20; ++made) {
        const Where where = made % 2 ? Where::heel : Where::elsewhere;
        const Case some = a_case(random, where);
        const AcrossAxis across = across_axis(some.train().lifter.axis_K, 1.0);
        const double outboard = change_mm(some, small_mm * across.outboard_K, Vec3::Zero());
        const double rearward = change_mm(some, small_mm * across.rearward_K, Vec3::Zero());
        const auto doubt = some.doubt(stated);
        const double expected =
            where == Where::heel ? std::hypot(outboard, rearward) : std::abs(outboard);
        if (expected > bend_mm) {
            ASSERT_TRUE(doubt.has_value());
            EXPECT_NEAR(doubt->minus_mm, expected, bend_mm);
            EXPECT_NEAR(doubt->plus_mm, expected, bend_mm);
            EXPECT_EQ(doubt->contributions[0].source, DoubtSource::common_practice);
        }
        across_cam = std::max(across_cam, std::abs(rearward));
    }
    EXPECT_GT(across_cam, 0.2 * small_mm); // else the two would be the same
}

TEST(Doubt, AHydraulicPlungerOnlySinksAndOnlyAsFarAsItCan) {
    std::mt19937_64 random(seed + 4);
    int took = 0;
    int gave = 0;
    for (int made = 0; made < 20; ++made) {
        Case some = a_case(random, made % 2 ? Where::heel : Where::elsewhere);
        Train& train = some.engine.trains[0];
        train.lifter.kind = LifterKind::hydraulic;
        train.lifter.seat_height_mm += 1.0;
        train.lifter.preload_mm = 1.0;
        train.lifter.plunger_travel_mm = 3.0;
        some.rod = *rod_in_tube(some.engine, train)->rod;
        some.found = certified_minimum(some.rod);
        EngineDoubt stated;
        stated.leak_down = StatedSize{small_mm, DoubtSource::assumed};
        const double change = change_mm(some, -small_mm * train.lifter.axis_K, Vec3::Zero());
        const auto doubt = some.doubt(stated);
        if (std::abs(change) < bend_mm) {
            continue;
        }
        ASSERT_TRUE(doubt.has_value());
        EXPECT_NEAR(doubt->minus_mm, std::max(0.0, -change), bend_mm);
        EXPECT_NEAR(doubt->plus_mm, std::max(0.0, change), bend_mm);
        ++(change < 0.0 ? took : gave);
        stated.leak_down->size = 50.0; // but two millimetres are left below it
        const auto deep = doubt_at(some.engine, train, some.rod.linkage,
                                   {place_in_tube(train, some.rod, *some.found.minimum)}, stated);
        EXPECT_NEAR(deep->guard_band_mm(), doubt->guard_band_mm() * 2.0 / small_mm, 1e-9);
    }
    EXPECT_GT(took, 0);
    EXPECT_GT(gave, 0);
}

TEST(Doubt, LashLetsTheRodLiftOnTheHeelOnly) {
    std::mt19937_64 random(seed + 5);
    EngineDoubt stated;
    stated.lash_float = measured;
    for (int made = 0; made < 20; ++made) {
        Case some = a_case(random, Where::heel);
        some.engine.trains[0].valve.lash_mm = small_mm;
        some.rod = *rod_in_tube(some.engine, some.train())->rod;
        // Turn the rocker by bisection until its tip has come down by the lash.
        const Linkage& linkage = some.rod.linkage;
        const auto dropped = [&](double turn) {
            const Vec3 tip = Eigen::AngleAxisd(turn, linkage.shaft_axis_K()) * linkage.tip_arm_K();
            return -linkage.valve_axis_K().dot(tip - linkage.tip_arm_K());
        };
        const double way = dropped(1e-4) > 0.0 ? 1.0 : -1.0;
        double low = 0.0;
        double high = 0.01;
        for (int halving = 0; halving < 100; ++halving) {
            const double middle = (low + high) / 2.0;
            (dropped(way * middle) < small_mm ? low : high) = middle;
        }
        const Vec3 upper =
            linkage.pivot_K() +
            Eigen::AngleAxisd(way * low, linkage.shaft_axis_K()) * linkage.ball_arm_K();
        // The lower end rises along the rod until the rod fits again.
        const Pose heel = *linkage.at(0.0);
        const Vec3 rod = (heel.upper_ball_K - heel.lower_ball_K).normalized();
        EXPECT_GT((upper - heel.upper_ball_K).dot(rod), 0.0) << "the tip down, the rod up";
        double up = 0.0;
        double further = 1.0;
        for (int halving = 0; halving < 100; ++halving) {
            const double middle = (up + further) / 2.0;
            const bool too_long =
                (upper - heel.lower_ball_K - middle * rod).norm() > linkage.rod_length_mm();
            (too_long ? up : further) = middle;
        }
        const auto lifted = axis_to_wall(some.rod.tube, heel.lower_ball_K + up * rod, upper);
        const double change =
            lifted->distance_mm - some.rod.rod_radius_mm - some.found.minimum->clearance_mm;
        const auto doubt = some.doubt(stated);
        const double minus = doubt ? doubt->minus_mm : 0.0;
        const double plus = doubt ? doubt->plus_mm : 0.0;
        EXPECT_NEAR(minus, std::max(0.0, -change), bend_mm);
        EXPECT_NEAR(plus, std::max(0.0, change), bend_mm);
        EXPECT_GT(minus + plus, 0.0);
    }
    for (int made = 0; made < 10; ++made) {
        EXPECT_FALSE(a_case(random, Where::elsewhere).doubt(stated).has_value());
    }
}

// Closed form: a parabola, half the reading in the middle, three quarters of that at the quarter.
TEST(Doubt, ABentRodTakesHalfItsRunoutInTheMiddleAndNothingAtItsEnds) {
    std::mt19937_64 random(seed + 6);
    const Case some = a_case(random, Where::elsewhere);
    EngineDoubt stated;
    stated.rod_runout = StatedSize{0.08, measured};
    ClearancePlace place = place_in_tube(some.train(), some.rod, *some.found.minimum);
    const double L = some.rod.linkage.rod_length_mm();
    const auto at = [&](double station) {
        place.station_mm = station;
        return doubt_at(some.engine, some.train(), some.rod.linkage, {place}, stated);
    };
    EXPECT_NEAR(at(L / 2.0)->minus_mm, 0.04, 1e-12);
    EXPECT_NEAR(at(L / 2.0)->plus_mm, 0.04, 1e-12);
    EXPECT_NEAR(at(L / 4.0)->minus_mm, 0.03, 1e-12);
    EXPECT_NEAR(at(3.0 * L / 4.0)->minus_mm, 0.03, 1e-12);
    EXPECT_FALSE(at(0.0).has_value());
}

TEST(Doubt, AddsIntervalsAndCombinesInputsBySquares) {
    std::mt19937_64 random(seed + 7);
    const Case some = a_case(random, Where::elsewhere);
    const ClearancePlace place = place_in_tube(some.train(), some.rod, *some.found.minimum);
    const auto only = [&](const EngineDoubt& stated) {
        return doubt_at(some.engine, some.train(), some.rod.linkage, {place}, stated);
    };
    EngineDoubt stated;
    stated.inputs[ParameterKind::rod_diameter] = {0.03, measured}; // rate -0.5
    EXPECT_NEAR(only(stated)->minus_mm, 0.03, 1e-12);              // 2 · 0.5 · 0.03
    EXPECT_NEAR(only(stated)->plus_mm, 0.03, 1e-12);
    stated.inputs[ParameterKind::pivot_height] = {0.2, DoubtSource::from_the_box};
    const auto rate = *clearance_rate(
        some.train(), some.rod.linkage, place,
        *parameter_rates(some.engine, some.train(), place, {ParameterKind::pivot_height}),
        Held::adjuster_reset);
    const double both = std::hypot(0.03, 2.0 * rate * 0.2);
    EXPECT_NEAR(only(stated)->minus_mm, both, 1e-12);
    // Both flanges' gaskets move an intake, each by itself.
    EngineDoubt gaskets;
    gaskets.inputs[ParameterKind::intake_gasket] = {0.1, measured};
    EXPECT_EQ(only(gaskets)->contributions.size(), 2U);
    // An interval on top is added, not squared; a fit's contribution as well.
    stated.rod_runout = StatedSize{0.08, measured};
    const double along = place.station_mm / some.rod.linkage.rod_length_mm();
    const double bow = 0.16 * along * (1.0 - along);
    EXPECT_NEAR(only(stated)->minus_mm, both + bow, 1e-12);
    DoubtContribution fit;
    fit.kind = DoubtKind::fit;
    fit.takes_mm = 0.05;
    fit.gives_mm = 0.02;
    const auto with_fit =
        doubt_at(some.engine, some.train(), some.rod.linkage, {place}, stated, {fit});
    EXPECT_NEAR(with_fit->minus_mm, both + bow + 0.05, 1e-12);
    EXPECT_NEAR(with_fit->plus_mm, both + bow + 0.02, 1e-12);
    EXPECT_EQ(with_fit->guard_band_mm(), with_fit->minus_mm);
    ASSERT_EQ(with_fit->contributions.size(), 4U);
    for (std::size_t at = 1; at < 4; ++at) {
        EXPECT_GE(with_fit->contributions[at - 1].takes_mm, with_fit->contributions[at].takes_mm);
    }
    EXPECT_NEAR(with_fit->chance_of_limit,
                chance_of_conformance(place.clearance_mm, some.engine.rod_clearance_limit_mm,
                                      with_fit->guard_band_mm()),
                1e-12);
}

TEST(Doubt, AFittedPassageKeepsWhatItsReadingsLeaveOpen) {
    std::mt19937_64 random(seed + 9);
    Case some = a_case(random, Where::elsewhere);
    const ClearancePlace place = place_in_tube(some.train(), some.rod, *some.found.minimum);
    const auto only = [&](const EngineDoubt& stated) {
        return doubt_at(some.engine, some.train(), some.rod.linkage, {place}, stated);
    };
    EngineDoubt stated;
    stated.inputs[ParameterKind::rod_diameter] = {0.03, measured}; // rate -0.5: 0.03 at 95 %
    EngineDoubt with_place = stated;
    with_place.inputs[ParameterKind::passage_rearward] = {0.5, measured};
    with_place.inputs[ParameterKind::passage_outboard] = {0.5, measured};
    EXPECT_GT(only(with_place)->guard_band_mm(), 0.1);

    some.engine.trains[0].tube.fitted_doubt_mm = 0.04;
    EXPECT_NEAR(only(stated)->guard_band_mm(), 0.05, 1e-12); // 3, 4, 5
    // The readings tell the place: what was stated of it before says nothing any more.
    EXPECT_NEAR(only(with_place)->guard_band_mm(), 0.05, 1e-12);
    EXPECT_EQ(only(stated)->contributions.front().kind, DoubtKind::fit);
    // A fit alone doesn't say how well the rest of the engine is known.
    EXPECT_FALSE(only({}).has_value());
    some.engine.assumed_doubt_mm.reset();
    EXPECT_FALSE(minimum_doubt_mm(some.engine, some.train(), {}, place.thing).has_value());
    some.engine.assumed_doubt_mm = 0.03;
    EXPECT_NEAR(*minimum_doubt_mm(some.engine, some.train(), {}, place.thing), 0.05, 1e-12);
    EXPECT_NEAR(*minimum_doubt_mm(some.engine, some.train(), {}, "something else"), 0.03, 1e-12);
    EXPECT_NEAR(*minimum_doubt_mm(some.engine, some.train(), only(with_place), place.thing), 0.05,
                1e-12);
}

// Arithmetic of this project: a place with 0.05 mm more clearance, of which 0.20 may be missing,
// may be the least by 0.15; it gives nothing, as the other doesn't.
TEST(Doubt, APlaceWithMoreClearanceCountsWhereItsOwnDoubtIsGreater) {
    std::mt19937_64 random(seed + 8);
    const Case some = a_case(random, Where::elsewhere);
    ClearancePlace sure = place_in_tube(some.train(), some.rod, *some.found.minimum);
    ClearancePlace doubtful = sure;
    sure.station_mm = 0.0;
    doubtful.station_mm = some.rod.linkage.rod_length_mm() / 2.0;
    doubtful.clearance_mm += 0.05;
    EngineDoubt stated;
    stated.rod_runout = StatedSize{0.4, measured};
    const auto doubt =
        doubt_at(some.engine, some.train(), some.rod.linkage, {sure, doubtful}, stated);
    ASSERT_TRUE(doubt.has_value());
    EXPECT_NEAR(doubt->minus_mm, 0.15, 1e-12);
    EXPECT_NEAR(doubt->plus_mm, 0.0, 1e-12);
    EXPECT_EQ(doubt->place, 1U);
    doubtful.clearance_mm += 0.2;
    EXPECT_FALSE(doubt_at(some.engine, some.train(), some.rod.linkage, {sure, doubtful}, stated));
}

TEST(Doubt, OfTheDemosIsOfTheSizeOfTheirParts) {
    const Engine engine = demo_engine("v8-port-tubes");
    EngineDoubt stated;
    stated.lash_float = measured;
    stated.seat_off_axis = StatedSize{0.05, DoubtSource::common_practice};
    stated.rod_runout = StatedSize{0.076, DoubtSource::common_practice}; // 0.003 in
    stated.lifter_bore_slop = StatedSize{0.04, DoubtSource::common_practice};
    stated.inputs[ParameterKind::passage_outboard] = {0.1, DoubtSource::assumed};
    for (const Train& train : engine.trains) {
        const auto around = train_surroundings(engine, train)->surroundings;
        const auto doubt = doubt_of(engine, train, *around, certified_minima(*around), stated);
        ASSERT_TRUE(doubt.has_value());
        EXPECT_GT(doubt->guard_band_mm(), 0.02);
        EXPECT_LT(doubt->guard_band_mm(), 0.6);
    }
    const auto around = train_surroundings(engine, engine.trains[0])->surroundings;
    EXPECT_FALSE(doubt_of(engine, engine.trains[0], *around, {CertifiedMinimum{}}, stated));
}

} // namespace
} // namespace rodway
