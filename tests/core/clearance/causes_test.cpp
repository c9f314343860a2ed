#include "core/clearance/causes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <map>

#include "tests/core/clearance/one_train_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_causes.h"
#include "tests/twins/slow_train.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261127;

/// Of the largest rate; the differences' own rounding dominates: 1e-12 mm over 0.002 mm or 2e-5
/// rad.
constexpr double agreement = 1e-6;

double unit_of(ParameterKind kind) {
    return is_angle(kind) ? 25.4 : 1.0;
}

double largest(const MinimumCauses& found) {
    double most = 0.0;
    for (const Cause& cause : found.causes) {
        for (const auto& rate : {cause.adjuster_reset, cause.rod_rechosen}) {
            if (rate) {
                most = std::max(most, rate->size() / unit_of(cause.parameter.kind));
            }
        }
    }
    return most;
}

struct Compared {
    int rates = 0;
    int switched = 0; ///< differences that the minimum's going elsewhere spoilt
    double worst = 0.0;
    std::map<ParameterKind, int> moving; ///< how often a kind had an effect
};

/// Sets every cause of one valve's minimum against differences of a re-solved engine.
void compare(const Engine& engine, const Train& train, Compared& compared,
             double within = agreement) {
    const auto found = causes_of(engine, train);
    ASSERT_TRUE(found.ok());
    if (!*found || (*found)->places.size() != 1) {
        return;
    }
    const double most = largest(**found);
    for (const Cause& cause : (*found)->causes) {
        const std::pair<Held, const std::optional<CauseRate>&> ways[] = {
            {Held::adjuster_reset, cause.adjuster_reset}, {Held::rod_rechosen, cause.rod_rechosen}};
        for (const auto& [held, rate] : ways) {
            if (!rate) {
                continue;
            }
            const auto slow = twins::slow_rate(engine, train.position, cause.parameter, held);
            if (!slow) {
                ++compared.switched;
                continue;
            }
            ++compared.rates;
            compared.moving[cause.parameter.kind] += std::abs(*slow) > 1e-4;
            const double off =
                std::abs(rate->when_more.per_unit - *slow) / unit_of(cause.parameter.kind) / most;
            compared.worst = std::max(compared.worst, off);
            ASSERT_LT(off, within)
                << "parameter " << static_cast<int>(cause.parameter.kind) << ", held "
                << static_cast<int>(held) << ": " << rate->when_more.per_unit << " against "
                << *slow << ", minimum at " << (*found)->places[0].lobe_lift_mm;
        }
    }
}

/// The five ways in which a train is set, in turn.
void set_by(Train& train, int way) {
    const bool hydraulic = way == 2 || way == 3;
    if (hydraulic) {
        train.lifter.kind = LifterKind::hydraulic;
        train.lifter.plunger_travel_mm = 5.0;
        train.lifter.preload_mm = 1.5;
        train.rod.length_mm += 1.5;
        train.valve.lash_mm = 0.0;
    }
    switch (way) {
        case 1:
            train.rocker.mount = RockerMount::stud;
            train.adjuster.kind = AdjusterKind::nut;
            train.adjuster.axis_K = Vec3(0.02, 0.2, -1.0).normalized();
            train.rod.length_mm += 0.6;
            break;
        case 3:
        case 4:
            train.adjuster.kind = AdjusterKind::none;
            break;
        default:
            break;
    }
}

