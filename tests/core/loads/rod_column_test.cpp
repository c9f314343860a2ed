#include "core/loads/rod_column.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/force.h"
#include "core/units/length.h"

namespace rodway {
namespace {

// Shigley's Mechanical Engineering Design, example 4-17: a round column 1.5 m long, pinned, of
// steel with E = 207 GPa, that is to bear four times 22 kN needs 37.48 mm (printed).
TEST(RodColumn, ASolidOneBearsWhatTheHandbooksWorkedExampleSays) {
    const RodColumn column{1500.0, 37.48490, 37.48490 / 2.0, 207000.0};
    EXPECT_NEAR(critical_load_N(column), 88000.0, 0.1); // of the diameter's seven digits
    // The next stocked size of the same example, 40 mm.
    EXPECT_NEAR(critical_load_N({1500.0, 40.0, 20.0, 207000.0}), 114103.1, 0.1);
}

// The same formula worked out apart for a tube 20 mm outside, 14 mm inside, 1500 mm long,
// E = 207 GPa: 5419.184 N.
TEST(RodColumn, ATubeBearsLessByWhatIsBoredOutOfIt) {
    EXPECT_NEAR(critical_load_N({1500.0, 20.0, 3.0, 207000.0}), 5419.184, 0.001);
}

// Rods 8.000 in long of .080 wall, E = 30 million psi: worked out in inches and pounds.
TEST(RodColumn, RodsAsTheyAreSold) {
    const double in = Length::mm_per_inch;
    const double E_MPa = 30e6 * Force::N_per_lbf / (in * in);
    const auto lbf = [&](double outside_in) {
        return critical_load_N({8.0 * in, outside_in * in, 0.080 * in, E_MPa}) / Force::N_per_lbf;
    };
    EXPECT_NEAR(lbf(5.0 / 16.0), 2042.9374, 0.001);
    EXPECT_NEAR(lbf(3.0 / 8.0), 4005.6779, 0.001);
    EXPECT_NEAR(second_moment_mm4(5.0 / 16.0 * in, 0.080 * in) / std::pow(in, 4), 0.000441584718,
                1e-12);
}

TEST(RodColumn, AWallOfHalfTheDiameterAndMoreIsASolidRod) {
    EXPECT_EQ(second_moment_mm4(8.0, 4.0), second_moment_mm4(8.0, 6.0));
    EXPECT_LT(second_moment_mm4(8.0, 3.9), second_moment_mm4(8.0, 4.0));
}

// Timoshenko & Gere, Theory of Elastic Stability, 1.12: at a tenth, a quarter, half and four fifths
// of the critical load a bow grows 1.111, 1.333, 2 and 5 times.
TEST(RodColumn, ABowGrowsAsTheLoadNearsTheCriticalOne) {
    EXPECT_EQ(*bow_under_load_mm(0.05, 0.0, 8000.0), 0.05) << "no load: as at rest";
    EXPECT_NEAR(*bow_under_load_mm(1.0, 800.0, 8000.0), 1.1111111, 1e-7);
    EXPECT_NEAR(*bow_under_load_mm(1.0, 2000.0, 8000.0), 1.3333333, 1e-7);
    EXPECT_NEAR(*bow_under_load_mm(0.05, 4000.0, 8000.0), 0.1, 1e-12);
    EXPECT_NEAR(*bow_under_load_mm(1.0, 6400.0, 8000.0), 5.0, 1e-9);
}

TEST(RodColumn, AtTheCriticalLoadAndBeyondThereIsNoFigure) {
    EXPECT_FALSE(bow_under_load_mm(0.05, 8000.0, 8000.0));
    EXPECT_FALSE(bow_under_load_mm(0.05, 9000.0, 8000.0));
    EXPECT_FALSE(bow_under_load_mm(0.0, 8000.0, 8000.0));
    EXPECT_FALSE(bow_under_load_mm(0.05, std::nan(""), 8000.0));
    EXPECT_TRUE(bow_under_load_mm(0.05, 7999.9, 8000.0));
}

} // namespace
} // namespace rodway
