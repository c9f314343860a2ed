#include "core/clearance/variant_table.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

const Engine& v8() {
    static const Engine engine = demo_engine("v8-port-tubes");
    return engine;
}

constexpr double in = 25.4;

const ValveVariants& row(const VariantTable& table, const char* name) {
    const auto found =
        std::find_if(table.valves.begin(), table.valves.end(), [&](const ValveVariants& valve) {
            return position_name(valve.as_it_stands.position) == name;
        });
    EXPECT_NE(found, table.valves.end()) << name;
    return *found;
}

std::vector<std::string> names(const std::vector<ValvePosition>& valves) {
    std::vector<std::string> list;
    for (const ValvePosition& valve : valves) {
        list.push_back(position_name(valve));
    }
    return list;
}

void expect_same_line(const ValveClearance& found, const ValveClearance& expected) {
    EXPECT_EQ(found.position, expected.position);
    EXPECT_EQ(found.found.status, expected.found.status);
    EXPECT_EQ(found.verdict, expected.verdict);
    EXPECT_EQ(found.all.size(), expected.all.size());
    ASSERT_EQ(found.found.minimum.has_value(), expected.found.minimum.has_value());
    if (found.found.minimum) {
        const RodClearance& minimum = *found.found.minimum;
        EXPECT_EQ(minimum.clearance_mm, expected.found.minimum->clearance_mm);
        EXPECT_EQ(minimum.lobe_lift_mm, expected.found.minimum->lobe_lift_mm);
        EXPECT_EQ(minimum.p_wall_K, expected.found.minimum->p_wall_K);
        EXPECT_EQ(minimum.in_passage->wall, expected.found.minimum->in_passage->wall);
        EXPECT_EQ(minimum.in_passage->end, expected.found.minimum->in_passage->end);
    }
}

// Three variants that undo one another: one made on top of the one before would show.
TEST(VariantTable, EqualsSurveysMadeOneByOne) {
    const std::vector<NamedVariant> variants{{"taller", {.lifter_taller_mm = 1.27}},
                                             {"thin", {.gasket_thicker_mm = {-0.381, -0.381}}},
                                             {"thick rod", {.rod_thicker_mm = 1.5875}}};
    const auto table = variant_table(v8(), variants);
    ASSERT_TRUE(table.ok());
    const auto stands = survey(v8());
    ASSERT_EQ(table->valves.size(), stands->size());
    ASSERT_EQ(table->variants.size(), variants.size());
    for (std::size_t column = 0; column < variants.size(); ++column) {
        EXPECT_EQ(table->variants[column].name, variants[column].name);
        const auto tried = survey(*with_variant(v8(), variants[column].variant));
        for (std::size_t at = 0; at < stands->size(); ++at) {
            const ValveVariants& valve = table->valves[at];
            expect_same_line(valve.as_it_stands, (*stands)[at]);
            ASSERT_EQ(valve.by_variant.size(), variants.size());
            const TriedClearance& cell = valve.by_variant[column];
            expect_same_line(cell.line, (*tried)[at]);
            EXPECT_EQ(*cell.change_mm, (*tried)[at].found.minimum->clearance_mm -
                                           (*stands)[at].found.minimum->clearance_mm);
        }
    }
}

// The intake sinks between the heads: its tubes go away from rods that are near their outboard wall
// and onto those near their inboard wall. Exhaust tubes are the heads' own.
TEST(VariantTable, AThinnerGasketHelpsOneWallAndHurtsTheOther) {
    const auto table =
        variant_table(v8(), {{"thin", {.gasket_thicker_mm = {-0.015 * in, -0.015 * in}}},
                             {"thick", {.gasket_thicker_mm = {0.015 * in, 0.015 * in}}}});
    ASSERT_TRUE(table.ok());
    int outboard = 0;
    int inboard = 0;
    for (const ValveVariants& valve : table->valves) {
        const RodClearance& stands = *valve.as_it_stands.found.minimum;
        const double thin = *valve.by_variant[0].change_mm;
        const double thick = *valve.by_variant[1].change_mm;
        if (valve.as_it_stands.position.kind == ValveKind::exhaust) {
            EXPECT_EQ(thin, 0.0);
            EXPECT_EQ(thick, 0.0);
        } else if (stands.in_passage->wall == Wall::outboard) {
            ++outboard;
            EXPECT_GT(thin, 0.0) << position_name(valve.as_it_stands.position);
            EXPECT_LT(thick, 0.0) << position_name(valve.as_it_stands.position);
        } else if (stands.in_passage->wall == Wall::inboard) {
            ++inboard;
            EXPECT_LT(thin, 0.0) << position_name(valve.as_it_stands.position);
            EXPECT_GT(thick, 0.0) << position_name(valve.as_it_stands.position);
        }
    }
    EXPECT_GE(outboard, 5);
    EXPECT_GE(inboard, 1);
}

