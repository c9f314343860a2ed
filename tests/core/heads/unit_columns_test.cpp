#include "core/heads/unit_columns.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/units/force.h"

namespace rodway {
namespace {

PrintedRow length(PrintedValue mm, PrintedValue in) {
    return {ColumnDimension::length, mm, in};
}
PrintedRow force(PrintedValue N, PrintedValue lbf) {
    return {ColumnDimension::force, N, lbf};
}

// myvehicle.help, Corvette 1998 5.7 head specifications: 340 N at 45.75 mm (76 lb at 1.80), 980 N
// at 35.55 mm (220 lb at "1.32"). 35.55 mm is 1.400 in; the metric column makes 62.7 N/mm (358
// lbf/in), the inch column 300 lbf/in.
SpringPage the_page() {
    return {length({45.75, 0.01}, {1.80, 0.01}), force({340.0, 1.0}, {76.0, 1.0}),
            length({35.55, 0.01}, {1.32, 0.01}), force({980.0, 1.0}, {220.0, 1.0})};
}

TEST(UnitColumns, FindTheRowThatContradictsItselfAndWhatEachColumnWouldMakeOfTheOther) {
    const auto found = judge_spring_page(the_page());
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->closed_height.finding, ColumnFinding::agree);
    EXPECT_EQ(found->closed_load.finding, ColumnFinding::agree);
    EXPECT_EQ(found->open_load.finding, ColumnFinding::agree);
    EXPECT_EQ(found->open_height.finding, ColumnFinding::undecided)
        << "two columns can't settle it";
    EXPECT_NEAR(found->open_height.comparison.inch_for_metric, 1.40, 1e-12);
    EXPECT_NEAR(found->open_height.comparison.metric_for_inch, 33.53, 1e-12);
    EXPECT_NEAR(found->open_height.comparison.twins.first_more_by, 2.022, 1e-9); // 35.55 - 33.528
    EXPECT_NEAR(found->metric_rate_N_per_mm.middle(), 62.7, 0.06);               // printed to 0.1
    EXPECT_TRUE(found->metric_rate_N_per_mm.holds(640.0 / 10.2));
    EXPECT_TRUE(found->inch_rate_N_per_mm.holds(spring_rate_N_per_mm(300.0)));
    EXPECT_FALSE(found->inch_rate_N_per_mm.holds(spring_rate_N_per_mm(358.0)));
    EXPECT_FALSE(found->metric_rate_N_per_mm.meets(found->inch_rate_N_per_mm));
}

// The third figure is made up: a spring tester's rate, a lift measured with a dial.
TEST(UnitColumns, AThirdFigureSaysWhichColumnIsContradicted) {
    ThirdFigures third;
    third.rate_N_per_mm = Interval::about(spring_rate_N_per_mm(355.0), spring_rate_N_per_mm(8.0));
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding,
              ColumnFinding::metric_stands);
    third.rate_N_per_mm = Interval::about(spring_rate_N_per_mm(302.0), spring_rate_N_per_mm(8.0));
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding,
              ColumnFinding::inch_stands);
    third.rate_N_per_mm = Interval::about(spring_rate_N_per_mm(420.0), spring_rate_N_per_mm(8.0));
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding, ColumnFinding::neither);
    EXPECT_EQ(judge_spring_page(the_page(), third)->closed_height.finding, ColumnFinding::agree);
    third.rate_N_per_mm = Interval::about(spring_rate_N_per_mm(330.0), spring_rate_N_per_mm(40.0));
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding, ColumnFinding::undecided);
    third = {};
    third.valve_lift_mm = Interval::about(10.2, 0.05);
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding,
              ColumnFinding::metric_stands);
    third.valve_lift_mm = Interval::about(12.2, 0.05);
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding,
              ColumnFinding::inch_stands);
    // The two thirds contradict each other: nothing goes with both.
    third.rate_N_per_mm = Interval::about(spring_rate_N_per_mm(355.0), spring_rate_N_per_mm(8.0));
    EXPECT_EQ(judge_spring_page(the_page(), third)->open_height.finding, ColumnFinding::neither);
}

