#include "core/piston/piston_to_valve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_piston_to_valve.h"

namespace rodway {
namespace {

using Status = PistonToValveStatus;
using twins::slow_least;
using twins::slow_travel_mm;

constexpr std::uint64_t seed = 20260514;
constexpr double stroke_mm = 88.4;
constexpr double rod_mm = 144.8;
const double nan_value = std::numeric_limits<double>::quiet_NaN();

CrankAngle deg(double value) {
    return CrankAngle::deg(value);
}

/// Clearance known in closed form. A crown square to the cylinder is met by the valve's edge: the
/// piston's travel counts over cos β along the valve. A pocket square to the valve is met by its
/// whole face: the travel counts times cos β.
struct Crown {
    double gap_mm = 3.0; ///< valve shut, piston at the top, along the valve
    double cos_valve_angle = std::cos(radians(15.0));
    bool pocket = false;

    [[nodiscard]] double drop_mm(double crank_deg) const {
        const double travel = slow_travel_mm(stroke_mm, rod_mm, crank_deg);
        return gap_mm + (pocket ? travel * cos_valve_angle : travel / cos_valve_angle);
    }
    [[nodiscard]] PistonAndValve measured(double from_deg, double to_deg, double step_deg) const {
        PistonAndValve piston{stroke_mm, rod_mm, 0.0, cos_valve_angle, {}};
        for (double angle = from_deg; angle <= to_deg + 1e-9; angle += step_deg) {
            piston.drops.drops.push_back({deg(angle), drop_mm(angle)});
        }
        piston.drops.radial_gap_mm = 1.9;
        return piston;
    }
};

/// A valve opening through the overlap: lift, mm, and its derivatives by degree at the top.
struct Opening {
    double at_top_mm = 1.5;
    double per_deg = 0.08;
    double per_deg2 = 0.006;
    double later_deg = 0.0; ///< cam retarded by so much