TEST(Causes, AgreeWithDifferencesOfAReSolvedEngineHoweverItIsSet) {
    std::mt19937_64 random(seed);
    std::cout << "seed " << seed << '\n';
    Compared compared;
    int trains = 0;
    std::map<int, int> places;
    for (int made = 0; trains < 250; ++made) {
        ASSERT_LT(made, 3000);
        twins::RandomTrain some = twins::random_train(random);
        set_by(some.train, made % 5);
        if (made % 3 == 0) {
            some.train.tube.casting = Casting::head;
        }
        const Engine engine = engine_around(some.train, some.full_lift_mm);
        const int before = compared.rates;
        compare(engine, engine.trains[0], compared);
        if (HasFatalFailure()) {
            FAIL() << "train " << made;
        }
        if (compared.rates > before) {
            ++trains;
            const auto found = **causes_of(engine, engine.trains[0]);
            const ClearancePlace& place = found.places[0];
            ++places[place.lobe_lift_mm <= 0.0 ? 0 : place.at_full_lift ? 2 : 1];
        }
    }
    std::cout << trains << " trains (" << places[0] << " on the heel, " << places[1]
              << " in mid-lift, " << places[2] << " at full lift), " << compared.rates
              << " rates, worst " << compared.worst << " of the largest, " << compared.switched
              << " differences dropped\n";
    EXPECT_LT(compared.switched, compared.rates / 20);
    for (int part = 0; part < 3; ++part) {
        EXPECT_GT(places[part], 5) << part;
    }
    // Every kind had something to get wrong, but for what an obstacle only has.
    for (int kind = 0; kind <= static_cast<int>(ParameterKind::passage_bore); ++kind) {
        EXPECT_GT(compared.moving[static_cast<ParameterKind>(kind)], 20) << "parameter " << kind;
    }
}

TEST(Causes, AgreeOnTrainsThatLeanMuchAndHaveTheirScrewsFarFromWhereTheyWere) {
    std::mt19937_64 random(seed + 1);
    Compared compared;
    int trains = 0;
    for (int made = 0; trains < 40 && made < 4000; ++made) {
        const twins::RandomTrain some = twins::skew_train(random);
        const Engine engine = engine_around(some.train, some.full_lift_mm);
        const int before = compared.rates;
        compare(engine, engine.trains[0], compared);
        if (HasFatalFailure()) {
            FAIL() << "train " << made;
        }
        trains += compared.rates > before;
    }
    EXPECT_EQ(trains, 40);
    std::cout << compared.rates << " rates, worst " << compared.worst << '\n';
}

// Whatever is nearest: a plane in head or block, perhaps of the other bank's frame, a ball on the
// rocker, a hole in the head, a rod with a thick middle. Stood where it is nearest of all.
TEST(Causes, AgreeWhateverTheRodComesNearestTo) {
    std::mt19937_64 random(seed + 5);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    Compared compared;
    std::map<std::string, int> nearest;
    for (int made = 0; made < 240; ++made) {
        twins::RandomTrain some = twins::random_train(random);
        Train& train = some.train;
        const double half = train.rod.length_mm / 2.0;
        const double thick = train.rod.diameter_mm;
        train.rod.profile = {{0.0, half, thick - 1.0, thick},
                             {half, half + 30.0, thick, thick},
                             {half + 30.0, train.rod.length_mm, thick - 1.0, thick - 1.0}};
        train.tube.bore.bore_radius_mm += 8.0;
        train.tube.bore.length_mm = 40.0;
        const auto closing = Linkage::close(train);
        if (!closing.linkage) {
            continue;
        }
        const Pose pose = *closing.linkage->at(between(0.0, some.full_lift_mm));
        const Vec3 rod = (pose.upper_ball_K - pose.lower_ball_K).normalized();
        const Vec3 aside = Eigen::AngleAxisd(between(0.0, 6.28), rod) * rod.unitOrthogonal();
        const Vec3 at = pose.lower_ball_K + between(0.2, 0.8) * 2.0 * half * rod + 6.5 * aside;
        Engine engine = engine_around(train, some.full_lift_mm);
        const auto& banks = engine.layout.banks;
        const std::size_t bank = made % 2 ? 1 : 0;
        const auto there = [&](const Vec3& vector_K) {
            return banks[bank].frame.from_block(banks[0].frame.to_block(vector_K));
        };
        const Casting casting = made % 3 == 0   ? Casting::head
                                : made % 3 == 1 ? Casting::intake
                                                : Casting::block;
        Train& placed = engine.trains[0];
        switch (made % 4) {
            case 0:
                engine.obstacles.push_back({"plane", ObstacleKind::plane, casting, bank,
                                            HalfSpace{there(at), there(-aside)}});
                break;
            case 1:
                engine.obstacles.push_back({"bolt", ObstacleKind::cylinder, casting, bank,
                                            RoundBar{there(at), there(at + 40.0 * aside), 1.0}});
                break;
            case 2:
                placed.rocker.body_K =
                    Capsule{at - train.rocker.pivot_K, at - train.rocker.pivot_K, 0.5};
                break;
            default: {
                Passage hole = train.tube;
                hole.name = "hole";
                hole.casting = casting;
                hole.bore.bore_radius_mm -= 8.0;
                hole.bore.length_mm = 25.0;
                hole.bore.top_edge_radius_mm = 1.0;
                placed.further_passages = {hole};
            }
        }
        const auto found = causes_of(engine, placed);
        ASSERT_TRUE(found.ok());
        if (*found) {
            ++nearest[(*found)->places[0].thing];
        }
        compare(engine, placed, compared, agreement);
        if (HasFatalFailure()) {
            FAIL() << "train " << made;
        }
    }
    for (const char* thing : {"plane", "bolt", "rocker", "hole"}) {
        EXPECT_GT(nearest[thing], 15) << thing;
    }
    EXPECT_GT(compared.rates, 3000);
    std::cout << compared.rates << " rates, worst " << compared.worst << ", " << compared.switched
              << " differences dropped\n";
}

