#include "core/barring/heel_arcs.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "tests/core/barring/plain_engine.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// Whether the lobe stands on its heel here and for the margin before and after, by looking every
/// tenth of a degree.
bool sampled_may_set(const Engine& engine, const ValvePosition& valve, double crank_deg,
                     double margin_deg) {
    const int looks = static_cast<int>(std::floor(margin_deg / 0.1 + 1e-9));
    for (int look = -looks; look <= looks; ++look) {
        if (engine.lobe_lift_mm(valve, CrankAngle::deg(crank_deg + 0.1 * look)) > heel_mm) {
            return false;
        }
    }
    return true;
}

TEST(HeelArcs, AValveMayBeSetWhereItsLobeRestsWithTheMarginOnBothSides) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        for (const double margin : {0.0, 10.0, 25.0}) {
            const auto heels = heel_arcs(engine, margin);
            ASSERT_TRUE(heels.ok() && heels->left_out.empty());
            ASSERT_EQ(heels->arcs.size(), engine.trains.size());
            for (const HeelArc& heel : heels->arcs) {
                for (double crank = 0.05; crank < 720.0; crank += 0.9) {
                    const double to_end =
                        std::min({degrees_ahead(heel.may_set.from, CrankAngle::deg(crank)),
                                  degrees_ahead(CrankAngle::deg(crank), heel.may_set.from),
                                  degrees_ahead(heel.may_set.to(), CrankAngle::deg(crank)),
                                  degrees_ahead(CrankAngle::deg(crank), heel.may_set.to())});
                    if (to_end > 0.1) { // the sampling's own step
                        ASSERT_EQ(heel.may_set.holds(CrankAngle::deg(crank)),
                                  sampled_may_set(engine, heel.valve, crank, margin))
                            << name << ' ' << position_name(heel.valve) << " at " << crank;
                    }
                }
            }
        }
    }
}

TEST(HeelArcs, EachDegreeOfMarginTakesOneFromEitherEnd) {
    const Engine engine = demo_engine("inline-six");
    const auto none = heel_arcs(engine, 0.0);
    const auto usual = heel_arcs(engine);
    ASSERT_TRUE(none.ok() && usual.ok());
    EXPECT_EQ(usual->margin_deg, 10.0);
    for (std::size_t at = 0; at < none->arcs.size(); ++at) {
        EXPECT_NEAR(degrees_ahead(none->arcs[at].may_set.from, usual->arcs[at].may_set.from), 10.0,
                    1e-9);
        EXPECT_NEAR(degrees_ahead(usual->arcs[at].may_set.to(), none->arcs[at].may_set.to()), 10.0,
                    1e-9);
    }
}

TEST(LashStanding, SaysHowFarToTurnUntilAValveMayBeSetAndHowLongItStays) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        for (double crank = 0.0; crank < 720.0; crank += 36.7) {
            const auto standings = lash_standing(engine, CrankAngle::deg(crank));
            ASSERT_TRUE(standings.ok());
            ASSERT_EQ(standings->size(), engine.trains.size());
            for (const LashStanding& standing : *standings) {
                const auto may = [&](double on_deg) {
                    return sampled_may_set(engine, standing.valve, crank + on_deg, 10.0);
                };
                ASSERT_EQ(standing.now, may(0.0)) << name << ' ' << crank;
                ASSERT_TRUE(standing.turn_deg.has_value());
                EXPECT_EQ(standing.stays_deg.has_value(), standing.now);
                // A tenth of a degree before and after: the sampling's own step, and a bit.
                if (standing.now) {
                    EXPECT_EQ(*standing.turn_deg, 0.0);
                    EXPECT_TRUE(may(std::max(0.0, *standing.stays_deg - 0.15)));
                    EXPECT_FALSE(may(*standing.stays_deg + 0.15));
                } else {
                    EXPECT_FALSE(may(std::max(0.0, *standing.turn_deg - 0.15)));
                    EXPECT_TRUE(may(*standing.turn_deg + 0.15));
                    for (double on = 0.0; on < *standing.turn_deg - 0.15; on += 5.0) {
                        EXPECT_FALSE(may(on)); // the first chance, not a later one
                    }
                }
            }
        }
    }
}

TEST(HeelArcs, AnEstimatedLobeIsRefusedForItsValveOnly) {
    Engine engine = demo_engine("flat-four");
    const auto card = Lobe::from_card(9.0, {{0.15, 280.0}, {1.27, 230.0}});
    ASSERT_TRUE(card.ok());
    const ValvePosition valve{3, ValveKind::exhaust, 1};
    engine.own_lobes.emplace(valve, CamLobes{*card, 14.2, 0.4, 110.0});
    const auto heels = heel_arcs(engine);
    ASSERT_TRUE(heels.ok());
    ASSERT_EQ(heels->left_out.size(), 1u);
    EXPECT_EQ(heels->left_out[0].valve, valve);
    EXPECT_EQ(heels->left_out[0].reason, LashRefusal::lobe_estimated);
    EXPECT_EQ(heels->arcs.size(), 7u);
    const auto standings = lash_standing(engine, CrankAngle{});
    ASSERT_TRUE(standings.ok());
    for (const LashStanding& standing : *standings) {
        EXPECT_EQ(standing.left_out.has_value(), standing.valve == valve);
        EXPECT_NE(standing.turn_deg.has_value(), standing.valve == valve);
        EXPECT_FALSE(standing.valve == valve && standing.now);
    }
}

TEST(HeelArcs, MarginsThatLeaveNothingOfAHeelAreSaidAndWildOnesRefused) {
    const Lobe lobe = smooth_lobe(400.0);
    const CamLobes lobes{lobe, 14.2, 0.4, 110.0};
    const Engine engine = plain_engine({0.0}, lobes, lobes);
    const double half_heel = (720.0 - off_heel_deg(lobe)) / 2.0;
    EXPECT_EQ(heel_arcs(engine, half_heel - 0.01)->arcs.size(), 2u);
    const auto gone = heel_arcs(engine, half_heel + 0.01);
    ASSERT_TRUE(gone.ok());
    ASSERT_EQ(gone->left_out.size(), 2u);
    EXPECT_EQ(gone->left_out[0].reason, LashRefusal::heel_too_short);
    for (const double bad : {-1.0, 181.0, std::numeric_limits<double>::quiet_NaN()}) {
        EXPECT_EQ(heel_arcs(engine, bad).error().code, ErrorCode::out_of_range);
        EXPECT_EQ(heel_arcs(engine, bad).error().field, "heel_margin");
    }
    const CrankAngle nan = CrankAngle::deg(std::numeric_limits<double>::quiet_NaN());
    EXPECT_EQ(lash_standing(engine, nan).error().code, ErrorCode::not_an_angle);
}

} // namespace
} // namespace rodway