    [[nodiscard]] double lift_mm(double crank_deg) const {
        const double angle = crank_deg - later_deg;
        return std::max(0.0, at_top_mm + angle * (per_deg + angle * per_deg2 / 2.0));
    }
    [[nodiscard]] ValveLift lift() const {
        return [*this](CrankAngle angle) { return std::optional(lift_mm(angle.in_deg())); };
    }
};

PistonToValve answer_of(const PistonAndValve& piston, const ValveLift& lift) {
    const auto answer = piston_to_valve(piston, lift);
    EXPECT_TRUE(answer.ok());
    return answer.ok() ? *answer : PistonToValve{};
}

// Rounding only. A straight line through the drops themselves would be 0.03 mm out: see below.
TEST(PistonToValve, BetweenDropsAFlatCrownIsWhereItReallyIs) {
    const Crown crown;
    const auto drop = PistonDrop::make(crown.measured(-20.0, 20.0, 5.0));
    ASSERT_TRUE(drop.ok());
    for (double angle = -20.0; angle <= 20.0; angle += 0.125) {
        ASSERT_TRUE(drop->at(deg(angle)).has_value());
        EXPECT_NEAR(*drop->at(deg(angle)), crown.drop_mm(angle), 1e-10) << angle;
    }
    EXPECT_GT((crown.drop_mm(5.0) + crown.drop_mm(10.0)) / 2.0 - crown.drop_mm(7.5), 0.03);
}

// The bound derived in the header: x''·(1/cos β - cos β)·h²/8 with x'' ≤ r·(1 + r/l).
TEST(PistonToValve, BetweenDropsAPocketShowsALittleTooLittleClearanceNeverTooMuch) {
    Crown crown;
    crown.pocket = true;
    for (const double step : {5.0, 10.0, 20.0}) {
        const auto drop = PistonDrop::make(crown.measured(-20.0, 20.0, step));
        ASSERT_TRUE(drop.ok());
        const double c = crown.cos_valve_angle;
        const double most = stroke_mm / 2.0 * (1.0 + stroke_mm / 2.0 / rod_mm) * (1.0 / c - c) *
                            radians(step) * radians(step) / 8.0;
        EXPECT_LT(most, 0.004 * step * step / 25.0);
        double worst = 0.0;
        for (double angle = -20.0; angle <= 20.0; angle += 0.125) {
            const double too_little = crown.drop_mm(angle) - *drop->at(deg(angle));
            EXPECT_GE(too_little, -1e-10);
            worst = std::max(worst, too_little);
        }
        EXPECT_LE(worst, most);
        EXPECT_GT(worst, 0.9 * most); // and the bound is no idle one
    }
}

TEST(PistonToValve, RefusesAnglesOutsideTheDrops) {
    const auto drop = PistonDrop::make(Crown{}.measured(-5.0, 15.0, 5.0));
    ASSERT_TRUE(drop.ok());
    EXPECT_EQ(drop->first(), deg(-5.0));
    EXPECT_EQ(drop->last(), deg(15.0));
    EXPECT_EQ(drop->angles().size(), 5u);
    EXPECT_TRUE(drop->at(deg(-5.0)).has_value());
    EXPECT_TRUE(drop->at(deg(15.0)).has_value());
    EXPECT_FALSE(drop->at(deg(-5.001)).has_value());
    EXPECT_FALSE(drop->at(deg(15.001)).has_value());
    EXPECT_FALSE(drop->at(deg(nan_value)).has_value());
}

// Truth: the closed form, looked at every 0.001 degree; it misses the least by less than
// 0.02·0.0005² mm. Rounding otherwise.
TEST(PistonToValve, FindsTheTrueLeastOfAFlatCrownBetweenTheDrops) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int answered = 0;
    for (int round = 0; round < 60; ++round) {
        Crown crown;
        crown.gap_mm = 2.0 + 4.0 * unit(random);
        crown.cos_valve_angle = std::cos(radians(25.0 * unit(random)));
        // Exhaust valves close as intake valves open: half of the rounds run backwards.
        const double way = round % 2 == 0 ? 1.0 : -1.0;
        const Opening opening{0.5 + 2.0 * unit(random), way * (0.03 + 0.1 * unit(random)),
                              0.002 + 0.006 * unit(random), 0.0};
        const PistonAndValve piston = crown.measured(-20.0, 20.0, 5.0);
        const auto truth = slow_least(-20.0, 20.0, [&](double angle) {
            return crown.drop_mm(angle) - opening.lift_mm(angle);
        });
        const PistonToValve answer = answer_of(piston, opening.lift());
        EXPECT_NEAR(*answer.at_most_mm, truth.mm, 1e-8);
        EXPECT_LE(*answer.at_most_mm, truth.mm + 1e-10);
        EXPECT_NEAR(answer.after_overlap->in_deg(), truth.at_deg, 2e-3);
        EXPECT_NEAR(*answer.drop_mm - *answer.valve_lift_mm, *answer.at_most_mm, 1e-12);
        EXPECT_NEAR(*answer.valve_lift_mm, opening.lift_mm(answer.after_overlap->in_deg()), 1e-12);
        EXPECT_EQ(answer.radial_gap_mm, 1.9);
        if (std::abs(truth.at_deg) < 19.9) {
            ++answered;
            EXPECT_EQ(answer.status, Status::answered);
            EXPECT_EQ(answer.least_mm, answer.at_most_mm);
            EXPECT_FALSE(answer.drop_wanted_before || answer.drop_wanted_after);
            EXPECT_GT(way * answer.after_overlap->in_deg(), 0.0); // the right side of the top
        }
    }
    EXPECT_GT(answered, 40);
}

// Slow twin: the same readings, looked at every 0.001 degree with its own interpolation. At a
// drop's own angle clearance may bend, at up to 0.2 mm/degree: half a look's step there is 1e-4.
TEST(PistonToValve, WithScatteredReadingsItIsTheLeastOfTheCurveThroughThem) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    std::normal_distribution<double> scatter(0.0, 0.025); // 0.001 in
    for (int round = 0; round < 60; ++round) {
        const Crown crown;
        const Opening opening{1.0 + unit(random), 0.05 + 0.06 * unit(random), 0.006, 0.0};
        PistonAndValve piston = crown.measured(-10.0, 20.0, 5.0);
        double worst = 0.0;
        for (ValveDrop& drop : piston.drops.drops) {
            const double more = scatter(random);
            worst = std::max(worst, std::abs(more));
            drop.from_seat_mm += more;
        }
        const auto least = slow_least(-10.0, 20.0, [&](double angle) {
            return twins::slow_drop_mm(piston.drops.drops, stroke_mm, rod_mm,
                                       piston.cos_valve_angle, angle) -
                   opening.lift_mm(angle);
        });
        const auto truth = slow_least(-10.0, 20.0, [&](double angle) {
            return crown.drop_mm(angle) - opening.lift_mm(angle);
        });
        const PistonToValve answer = answer_of(piston, opening.lift());
        EXPECT_NEAR(*answer.at_most_mm, least.mm, 1e-4);
        EXPECT_LE(*answer.at_most_mm, least.mm + 1e-10);
        EXPECT_NEAR(*answer.at_most_mm, truth.mm, worst + 1e-8);
    }
}