TEST(Causes, AgreeOnTheDemos) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        Compared compared;
        for (const Train& train : engine.trains) {
            compare(engine, train, compared);
            if (HasFatalFailure()) {
                FAIL() << name << ' ' << position_name(train.position);
            }
        }
        EXPECT_GT(compared.rates, 200) << name;
        std::cout << name << ": " << compared.rates << " rates, worst " << compared.worst << '\n';
    }
}

// The differences above share the closed form and the certified search with the causes; these
// share nothing. The walk's golden section finds a minimum to 1e-12 mm, over 0.02 mm; the
// differences' own curvature, some 1e-5, dominates.
TEST(Causes, AgreeWithAWalkThatKnowsNeitherTheClosedFormNorTheCertifiedSearch) {
    std::mt19937_64 random(seed + 2);
    int compared = 0;
    while (compared < 6) {
        const twins::RandomTrain some = twins::random_train(random);
        const Engine engine = engine_around(some.train, some.full_lift_mm);
        const Train& train = engine.trains[0];
        const auto found = causes_of(engine, train);
        if (!*found || (*found)->places.size() != 1) {
            continue;
        }
        const auto& place = (*found)->places[0];
        if (compared % 2 == 0 && place.lobe_lift_mm > 0.0) {
            continue; // take turns: on the heel, elsewhere
        }
        ++compared;
        for (const ParameterKind kind :
             {ParameterKind::lifter_height, ParameterKind::pivot_height, ParameterKind::lash}) {
            const EngineParameter parameter{kind, train.position};
            const auto walked = [&](double delta) {
                const Engine changed = *with_change(engine, parameter, delta);
                return twins::walked_minimum_mm(changed, changed.trains[0]);
            };
            const double slow = (walked(0.01) - walked(-0.01)) / 0.02;
            const auto cause =
                std::find_if((*found)->causes.begin(), (*found)->causes.end(),
                             [&](const Cause& one) { return one.parameter == parameter; });
            ASSERT_NE(cause, (*found)->causes.end());
            EXPECT_NEAR(cause->adjuster_reset->when_more.per_unit, slow, 1e-4);
        }
    }
}

const Cause& cause_of(const MinimumCauses& found, ParameterKind kind, std::size_t bank = 0) {
    const auto cause = std::find_if(
        found.causes.begin(), found.causes.end(),
        [&](const Cause& one) { return one.parameter.kind == kind && one.parameter.bank == bank; });
    EXPECT_NE(cause, found.causes.end());
    return *cause;
}

TEST(Causes, StandLargestFirst) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto found = **causes_of(engine, engine.trains[0]);
    ASSERT_GT(found.causes.size(), 20U);
    double before = 1e9;
    for (const Cause& cause : found.causes) {
        if (!cause.adjuster_reset) {
            continue;
        }
        const double size = cause.adjuster_reset->size() / unit_of(cause.parameter.kind);
        EXPECT_LE(size, before);
        before = size;
    }
    // Closed forms: a rod thicker by a thou loses half of it, a bore wider by one gains half.
    EXPECT_EQ(cause_of(found, ParameterKind::rod_diameter).adjuster_reset->when_more.per_unit,
              -0.5);
    EXPECT_NEAR(cause_of(found, ParameterKind::passage_bore).adjuster_reset->when_more.per_unit,
                0.5, 0.01); // less by the square of the rod's tilt in the tube
}

