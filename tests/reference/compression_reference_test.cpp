// Displacement and compression against published and recomputed figures. DV-n and SC-n are rows of
// such values; where only the formula is published the number was recomputed with 25 digits, which
// is said beside it.
#include <gtest/gtest.h>

#include "core/dyno/pull.h"
#include "core/engine/dynamic_compression.h"
#include "tests/core/engine/cylinder_at_top.h"

namespace rodway {
namespace {

double ratio(double swept_cc, double clearance_cc) {
    const auto found =
        compression_ratio(Bounded::exactly(swept_cc), Bounded::exactly(clearance_cc));
    EXPECT_TRUE(found.ok());
    return found->value;
}

// DV-1, DV-2: a textbook companion's Examples 3.2 and 3.3, printed 6.531 and 6.000. DV-4: Arasu,
// Thermal Engineering, ch. 3, Illustration 2: 0.8 over 0.15 litres, 6.3333333. Tolerances: half of
// the last digit recomputed.
TEST(CompressionReference, TextbookRatios) {
    const auto swept = swept_cc({inches(3.25), inches(4.0)});
    EXPECT_NEAR(ratio(swept->value, cubic_inches(6.0).value), 6.5305121, 5e-8);
    EXPECT_NEAR(ratio(1.0, 0.2), 6.0, 1e-12);
    EXPECT_NEAR(ratio(800.0, 150.0), 6.3333333, 5e-8);
}

// DV-3. Arasu, ch. 3, Illustration 1 (the book's π is 3.1415; recomputed): 200 x 300 mm over 1.73
// litres, 650 kPa mean effective pressure, 150 firings a minute.
TEST(CompressionReference, AGasEngineOfATextbook) {
    const auto swept = swept_cc({Bounded::exactly(200.0), Bounded::exactly(300.0)});
    EXPECT_NEAR(swept->value, 9424.77796, 5e-6);
    EXPECT_NEAR(ratio(swept->value, 1730.0), 6.4478485, 5e-8);
    // 150 firings of a four-stroke cylinder are 300 revolutions.
    const Power indicated = Power::kW(15.31526);
    EXPECT_NEAR(brake_mean_effective_pressure(torque_of(indicated, 300.0), Volume::cc(swept->value))
                    .in_kPa(),
                650.0, 650.0 * 1e-6);
}

// DV-5. 4.000 x 3.480 in, eight cylinders (Heywood, eqs. 2.1 to 2.3; recomputed, 1e-10).
TEST(CompressionReference, AVeeEightsDisplacement) {
    const auto all = displacement_cc(BoreAndStroke{inches(4.0), inches(3.48)}, 8);
    EXPECT_NEAR(all->value, 5732.97759903, 5732.97759903e-10);
    EXPECT_NEAR(Volume::cc(all->value).in_cubic_inches(), 349.847757904, 349.847757904e-10);
}

// DV-6. The whole stack (recomputed, 1e-9).
TEST(CompressionReference, AllThatMakesARatio) {
    const auto found = compression_of(plain_cylinder());
    ASSERT_TRUE(found.ok());
    EXPECT_NEAR(found->swept_cc.value, 783.848968615, 783.848968615e-9);
    EXPECT_NEAR(found->gasket_cc.value, 8.437685848, 8.437685848e-9);
    EXPECT_NEAR(found->deck_cc.value, 1.045131958, 1.045131958e-9);
    EXPECT_NEAR(found->clearance_cc.value, 85.482817806, 85.482817806e-9);
    EXPECT_NEAR(found->ratio.value, 10.1696669428, 10.1696669428e-9);
}

// A page of engine formulae prints (π/4)·B²·S as the clearance volume: it is the swept one. Taken
// at its word every ratio would be 2.
TEST(CompressionReference, TheClearanceIsNotTheSweptVolume) {
    const auto found = compression_of(plain_cylinder());
    EXPECT_NEAR(found->swept_cc.value, 783.8, 0.1);
    EXPECT_GT(found->swept_cc.value, 9.0 * found->clearance_cc.value);
}

// circletrack.com, ctrp_0405 and ctrp_1102: 4.000 x 3.48 in, 5 cc of piston, gasket .020 in (its
// bore isn't printed: 4.000 taken). Deck .050 in and 70 cc: printed 9.01; .033 in and 64 cc: 9.97.
// Tolerance: half of the last digit printed.
TEST(CompressionReference, TwoStacksOfAMagazine) {
    CylinderAtTop cylinder;
    cylinder.size = {inches(4.0), inches(3.48)};
    cylinder.dish_cc = Bounded::exactly(5.0);
    cylinder.gasket = {inches(0.020), inches(4.0), {}};
    cylinder.chamber_cc = Bounded::exactly(70.0);
    cylinder.deck_mm = inches(0.050);
    const auto low = compression_of(cylinder);
    EXPECT_NEAR(Volume::cc(low->swept_cc.value).in_cubic_inches(), 43.731, 5e-4);
    EXPECT_NEAR(low->ratio.value, 9.01, 0.005);
    cylinder.chamber_cc = Bounded::exactly(64.0);
    cylinder.deck_mm = inches(0.033);
    EXPECT_NEAR(compression_of(cylinder)->ratio.value, 9.97, 0.005);
    // The piston's 5 cc taken for a dome would be half a point off.
    cylinder.dome_cc = cylinder.dish_cc;
    cylinder.dish_cc = {};
    EXPECT_GT(compression_of(cylinder)->ratio.value, 11.0);
}

// antiqueautoranch.com/montana500/julynewsletter/page4.html: 44.2 cubic inches swept, the piston
// stands up 2.86, gasket .92; six heads. Tolerance: half of the last digit printed.
TEST(CompressionReference, SixHeadsOnOneBlockWhosePistonsStandProud) {
    const std::pair<double, double> heads[] = {{17.9, 3.77}, {15.6, 4.24}, {16.6, 4.02},
                                               {13.7, 4.76}, {12.8, 5.07}, {12.2, 5.31}};
    const Bounded bore = inches(3.75);
    const double area_in2 = circle_mm2(3.75);
    std::vector<CylinderAtTop> cylinders;
    for (const auto& [head_ci, printed] : heads) {
        EXPECT_NEAR(ratio(44.2, head_ci + 0.92 - 2.86), printed, 0.005);
        // The same by sizes: what stands up is a deck below 0.
        CylinderAtTop cylinder;
        cylinder.size = {bore, inches(44.2 / area_in2)};
        cylinder.chamber_cc = cubic_inches(head_ci);
        cylinder.gasket.volume_cc = cubic_inches(0.92);
        cylinder.deck_mm = inches(-2.86 / area_in2);
        EXPECT_NEAR(compression_of(cylinder)->ratio.value, printed, 0.005);
        cylinders.push_back(cylinder);
    }
    const auto survey = compression_survey(cylinders);
    EXPECT_EQ(survey->lowest, 0u);
    EXPECT_EQ(survey->highest, 5u);
    EXPECT_NEAR(survey->spread.value, 5.31 - 3.77, 0.01);
    // What brings the first to the last's ratio is what the two heads differ by.
    const auto way = way_to_ratio(cylinders[0], survey->cylinders[5].ratio.value);
    EXPECT_NEAR(Volume::cc(way->take_off_cc.value).in_cubic_inches(), 17.9 - 12.2, 1e-9);
}

// SC-16. Stroke 3.48, rod 5.7 in: 135° from the top the piston stands 3.1047391499 in below it
// (Heywood, eq. 2.5; recomputed, 1e-9 in), and 45° past the bottom it stands there again.
TEST(CompressionReference, WhatIsLeftWhereTheIntakeShuts) {
    CylinderAtTop cylinder = plain_cylinder();
    cylinder.size = {inches(4.0), inches(3.48)};
    const auto found = dynamic_compression(cylinder, inches(5.7), Bounded::exactly(45.0));
    ASSERT_TRUE(found.ok());
    EXPECT_NEAR(Length::mm(found->stroke_left_mm.value).in_inches(), 3.1047391499, 1e-9);
    // 90° past the bottom: 2.0120722186 in, not half of the stroke.
    const auto late = dynamic_compression(cylinder, inches(5.7), Bounded::exactly(90.0));
    EXPECT_NEAR(Length::mm(late->stroke_left_mm.value).in_inches(), 2.0120722186, 1e-9);
    const double clearance_cc = compression_of(cylinder)->clearance_cc.value;
    const double left_cc = Volume::cubic_inches(circle_mm2(4.0) * 3.1047391499).in_cc();
    EXPECT_NEAR(found->ratio.value, (left_cc + clearance_cc) / clearance_cc, 1e-8);
}

} // namespace
} // namespace rodway