TEST(PistonToValve, ALeastAtTheEdgeIsNoAnswerAndTheSideThatWantsADropIsNamed) {
    const Crown crown;
    const Opening opening; // least at some 7 degrees after the top
    const PistonToValve whole = answer_of(crown.measured(-10.0, 20.0, 5.0), opening.lift());
    ASSERT_EQ(whole.status, Status::answered);
    EXPECT_GT(whole.after_overlap->in_deg(), 5.0);
    EXPECT_LT(whole.after_overlap->in_deg(), 15.0);

    const PistonToValve short_of = answer_of(crown.measured(-10.0, 5.0, 5.0), opening.lift());
    EXPECT_EQ(short_of.status, Status::not_bracketed);
    EXPECT_FALSE(short_of.least_mm.has_value());
    EXPECT_TRUE(short_of.drop_wanted_after);
    EXPECT_FALSE(short_of.drop_wanted_before);
    EXPECT_NEAR(short_of.after_overlap->in_deg(), 5.0, 1e-6);
    EXPECT_GT(*short_of.at_most_mm, *whole.least_mm);
    EXPECT_NEAR(*short_of.at_most_mm, crown.drop_mm(5.0) - opening.lift_mm(5.0), 1e-9);

    const PistonToValve beyond = answer_of(crown.measured(15.0, 25.0, 5.0), opening.lift());
    EXPECT_EQ(beyond.status, Status::not_bracketed);
    EXPECT_TRUE(beyond.drop_wanted_before);
    EXPECT_FALSE(beyond.drop_wanted_after);
}

// Two dips, the lower outside: the one inside is the least that was measured, but clearance falls
// towards the edge, and that is said.
TEST(PistonToValve, ClearanceThatStillFallsAtAnEdgeIsSaidBesideAnAnswer) {
    const Crown crown;
    const ValveLift lift = [&](CrankAngle angle) {
        const double at = angle.in_deg();
        const double clearance = at < 8.0 ? 1.0 + 0.02 * at * at : 1.0 + 0.08 * (24.0 - at);
        return std::optional(crown.drop_mm(at) - clearance);
    };
    const PistonToValve answer = answer_of(crown.measured(-10.0, 20.0, 5.0), lift);
    EXPECT_EQ(answer.status, Status::answered);
    EXPECT_NEAR(*answer.least_mm, 1.0, 1e-9);
    EXPECT_NEAR(answer.after_overlap->in_deg(), 0.0, 1e-3);
    EXPECT_TRUE(answer.drop_wanted_after);
    EXPECT_FALSE(answer.drop_wanted_before);
}