// The invented train of plausible_train_test.cpp, case B: least at full lift, inboard. By a slow
// script a lifter 0.100 in taller gains 6 thou with the screw, whose axis lies along the rod, set
// again; with another rod it costs 10.
Train taller_lifter_train() {
    const auto inches = [](double x, double y, double z) { return Vec3(25.4 * Vec3(x, y, z)); };
    Train made;
    made.lifter.foot_K = inches(0.0, -3.535534, 5.845534 - 1.750);
    made.lifter.seat_height_mm = 1.750 * 25.4;
    made.rod.length_mm = 8.968198 * 25.4;
    made.rod.diameter_mm = 0.3125 * 25.4;
    made.rocker.pivot_K = inches(0.25, -1.25, 14.75);
    made.rocker.ball_arm_K = inches(0.0, -0.883583, -0.050054);
    made.rocker.tip_arm_K = inches(0.0, 1.332916, 0.687993);
    const Vec3 rod = made.rocker.pivot_K + made.rocker.ball_arm_K - made.lifter.lower_ball_K();
    made.adjuster.axis_K = -rod.normalized();
    made.adjuster.can_go_in_mm = made.adjuster.can_go_out_mm = 10.0;
    made.valve.axis_K = Vec3(0.0, -0.258819, 0.965926).normalized();
    made.valve.lash_mm = 0.018 * 25.4;
    made.tube.bore.axis_K = Vec3(0.027876, 0.157382, 0.987144).normalized();
    made.tube.bore.length_mm = 3.0 * 25.4;
    made.tube.bore.bore_radius_mm = 0.5625 / 2.0 * 25.4;
    made.tube.bore.centre_K = inches(0.15, -2.639300, 11.339405);
    return made;
}

TEST(Causes, ATallerLifterDiffersInSignByWhatIsHeld) {
    const Engine engine = engine_around(taller_lifter_train(), 0.380 * 25.4);
    // The gasket as located, so that the tube stands where that train's stands.
    Engine located = engine;
    for (auto& flange : located.flanges) {
        flange->gasket_mm = flange->gasket_when_located_mm;
    }
    const auto found = **causes_of(located, located.trains[0]);
    const Cause& taller = cause_of(found, ParameterKind::lifter_height);
    // The script's figures are differences over 0.100 in: their half digit, 0.005, and the curve's
    // bend over so much dominate.
    EXPECT_NEAR(taller.adjuster_reset->when_more.per_unit, 0.06, 0.02);
    EXPECT_NEAR(taller.rod_rechosen->when_more.per_unit, -0.10, 0.02);
    std::cout << "thou for a thou: screw set again " << taller.adjuster_reset->when_more.per_unit
              << ", another rod " << taller.rod_rechosen->when_more.per_unit << '\n';
    EXPECT_EQ(found.places[0].wall, Wall::inboard);
    EXPECT_EQ(found.places[0].end, BoreEnd::bottom);
    EXPECT_TRUE(found.places[0].at_full_lift);
    // What the rod's length does can't be asked while the rod's length is what gives way.
    EXPECT_FALSE(cause_of(found, ParameterKind::rod_length).rod_rechosen.has_value());
    EXPECT_TRUE(cause_of(found, ParameterKind::rod_length).adjuster_reset.has_value());
}

TEST(Causes, AThinnerGasketHelpsOneWallAndHurtsTheOther) {
    const Engine engine = demo_engine("v8-port-tubes");
    int helped = 0;
    int hurt = 0;
    for (const Train& train : engine.trains) {
        if (train.tube.casting != Casting::intake) {
            continue;
        }
        const auto found = **causes_of(engine, train);
        const double thicker = cause_of(found, ParameterKind::intake_gasket, train.bank)
                                   .adjuster_reset->when_more.per_unit;
        const Wall wall = found.places[0].wall;
        if (wall == Wall::inboard) {
            EXPECT_GT(thicker, 0.2) << position_name(train.position);
            ++hurt; // by a thinner one
        } else if (wall == Wall::outboard) {
            EXPECT_LT(thicker, -0.2) << position_name(train.position);
            ++helped;
        }
    }
    EXPECT_GT(helped, 0);
    EXPECT_GT(hurt, 0);
}

