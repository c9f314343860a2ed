// Springs against published figures. SP-n are rows of such values; 'recomputed' means that only the
// formula is published and the number was worked out with 25 digits. Shigley = Budynas & Nisbett,
// Shigley's Mechanical Engineering Design, 9th ed.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/loads/spring_card.h"
#include "core/loads/valve_spring.h"
#include "core/units/force.h"
#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double steel_t_per_mm3 = 7.85e-9;
constexpr double MPa_per_psi = 6.894757293168361e-3; // NIST SP 811

double mm(double inches) {
    return Length::inches(inches).in_mm();
}

// SP-1. Shigley, Problem 10-3, published solution (10th ed.): music wire 2.5 mm, outside 31 mm, 14
// coils, 13 active, G 81.0 GPa, plain ground ends: printed 1.314 N/mm and 35 mm solid. Its load at
// yield, 167.9 N, is reached at 162.8 - 35 mm of travel, printed from rounded figures: 0.1 %.
TEST(ValveSpringReference, RateAndSolidHeightOfATextbooksSpring) {
    const SpringWire wire{2.5, 28.5, 13.0, 14.0, 81000.0, steel_t_per_mm3};
    ASSERT_TRUE(check_wire(wire).ok());
    EXPECT_NEAR(spring_rate(wire), 1.3142474, 5e-8);
    EXPECT_NEAR(solid_height(wire), 35.0, 1e-12);
    const auto spring = spring_from_wire(wire, SpringEnds::ground, 162.72, 100.0);
    ASSERT_TRUE(spring.ok());
    EXPECT_NEAR(spring->load_N(35.0), 167.856, 0.168);
    EXPECT_NEAR(*spring->bind_height_mm, 35.0, 1e-12);
}

// SP-2. Shigley, Example 10-1 (from memory; recomputed): No. 16 music wire 0.037 in, mean diameter
// 0.400, squared ends, 12.5 coils, 10.5 active, G 11.85 Msi: 4.131103 lbf/in, solid 0.4995 in
// (d·(N_t + 1)). Tolerance: digits given.
TEST(ValveSpringReference, RateAndSolidHeightOfAnInchSpring) {
    const SpringWire wire{mm(0.037), mm(0.400), 10.5, 12.5, 11.85e6 * MPa_per_psi, steel_t_per_mm3};
    ASSERT_TRUE(check_wire(wire).ok());
    EXPECT_NEAR(spring_rate_lbf_per_inch(spring_rate(wire)), 4.131103, 5e-7);
    EXPECT_NEAR(Length::mm(solid_height_unground(wire)).in_inches(), 0.4995, 1e-12);
    // With its load at yield, 6.45303 lbf, the free height is 2.06156 in: at yield it is solid.
    const auto spring = spring_from_wire(wire, SpringEnds::unground, mm(2.06156), mm(1.5));
    ASSERT_TRUE(spring.ok());
    EXPECT_NEAR(Force::N(spring->load_N(mm(0.4995))).in_lbf(), 6.45303, 3e-5);
    // A mean diameter of 0.4005 in softens it to 4.115650 lbf/in.
    SpringWire wider = wire;
    wider.mean_diameter_mm = mm(0.4005);
    EXPECT_NEAR(spring_rate_lbf_per_inch(spring_rate(wider)), 4.115650, 5e-7);
}

// SP-3. A spreadsheet built on Shigley: d 2.5, D 22.25 mm, 16 active coils, G 79.3 GPa: 2197.016
// N/m, and 98.8657 N for 45 mm of travel (printed 2197 and 98.9). Tolerance: digits recomputed.
TEST(ValveSpringReference, LoadForSomeTravel) {
    const SpringWire wire{2.5, 22.25, 16.0, 18.0, 79300.0, steel_t_per_mm3};
    EXPECT_NEAR(1000.0 * spring_rate(wire), 2197.016, 5e-4);
    const auto spring = spring_from_wire(wire, SpringEnds::ground, 100.0, 90.0);
    ASSERT_TRUE(spring.ok());
    EXPECT_NEAR(spring->load_N(55.0), 98.8657, 5e-5);
}