// Made up: 980 N misprinted as 202 lb, the heights right. Only the load's row may be blamed.
TEST(UnitColumns, BlameTheRowThatIsWrongAndNotItsNeighbours) {
    SpringPage page = the_page();
    page.open_height = length({35.55, 0.01}, {1.40, 0.01});
    page.open_load = force({980.0, 1.0}, {202.0, 1.0});
    ThirdFigures third;
    third.rate_N_per_mm = Interval::about(62.7, 1.0);
    const auto found = judge_spring_page(page, third);
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->open_height.finding, ColumnFinding::agree);
    EXPECT_EQ(found->open_load.finding, ColumnFinding::metric_stands);
    // Two rows wrong, in different columns: each is settled for itself.
    page.open_height = length({33.55, 0.01}, {1.40, 0.01}); // the metric one is wrong here
    third.valve_lift_mm = Interval::about(10.2, 0.1);
    const auto both = judge_spring_page(page, third);
    EXPECT_EQ(both->open_height.finding, ColumnFinding::inch_stands);
    EXPECT_EQ(both->open_load.finding, ColumnFinding::metric_stands);
}

// Arithmetic: 25.4 mm an inch, 4.4482216 N a pound-force, 5.7101 lbf/in a N/mm (NIST SP 811).
TEST(UnitColumns, RoundingAloneIsNoContradictionInAnyDimension) {
    EXPECT_FALSE(compare_row(length({45.75, 0.01}, {1.80, 0.01}))->twins.contradict);
    EXPECT_TRUE(compare_row(length({45.75, 0.01}, {1.800, 0.001}))->twins.contradict);
    EXPECT_FALSE(compare_row(force({340.0, 1.0}, {76.0, 1.0}))->twins.contradict); // 338.06
    EXPECT_TRUE(compare_row(force({340.0, 1.0}, {75.0, 1.0}))->twins.contradict);
    const auto rate = compare_row({ColumnDimension::spring_rate, {62.7, 0.1}, {358.0, 1.0}});
    EXPECT_FALSE(rate->twins.contradict);
    EXPECT_NEAR(rate->metric_for_inch, 62.7, 1e-12);
    EXPECT_TRUE(
        compare_row({ColumnDimension::spring_rate, {62.7, 0.1}, {300.0, 1.0}})->twins.contradict);
}

TEST(UnitColumns, BadPrintsAreNamed) {
    const auto error = [](auto&& change) {
        SpringPage page = the_page();
        ThirdFigures third;
        change(page, third);
        const auto found = judge_spring_page(page, third);
        return found.ok() ? std::string("good") : found.error().field;
    };
    EXPECT_EQ(error([](auto&, auto&) {}), "good");
    EXPECT_EQ(error([](auto& page, auto&) { page.open_height.inch.step = 0.0; }),
              "open_height/inch");
    EXPECT_EQ(error([](auto& page, auto&) { page.closed_load.metric.value = -340.0; }),
              "closed_load/metric");
    EXPECT_EQ(
        error([](auto& page, auto&) { page.closed_load.dimension = ColumnDimension::length; }),
        "closed_load/dimension");
    EXPECT_EQ(error([](auto& page, auto&) { page.open_height.metric.value = 46.0; }),
              "open_height");
    EXPECT_EQ(error([](auto& page, auto&) { page.open_load.inch.value = 70.0; }), "open_load");
    EXPECT_EQ(error([](auto&, auto& third) {
                  third.rate_N_per_mm = Interval{-1.0, 60.0};
              }),
              "rate");
    EXPECT_EQ(error([](auto&, auto& third) {
                  third.valve_lift_mm = Interval::exactly(std::numeric_limits<double>::infinity());
              }),
              "valve_lift");
}

} // namespace
} // namespace rodway