// Heel and full lift are given the same clearance by moving the tube; from there every rate has a
// left and a right, which first differences of a re-solved engine show as well.
TEST(Causes, HaveALeftAndARightWhereTheMinimumSwitchesPlace) {
    std::mt19937_64 random(seed + 3);
    int tied = 0;
    for (int made = 0; made < 600 && tied < 8; ++made) {
        const twins::RandomTrain some = twins::random_train(random);
        Engine engine = engine_around(some.train, some.full_lift_mm);
        const auto lead = [&](double moved) -> std::optional<double> {
            Train there = engine.trains[0];
            there.tube.bore.centre_K.y() += moved;
            const auto rod = rod_in_tube(engine, there)->rod;
            const auto heel = rod ? rod_clearance_at(*rod, 0.0) : std::nullopt;
            const auto full = heel ? rod_clearance_at(*rod, rod->full_lift_mm) : std::nullopt;
            return full ? std::optional(heel->clearance_mm - full->clearance_mm) : std::nullopt;
        };
        double low = -1.5;
        double high = 1.5;
        if (!lead(low) || !lead(high) || *lead(low) * *lead(high) >= 0.0) {
            continue;
        }
        for (int halving = 0; halving < 60 && lead((low + high) / 2.0); ++halving) {
            const double middle = (low + high) / 2.0;
            (*lead(middle) * *lead(low) > 0.0 ? low : high) = middle;
        }
        engine.trains[0].tube.bore.centre_K.y() += low;
        const auto found = *causes_of(engine, engine.trains[0]);
        if (!found || found->places.size() != 2) {
            continue;
        }
        ++tied;
        int one_sided = 0;
        for (const Cause& cause : found->causes) {
            if (!cause.adjuster_reset || is_angle(cause.parameter.kind)) {
                continue;
            }
            const CauseRate& rate = *cause.adjuster_reset;
            EXPECT_LE(rate.when_more.per_unit, rate.when_less.per_unit);
            if (rate.when_less.per_unit - rate.when_more.per_unit > 0.02) {
                ++one_sided;
                EXPECT_NE(rate.when_less.place, rate.when_more.place);
            }
            for (const double side : {-1.0, 1.0}) {
                const auto slow = twins::slow_side_rate(
                    engine, engine.trains[0].position, cause.parameter, Held::adjuster_reset, side);
                ASSERT_TRUE(slow.has_value());
                const SideRate& fast = side < 0.0 ? rate.when_less : rate.when_more;
                // A first difference over 1e-5 mm: rounding and the tie's own 1e-9 mm dominate.
                EXPECT_NEAR(fast.per_unit, *slow, 5e-4)
                    << static_cast<int>(cause.parameter.kind) << ' ' << side;
            }
        }
        EXPECT_GT(one_sided, 3);
    }
    EXPECT_EQ(tied, 8);
}

TEST(Causes, AreNoneWhereThereIsNoMinimum) {
    std::mt19937_64 random(seed + 4);
    const twins::RandomTrain some = twins::random_train(random);
    Engine engine = engine_around(some.train, 8.0);
    engine.trains[0].tube.bore.centre_K.x() += 100.0;
    EXPECT_FALSE(causes_of(engine, engine.trains[0])->has_value());
    engine.trains[0].rod.length_mm = std::nan("");
    EXPECT_FALSE(causes_of(engine, engine.trains[0])->has_value());
    engine.flanges[1]->normal_K = -engine.flanges[0]->normal_K; // as a flat engine's would be
    engine.layout.banks[1] = engine.layout.banks[0];
    const auto parallel = causes_of(engine, engine.trains[0]);
    ASSERT_FALSE(parallel.ok());
    EXPECT_EQ(parallel.error().code, ErrorCode::banks_parallel);
}

} // namespace
} // namespace rodway