TEST(PistonToValve, AContactIsANegativeClearance) {
    Crown crown;
    crown.gap_mm = 1.0;
    const PistonToValve answer = answer_of(crown.measured(-10.0, 20.0, 5.0), Opening{}.lift());
    EXPECT_EQ(answer.status, Status::answered);
    EXPECT_LT(*answer.least_mm, -0.5);
}

TEST(PistonToValve, ALaterCamMovesTheLeastLaterAndGivesTheIntakeMoreRoom) {
    const Crown crown;
    double room_before = -1e9;
    double angle_before = -1e9;
    for (const double later : {-6.0, -4.0, -2.0, 0.0, 2.0}) {
        Opening opening;
        opening.later_deg = later;
        const PistonToValve answer = answer_of(crown.measured(-10.0, 25.0, 5.0), opening.lift());
        ASSERT_EQ(answer.status, Status::answered);
        EXPECT_GT(*answer.least_mm, room_before);
        room_before = *answer.least_mm;
        EXPECT_GT(std::abs(answer.after_overlap->in_deg() - angle_before), 1e-3);
        angle_before = answer.after_overlap->in_deg();
    }
}

TEST(PistonToValve, AnUnknownLiftAnywhereIsNoAnswer) {
    const ValveLift gone = [](CrankAngle angle) {
        return angle > CrankAngle::deg(14.0) ? std::nullopt : std::optional(1.0);
    };
    const ValveLift no_number = [](CrankAngle) { return std::optional(nan_value); };
    for (const ValveLift& lift : {gone, no_number}) {
        const PistonToValve answer = answer_of(Crown{}.measured(-10.0, 20.0, 5.0), lift);
        EXPECT_EQ(answer.status, Status::lift_unknown);
        EXPECT_FALSE(answer.at_most_mm || answer.least_mm || answer.after_overlap);
        EXPECT_EQ(answer.radial_gap_mm, 1.9);
    }
}

TEST(PistonToValve, BadDropsAreErrorsThatNameThem) {
    const auto with = [](auto&& change) {
        PistonAndValve piston = Crown{}.measured(-10.0, 20.0, 5.0);
        change(piston);
        const auto answer = piston_to_valve(piston, Opening{}.lift());
        return answer.ok() ? Error{ErrorCode::no_graphics, "good", {}, {}, {}, {}} : answer.error();
    };
    struct Expected {
        ErrorCode code;
        const char* field;
        std::optional<int> line;
    };
    const auto expect = [](const Error& error, const Expected& expected) {
        EXPECT_EQ(error.code, expected.code) << expected.field;
        EXPECT_EQ(error.field, expected.field);
        EXPECT_EQ(error.line, expected.line) << expected.field;
    };
    using E = ErrorCode;
    expect(with([](auto& p) { p.drops.drops.resize(1); }), {E::too_few_rows, "drops", {}});
    expect(with([](auto& p) { p.drops.drops.clear(); }), {E::too_few_rows, "drops", {}});
    expect(with([](auto& p) { p.drops.drops[3].after_overlap = deg(0.0); }),
           {E::order_wrong, "drops", 4});
    expect(with([](auto& p) { p.drops.drops[0].after_overlap = deg(-91.0); }),
           {E::out_of_range, "drops", 1});
    expect(with([](auto& p) { p.drops.drops[2].after_overlap = deg(nan_value); }),
           {E::not_a_number, "drops", 3});
    expect(with([](auto& p) { p.drops.drops[2].from_seat_mm = -0.01; }),
           {E::out_of_range, "drops", 3});
    expect(with([](auto& p) { p.drops.drops[2].from_seat_mm = nan_value; }),
           {E::not_a_number, "drops", 3});
    expect(with([](auto& p) { p.drops.radial_gap_mm = -0.1; }),
           {E::out_of_range, "radial_gap", {}});
    expect(with([](auto& p) { p.cos_valve_angle = 0.49; }),
           {E::out_of_range, "cos_valve_angle", {}});
    expect(with([](auto& p) { p.cos_valve_angle = 1.001; }),
           {E::out_of_range, "cos_valve_angle", {}});
    expect(with([](auto& p) { p.cos_valve_angle = nan_value; }),
           {E::not_a_number, "cos_valve_angle", {}});
    expect(with([](auto& p) { p.stroke_mm = 0.0; }), {E::out_of_range, "stroke", {}});
    expect(with([](auto& p) { p.connecting_rod_mm = 40.0; }),
           {E::out_of_range, "connecting_rod", {}});
    EXPECT_TRUE(check_valve_drops(Crown{}.measured(-10.0, 20.0, 5.0).drops).ok());
}