// SP-4, SP-5. A calculator's worked case: d 2, D 16 mm, 6 active of 8 coils, G 79.3 GPa, 7850
// kg/m³: 6.453451 N/mm; all 8 coils 0.00991698 kg; with 0.25 kg on its end 25.4035 Hz (a third of
// the spring's mass goes along). Active coils between flat plates surge at 465.742295 Hz, Shigley,
// eq. 10-25, here by its second form as well. Tolerances: digits given.
TEST(ValveSpringReference, MassAndSurge) {
    const SpringWire wire{2.0, 16.0, 6.0, 8.0, 79300.0, steel_t_per_mm3};
    const double rate = spring_rate(wire);
    EXPECT_NEAR(rate, 6.453451, 5e-7);
    SpringWire all_coils = wire;
    all_coils.active_coils = wire.total_coils;
    const double mass_t = active_mass(all_coils);
    EXPECT_NEAR(1000.0 * mass_t, 0.00991698, 5e-9);
    EXPECT_NEAR(active_mass(wire), 0.75 * mass_t, 1e-18);
    const double with_end_mass =
        std::sqrt(rate / (0.25e-3 + mass_t / 3.0)) / (2.0 * std::numbers::pi);
    EXPECT_NEAR(with_end_mass, 25.4035, 5e-5);
    EXPECT_NEAR(surge_frequency(rate, active_mass(wire)), 465.742295, 465.742295e-9);
    const double second_form = 2.0 / (2.0 * std::numbers::pi * 16.0 * 16.0 * 6.0) *
                               std::sqrt(79300.0 / (2.0 * steel_t_per_mm3));
    EXPECT_NEAR(surge_frequency(rate, active_mass(wire)), second_form, 1e-9);
}

// SP-7. A spring of a valve's size (recomputed, 1e-7): d 0.207, D 1.243 in, 4.5 active coils, G
// 11.2 Msi, 0.284 lbf/in³: 297.429142 lbf/in, 0.167950936 lbf, 413.44146 Hz.
TEST(ValveSpringReference, ASpringOfAValvesSize) {
    const double pound_t = 0.45359237e-3; // NIST SP 811
    const double cubic_inch_mm3 = 16387.064;
    const SpringWire wire{
        mm(0.207), mm(1.243), 4.5, 6.5, 11.2e6 * MPa_per_psi, 0.284 * pound_t / cubic_inch_mm3};
    ASSERT_TRUE(check_wire(wire).ok());
    EXPECT_NEAR(spring_rate_lbf_per_inch(spring_rate(wire)), 297.429142, 297.429142e-7);
    EXPECT_NEAR(active_mass(wire) / pound_t, 0.167950936, 0.167950936e-7);
    EXPECT_NEAR(surge_frequency(spring_rate(wire), active_mass(wire)), 413.44146, 413.44146e-7);
}

// A service page's head specifications for a 5.7 V8 of 1998: 340 N at 45.75 mm (76 lb at 1.80),
// 980 N at 35.55 mm (220 lb at "1.32"). The rate by the metric column is 62.7 N/mm, 358 lbf/in;
// the inch column as printed gives 300: the two contradict each other, since 35.55 mm is 1.400 in.
TEST(ValveSpringReference, ASpecificationPageWhoseColumnsContradictEachOther) {
    const SpringLoad closed{45.75, 340.0};
    const SpringLoad open{35.55, 980.0};
    const auto spring = spring_from_two_loads(closed, open);
    ASSERT_TRUE(spring.ok());
    EXPECT_NEAR(spring->rate_N_per_mm(40.0), 62.7, 0.05);
    EXPECT_NEAR(spring_rate_lbf_per_inch(spring->rate_N_per_mm(40.0)), 358.0, 0.5);

    const SpringLoad closed_inch{mm(1.80), Force::lbf(76.0).in_N()};
    const SpringLoad open_inch{mm(1.32), Force::lbf(220.0).in_N()};
    const auto rate = compare_rate(spring->rate_N_per_mm(40.0), closed_inch, open_inch);
    ASSERT_TRUE(rate.has_value());
    EXPECT_NEAR(spring_rate_lbf_per_inch(rate->from_loads_N_per_mm), 300.0, 1e-9);
    EXPECT_NEAR(rate->stated_more_by, 358.0 / 300.0 - 1.0, 0.002);

    const double step_mm = 0.01;
    const double step_inch_mm = mm(0.01);
    const auto closed_heights = compare_twins({45.75, step_mm}, {mm(1.80), step_inch_mm});
    EXPECT_FALSE(closed_heights->contradict);
    EXPECT_NEAR(closed_heights->first_more_by, 0.03, 1e-9);
    const auto open_heights = compare_twins({35.55, step_mm}, {mm(1.32), step_inch_mm});
    EXPECT_TRUE(open_heights->contradict);
    EXPECT_NEAR(open_heights->first_more_by, 2.022, 1e-9);
    EXPECT_NEAR(open_heights->rounding, 0.132, 1e-9);
    EXPECT_FALSE(compare_twins({35.55, step_mm}, {mm(1.40), step_inch_mm})->contradict);
    // Its loads agree: 340 N is 76.4 lb, 980 N is 220.3 lb.
    EXPECT_FALSE(
        compare_twins({340.0, 10.0}, {closed_inch.load_N, Force::lbf(1.0).in_N()})->contradict);
    EXPECT_FALSE(
        compare_twins({980.0, 10.0}, {open_inch.load_N, Force::lbf(1.0).in_N()})->contradict);
}

} // namespace
} // namespace rodway