TEST(VariantTable, SaysWhichValvesFallUnderTheLimitAndWhichAreTightest) {
    // As it stands 3I is under the demo's limit of .010 (its verdict is a fail, see the command
    // line's tests); rods 1/16 thicker take 1/32 from every clearance.
    const auto table = variant_table(v8(), {{"3/8", {.rod_thicker_mm = 0.0625 * in}},
                                            {"shorter arm", {.ball_arm_longer_mm = -0.020 * in}}});
    ASSERT_TRUE(table.ok());
    EXPECT_EQ(names(table->as_it_stands.below_limit), std::vector<std::string>{"3I"});
    EXPECT_TRUE(table->as_it_stands.falls_below_limit.empty());
    EXPECT_EQ(position_name(*table->as_it_stands.tightest), "3I");
    EXPECT_EQ(*table->as_it_stands.least_mm,
              row(*table, "3I").as_it_stands.found.minimum->clearance_mm);
    for (std::size_t column = 0; column < 2; ++column) {
        const VariantOutcome& outcome = table->variants[column];
        std::vector<std::string> below;
        std::vector<std::string> falls;
        double least = 1e9;
        for (const ValveVariants& valve : table->valves) {
            const TriedClearance& tried = valve.by_variant[column];
            const double clearance = tried.line.found.minimum->clearance_mm;
            const std::string name = position_name(valve.as_it_stands.position);
            if (clearance < 0.254) {
                below.push_back(name);
                if (name != "3I") {
                    falls.push_back(name);
                }
            }
            EXPECT_EQ(tried.falls_below_limit, clearance < 0.254 && name != "3I") << name;
            least = std::min(least, clearance);
        }
        EXPECT_EQ(names(outcome.below_limit), below);
        EXPECT_EQ(names(outcome.falls_below_limit), falls);
        EXPECT_EQ(*outcome.least_mm, least);
    }
    // The shorter arm cures 3I: nothing is under the limit, and nothing falls there.
    EXPECT_TRUE(table->variants[1].below_limit.empty());
    // On the inline six it is the other way: one valve falls under.
    const auto six = variant_table(demo_engine("inline-six"),
                                   {{"shorter arm", {.ball_arm_longer_mm = -0.020 * in}}});
    EXPECT_TRUE(six->as_it_stands.below_limit.empty());
    EXPECT_EQ(names(six->variants[0].falls_below_limit), std::vector<std::string>{"4E"});
    EXPECT_TRUE(row(*six, "4E").by_variant[0].falls_below_limit);
    EXPECT_EQ(position_name(*six->variants[0].tightest), "4E");
}

TEST(VariantTable, AValveWithoutAnAnswerHasNoChange) {
    // So thick a gasket that the intake's tubes leave their rods.
    const auto table = variant_table(v8(), {{"far", {.gasket_thicker_mm = {0.7 * in, 0.7 * in}}}});
    ASSERT_TRUE(table.ok());
    const TriedClearance& tried = row(*table, "7I").by_variant[0];
    EXPECT_EQ(tried.line.found.status, TrainStatus::does_not_go_through);
    EXPECT_FALSE(tried.change_mm.has_value());
    EXPECT_FALSE(tried.falls_below_limit);
    const auto without = names(table->variants[0].without_answer);
    EXPECT_NE(std::find(without.begin(), without.end(), "7I"), without.end());
    EXPECT_EQ(std::find(without.begin(), without.end(), "7E"), without.end());
    EXPECT_TRUE(table->as_it_stands.without_answer.empty());
    // Back from there: no change can be told, but being under the limit can.
    const Engine far = *with_variant(v8(), {.gasket_thicker_mm = {0.7 * in, 0.7 * in}});
    const auto back =
        variant_table(far, {{"as it was", {.gasket_thicker_mm = {-0.7 * in, -0.7 * in}}}});
    const TriedClearance& again = row(*back, "3I").by_variant[0];
    EXPECT_FALSE(again.change_mm.has_value());
    EXPECT_TRUE(again.falls_below_limit);
}

TEST(VariantTable, ARefusalNamesTheVariant) {
    const auto refused = variant_table(
        v8(), {{"good", {.lifter_taller_mm = 1.0}}, {"too tall", {.lifter_taller_mm = 200.0}}});
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(refused.error().field, "too tall: trains/1I/lifter/seat_height");
    EXPECT_EQ(refused.error().limits->unit, "in");
}

TEST(VariantTable, AStopEndsItWithoutTrouble) {
    std::stop_source stop;
    stop.request_stop();
    const auto table =
        variant_table(v8(), {{"taller", {.lifter_taller_mm = 1.0}}}, stop.get_token());
    ASSERT_TRUE(table.ok());
    EXPECT_TRUE(table->valves.empty());
    EXPECT_TRUE(table->variants.empty());
    const auto none = variant_table(v8(), {});
    EXPECT_EQ(none->valves.size(), 16u);
    EXPECT_TRUE(none->variants.empty());
}

} // namespace
} // namespace rodway