// ---- A whole engine

/// The V8 of the demo with pistons under its valves: flat crowns, read every 5 degrees.
Engine engine_with_drops() {
    Engine engine = demo_engine("v8-port-tubes");
    engine.connecting_rod_mm = rod_mm;
    for (const Train& train : engine.trains) {
        const bool intake = train.position.kind == ValveKind::intake;
        const double cosine = train.valve.axis_K.z();
        ValveDrops drops;
        for (double angle = -30.0; angle <= 30.0; angle += 5.0) {
            const double travel = slow_travel_mm(engine.layout.stroke_mm, rod_mm, angle);
            drops.drops.push_back({deg(angle), (intake ? 5.0 : 5.5) + travel / cosine});
        }
        drops.radial_gap_mm = intake ? 1.5 : 1.8;
        engine.valve_drops[train.position] = drops;
    }
    return engine;
}
const ValvePosition intake_3{3, ValveKind::intake, 1};
const ValvePosition exhaust_3{3, ValveKind::exhaust, 1};

PistonToValve answer_of(const Engine& engine, const ValvePosition& valve, CrankAngle advance = {},
                        LashState lash = LashState::as_set) {
    const auto answer = piston_to_valve(engine, valve, advance, lash);
    EXPECT_TRUE(answer.ok());
    return answer.ok() ? *answer : PistonToValve{};
}

// Slow twin: the crank walked in steps of 0.001 degree, the lobe's angle counted from the firing
// order by hand. Tolerances as above.
TEST(PistonToValve, EveryValveOfAnEngineIsMetAtItsOwnOverlap) {
    const Engine engine = engine_with_drops();
    for (const Train& train : engine.trains) {
        const bool intake = train.position.kind == ValveKind::intake;
        const CamLobes& lobes = intake ? engine.intake : engine.exhaust;
        const auto linkage = Linkage::close(train).linkage;
        ASSERT_TRUE(linkage.has_value());
        const auto& drops = engine.valve_drops.at(train.position);
        const auto least = slow_least(-30.0, 30.0, [&](double after_overlap) {
            const double centreline =
                intake ? lobes.centreline_crank_deg : -lobes.centreline_crank_deg;
            const double cam_deg = (after_overlap - centreline) / 2.0;
            const auto pose = linkage->at(lobes.lobe.lift_mm(CamAngle::deg(cam_deg)));
            return twins::slow_drop_mm(drops.drops, engine.layout.stroke_mm, rod_mm,
                                       train.valve.axis_K.z(), after_overlap) -
                   linkage->valve_lift_mm(*pose);
        });
        const PistonToValve answer = answer_of(engine, train.position);
        ASSERT_EQ(answer.status, Status::answered) << position_name(train.position);
        EXPECT_NEAR(*answer.least_mm, least.mm, 1e-7) << position_name(train.position);
        EXPECT_NEAR(answer.after_overlap->in_deg(), least.at_deg, 2e-3);
        EXPECT_EQ(answer.radial_gap_mm, drops.radial_gap_mm);
        EXPECT_GT(*answer.valve_lift_mm, 0.5);
        // Exhaust valves are met before the top, intake valves after it.
        EXPECT_GT((intake ? 1.0 : -1.0) * answer.after_overlap->in_deg(), 2.0);
    }
}

