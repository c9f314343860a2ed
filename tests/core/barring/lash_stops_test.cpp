#include "core/barring/lash_stops.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <random>
#include <set>

#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_barring.h"

namespace rodway {
namespace {

bool on_heel_with_margin(const Engine& engine, const ValvePosition& valve, CrankAngle crank,
                         double margin_deg) {
    for (double on = -margin_deg; on <= margin_deg; on += 0.1) {
        if (engine.lobe_lift_mm(valve, crank + CrankAngle::deg(on)) > heel_mm) {
            return false;
        }
    }
    return true;
}

/// Every valve set once, on its heel by looking at its lobe; as few stops as the slow twin needs.
void expect_stops(const Engine& engine, CrankAngle from, double margin_deg) {
    const auto answer = fewest_lash_stops(engine, from, margin_deg);
    const auto heels = heel_arcs(engine, margin_deg);
    ASSERT_TRUE(answer.ok() && heels.ok());
    std::vector<CrankArc> arcs;
    for (const HeelArc& heel : heels->arcs) {
        arcs.push_back(heel.may_set);
    }
    EXPECT_EQ(answer->stops.size(), twins::slow_fewest(arcs));
    std::vector<ValvePosition> set;
    double turned = 0.0;
    for (const LashStop& stop : answer->stops) {
        turned += stop.turn_deg;
        EXPECT_NEAR(degrees_ahead(from, stop.at), turned, 1e-6);
        EXPECT_TRUE(stop.may_stand.holds(stop.at));
        EXPECT_FALSE(stop.set.empty());
        for (const ValvePosition& valve : stop.set) {
            set.push_back(valve);
            EXPECT_EQ(std::count(stop.may_set.begin(), stop.may_set.end(), valve), 1);
            for (const CrankAngle crank :
                 {stop.at, stop.may_stand.from, stop.may_stand.middle(), stop.may_stand.to()}) {
                // At its very ends the heel's own height is met to rounding: a bit off the margin.
                EXPECT_TRUE(on_heel_with_margin(engine, valve, crank, margin_deg - 0.01))
                    << position_name(valve) << " at " << crank.in_deg();
            }
        }
        for (const ValvePosition& valve : all_valves(engine)) {
            const bool listed = std::count(stop.may_set.begin(), stop.may_set.end(), valve) == 1;
            if (listed != on_heel_with_margin(engine, valve, stop.at, margin_deg)) {
                // Only where the arc's end falls on the stop itself, to the looks' step.
                EXPECT_NE(on_heel_with_margin(engine, valve, stop.at, margin_deg - 0.2),
                          on_heel_with_margin(engine, valve, stop.at, margin_deg + 0.2));
            }
        }
        if (stop.firing_tdc_of) {
            const CrankAngle firing = engine.layout.firing_angle(*stop.firing_tdc_of);
            EXPECT_LT(std::min(degrees_ahead(firing, stop.at), degrees_ahead(stop.at, firing)),
                      1e-6);
        }
    }
    std::sort(set.begin(), set.end());
    EXPECT_EQ(set, all_valves(engine));
}

TEST(LashStops, AreAsFewAsCanBeAndEveryValveRestsAtItsOwn) {
    for (const char* name : demo_names) {
        SCOPED_TRACE(name);
        const Engine engine = demo_engine(name);
        for (const double margin : {0.0, 10.0, 30.0}) {
            expect_stops(engine, CrankAngle::deg(123.0), margin);
        }
    }
}

TEST(LashStops, AreAsFewAsCanBeOnEnginesThatFireUnevenly) {
    constexpr std::uint64_t seed = 99;
    SCOPED_TRACE(seed);
    std::mt19937_64 random(seed);
    std::set<std::size_t> sizes;
    int at_tdc = 0;
    int elsewhere = 0;
    for (int time = 0; time < 40; ++time) {
        SCOPED_TRACE(time);
        const Lobe lobe = smooth_lobe(time % 2 == 0 ? 300.0 : 440.0);
        const int cylinders = 1 + static_cast<int>(random() % 7);
        std::vector<double> firing;
        for (int cylinder = 0; cylinder < cylinders; ++cylinder) {
            firing.push_back(std::uniform_real_distribution<double>(0.0, 720.0)(random));
        }
        const Engine engine =
            plain_engine(firing, {lobe, 14.2, 0.4, 106.0}, {lobe, 14.2, 0.4, 115.0});
        const double margin = time % 4 < 2 ? 10.0 : 60.0;
        expect_stops(engine, CrankAngle::deg(17.0 * time), margin);
        const auto answer = fewest_lash_stops(engine, CrankAngle{}, margin);
        sizes.insert(answer->stops.size());
        for (const LashStop& stop : answer->stops) {
            ++(stop.firing_tdc_of ? at_tdc : elsewhere);
        }
    }
    // The engines must have asked for one stop and for several, on top dead centres and off them.
    EXPECT_TRUE(sizes.count(1) && sizes.count(2) && sizes.count(3));
    EXPECT_GT(at_tdc, 10);
    EXPECT_GT(elsewhere, 10);
}

TEST(LashStops, StandAtCylinderOnesTopDeadCentreWhereThatServesAsWellAsAny) {
    const Engine six = plain_engine("153624", 6, smooth_lobe(320.0), 108.0);
    const auto answer = fewest_lash_stops(six, CrankAngle{});
    ASSERT_TRUE(answer.ok());
    ASSERT_EQ(answer->stops.size(), 2u);
    EXPECT_EQ(answer->stops[0].firing_tdc_of, 1);
    EXPECT_EQ(answer->stops[1].firing_tdc_of, 6); // the cylinder that fires a turn later
    EXPECT_NEAR(answer->stops[1].turn_deg, 360.0, 1e-9);
    const auto later = fewest_lash_stops(six, CrankAngle::deg(200.0));
    EXPECT_EQ(later->stops[0].firing_tdc_of, 6);
    EXPECT_NEAR(later->stops[0].turn_deg, 160.0, 1e-9);
}

TEST(LashStops, StandInTheMiddleOfWhatIsAllowedWhereNoTopDeadCentreServes) {
    // One cylinder, lobes of 440 in steps of a margin that keeps them off top dead centre: intake
    // full lift at 470, heel from 690 to 250; exhaust at 250, heel from 470 to 30; with 40 of
    // margin 10 to 210 and 510 to 710: no angle serves both, and 0 serves neither.
    const Lobe lobe = smooth_lobe(440.0);
    const CamLobes lobes{lobe, 14.2, 0.4, 110.0};
    const auto answer = fewest_lash_stops(plain_engine({0.0}, lobes, lobes), CrankAngle{}, 40.0);
    ASSERT_TRUE(answer.ok());
    ASSERT_EQ(answer->stops.size(), 2u);
    EXPECT_NEAR(answer->stops[0].at.in_deg(), 110.0, 1.0); // the lobe's 440 is met to half a degree
    EXPECT_NEAR(answer->stops[1].at.in_deg(), 610.0, 1.0);
    EXPECT_FALSE(answer->stops[0].firing_tdc_of.has_value());
    EXPECT_NEAR(answer->stops[0].may_stand.span_deg, 200.0, 1.0);
}

TEST(LashStops, EstimatedLobesAreLeftOutAndTheRestIsAnswered) {
    Engine engine = demo_engine("v8-port-tubes");
    const auto card = Lobe::from_card(9.0, {{0.15, 280.0}, {1.27, 230.0}});
    ASSERT_TRUE(card.ok());
    engine.exhaust.lobe = *card;
    const auto answer = fewest_lash_stops(engine, CrankAngle{});
    ASSERT_TRUE(answer.ok());
    EXPECT_EQ(answer->left_out.size(), 8u);
    std::size_t set = 0;
    for (const LashStop& stop : answer->stops) {
        set += stop.set.size();
    }
    EXPECT_EQ(set, 8u);
    engine.intake.lobe = *card;
    const auto none = fewest_lash_stops(engine, CrankAngle{});
    ASSERT_TRUE(none.ok());
    EXPECT_TRUE(none->stops.empty());
    EXPECT_EQ(none->left_out.size(), 16u);
}

TEST(LashStops, RefuseWhatIsNoNumber) {
    const Engine engine = demo_engine("flat-four");
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(fewest_lash_stops(engine, CrankAngle::deg(nan)).error().code,
              ErrorCode::not_an_angle);
    EXPECT_EQ(fewest_lash_stops(engine, CrankAngle{}, nan).error().code, ErrorCode::out_of_range);
}

} // namespace
} // namespace rodway