// Second method: the engine with its centrelines moved. Rounding of angles only.
TEST(PistonToValve, AdvanceIsTheSameAsMovingBothCentrelinesEarlier) {
    const Engine engine = engine_with_drops();
    for (const double advance : {-8.0, -4.0, 4.0, 8.0}) {
        Engine moved = engine;
        moved.intake.centreline_crank_deg -= advance;
        moved.exhaust.centreline_crank_deg += advance;
        for (const ValvePosition& valve : {intake_3, exhaust_3}) {
            const PistonToValve here = answer_of(engine, valve, deg(advance));
            const PistonToValve there = answer_of(moved, valve);
            EXPECT_EQ(here.status, there.status);
            EXPECT_NEAR(*here.at_most_mm, *there.at_most_mm, 1e-9) << advance;
            EXPECT_NEAR(here.after_overlap->in_deg(), there.after_overlap->in_deg(), 1e-3);
        }
    }
}

// Builders' question: 'if I advance four, what becomes of both valves?' The intake loses, the
// exhaust gains, and the intake closes four sooner.
TEST(PistonToValve, ACamAdvancedTakesFromTheIntakeAndGivesToTheExhaust) {
    const Engine engine = engine_with_drops();
    const std::vector<CrankAngle> advances{deg(-4.0), deg(-2.0), deg(0.0), deg(2.0), deg(4.0)};
    const auto intake = piston_to_valve_by_advance(engine, intake_3, advances);
    const auto exhaust = piston_to_valve_by_advance(engine, exhaust_3, advances);
    ASSERT_TRUE(intake.ok() && exhaust.ok());
    ASSERT_EQ(intake->size(), advances.size());
    for (std::size_t at = 0; at < advances.size(); ++at) {
        EXPECT_EQ((*intake)[at].advance, advances[at]);
        EXPECT_EQ(*(*intake)[at].clearance.least_mm,
                  *answer_of(engine, intake_3, advances[at]).least_mm);
        if (at > 0) {
            // Some 0.1 mm of lift a degree near overlap: two degrees are worth 0.1 to 0.4 mm.
            const double taken =
                *(*intake)[at - 1].clearance.least_mm - *(*intake)[at].clearance.least_mm;
            const double given =
                *(*exhaust)[at].clearance.least_mm - *(*exhaust)[at - 1].clearance.least_mm;
            EXPECT_GT(taken, 0.1);
            EXPECT_LT(taken, 0.4);
            EXPECT_GT(given, 0.1);
            EXPECT_LT(given, 0.4);
        }
    }
    const double lift = Length::thou(50.0).in_mm();
    EXPECT_NEAR(intake_closes_after_bottom(engine, intake_3, lift)->in_deg() -
                    intake_closes_after_bottom(engine, intake_3, lift, deg(4.0))->in_deg(),
                4.0, 1e-9);
    EXPECT_FALSE(piston_to_valve(engine, intake_3, deg(61.0)).ok());
    EXPECT_EQ(piston_to_valve(engine, intake_3, deg(nan_value)).error().field, "advance");
    EXPECT_FALSE(piston_to_valve_by_advance(engine, intake_3, {deg(0.0), deg(-61.0)}).ok());
}

TEST(PistonToValve, WithTheLashGoneTheValveStandsCloserByIt) {
    const Engine engine = engine_with_drops();
    for (const ValvePosition& valve : {intake_3, exhaust_3}) {
        const double lash = engine.train(valve)->valve.lash_mm;
        ASSERT_GT(lash, 0.2);
        const PistonToValve set = answer_of(engine, valve);
        const PistonToValve gone = answer_of(engine, valve, {}, LashState::gone);
        // The valve is open there, so all of the lash is lost, at the same angle.
        EXPECT_NEAR(*set.least_mm - *gone.least_mm, lash, 1e-8);
        EXPECT_NEAR(set.after_overlap->in_deg(), gone.after_overlap->in_deg(), 1e-3);
    }
}

TEST(PistonToValve, WhatIsMissingIsNamedAndGivesNoNumbers) {
    const auto expect = [](const Engine& engine, Status status, bool gap_known) {
        const PistonToValve answer = answer_of(engine, intake_3);
        EXPECT_EQ(answer.status, status);
        EXPECT_FALSE(answer.least_mm || answer.at_most_mm || answer.after_overlap ||
                     answer.valve_lift_mm || answer.drop_mm);
        EXPECT_EQ(answer.radial_gap_mm.has_value(), gap_known);
    };
    const Engine good = engine_with_drops();
    Engine engine = good;
    engine.valve_drops.erase(intake_3);
    expect(engine, Status::no_drops, false);

    engine = good;
    engine.connecting_rod_mm.reset();
    expect(engine, Status::rod_unknown, true);

    engine = good;
    std::erase_if(engine.trains, [](const Train& train) { return train.position == intake_3; });
    expect(engine, Status::no_train, true);

    engine = good;
    for (Train& train : engine.trains) {
        train.rod.length_mm += train.position == intake_3 ? 30.0 : 0.0;
    }
    expect(engine, Status::lift_unknown, true);
    EXPECT_EQ(answer_of(engine, exhaust_3).status, Status::answered);

    engine = good;
    const auto card = Lobe::from_card(9.0, {{0.508, 290.0}, {1.27, 250.0}});
    ASSERT_TRUE(card.ok() && card->estimated());
    engine.intake.lobe = *card;
    expect(engine, Status::estimated_lobe, true);
    EXPECT_EQ(answer_of(engine, exhaust_3).status, Status::answered);

    engine = good;
    engine.valve_drops[intake_3].drops.resize(1);
    EXPECT_EQ(piston_to_valve(engine, intake_3).error().field, "drops");
}

// A public forum post's cam: 20-60/60-20 at .050, 260 degrees; five degrees advanced it is
// 25-55/65-15, five retarded 15-65/55-25. Tolerance: a card's durations are hit within 0.05°.
TEST(PistonToValve, IntakeClosingOfAPublishedCamMovesWithIt) {
    Engine engine = demo_engine("v8-port-tubes");
    const double lift = Length::thou(50.0).in_mm();
    const auto card = Lobe::from_card(Length::thou(380.0).in_mm(), {{0.508, 290.0}, {lift, 260.0}});
    ASSERT_TRUE(card.ok());
    engine.intake.lobe = *card;
    engine.intake.centreline_crank_deg = 260.0 / 2.0 - 20.0; // opens 20 before the top
    const auto closes = [&](double advance) {
        return intake_closes_after_bottom(engine, intake_3, lift, deg(advance))->in_deg();
    };
    EXPECT_NEAR(closes(0.0), 60.0, 0.05);
    EXPECT_NEAR(closes(5.0), 55.0, 0.05);
    EXPECT_NEAR(closes(-5.0), 65.0, 0.05);
    EXPECT_FALSE(intake_closes_after_bottom(engine, exhaust_3, lift).has_value());
    for (const double bad : {0.0, -1.0, 10.0, nan_value}) {
        EXPECT_FALSE(intake_closes_after_bottom(engine, intake_3, bad).has_value()) << bad;
    }
}

// Common practice, no source: .080 and .100 in, .050 beside the head, .030 more for aluminium rods.
TEST(PistonToValve, LimitsAreTheTradesUnlessAShopSetsItsOwn) {
    const PistonToValveLimits limits;
    EXPECT_NEAR(limits.along_valve_mm(ValveKind::intake, false), Length::thou(80.0).in_mm(), 1e-12);
    EXPECT_NEAR(limits.along_valve_mm(ValveKind::exhaust, false), Length::thou(100.0).in_mm(),
                1e-12);
    EXPECT_NEAR(limits.along_valve_mm(ValveKind::intake, true), Length::thou(110.0).in_mm(), 1e-12);
    EXPECT_NEAR(limits.along_valve_mm(ValveKind::exhaust, true), Length::thou(130.0).in_mm(),
                1e-12);
    EXPECT_NEAR(limits.radial_mm, Length::thou(50.0).in_mm(), 1e-12);
}

} // namespace
} // namespace rodway
