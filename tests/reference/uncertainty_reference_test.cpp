#include <gtest/gtest.h>

#include <cmath>

#include "core/clearance/doubt.h"
#include "core/clearance/verdict.h"
#include "tests/core/clearance/one_train_engine.h"

namespace rodway {
namespace {

// JCGM 100:2008 (GUM), Annex H.1, calibration of a gauge block: l = ls + d - ls·(δα·θ + αs·δθ).
// Printed: terms 25, 9.7, 2.9, 16.6 nm and u(l) = 32 nm; recomputed 31.705 nm (rounding of the
// printed inputs dominates).
TEST(UncertaintyReference, GaugeBlockBudget) {
    const double ls_nm = 50.000623e6;
    const double d_u_nm =
        combined_standard_uncertainty({{1.0, 5.8}, {1.0, 3.9}, {1.0, 6.7}}); // printed 9.7
    EXPECT_NEAR(d_u_nm, 9.7, 0.05);
    const double u_nm = combined_standard_uncertainty({
        {1.0, 25.0},               // ls
        {1.0, d_u_nm},             // d
        {0.0, 1.2e-6},             // αs, whose δθ is nought
        {0.0, 0.41},               // θ, whose δα is nought
        {-ls_nm * -0.1, 0.58e-6},  // δα at θ = -0.1
        {-ls_nm * 11.5e-6, 0.029}, // δθ at αs = 11.5e-6
    });
    EXPECT_NEAR(u_nm, 31.705, 0.0005);
    EXPECT_EQ(std::lround(u_nm), 32);
}

// JCGM 106:2012, 7.3, Table 1 (existence seen, values recomputed): a clearance that is z standard
// uncertainties above its limit reaches it with this probability. z is printed to two decimals;
// here to four, so 1e-4/2 times the density, at most 1.4e-5, dominates.
TEST(UncertaintyReference, ProbabilityOfConformance) {
    const double limit_mm = 0.254;
    const double u_mm = 0.02;
    for (const auto& [z, probability] :
         {std::pair{0.8416, 0.80}, std::pair{1.2816, 0.90}, std::pair{1.6449, 0.95},
          std::pair{2.3263, 0.99}, std::pair{3.0902, 0.999}}) {
        EXPECT_NEAR(chance_of_conformance(limit_mm + z * u_mm, limit_mm, 2.0 * u_mm), probability,
                    1.5e-5);
        EXPECT_NEAR(chance_of_conformance(limit_mm - z * u_mm, limit_mm, 2.0 * u_mm),
                    1.0 - probability, 1.5e-5);
    }
}

// JCGM 106 and ILAC-G8:09/2019, from memory: a guard band w = U (k = 2) accepts from limit + U on,
// where the probability of conformance is 0.977250; at the limit itself it is a half.
TEST(UncertaintyReference, TheVerdictsGuardBand) {
    const RodClearanceLimits limits;
    const double doubt_mm = 0.06;
    const double accepted_mm = limits.least_mm + doubt_mm;
    EXPECT_NEAR(chance_of_conformance(accepted_mm, limits.least_mm, doubt_mm), 0.977250, 1e-6);
    EXPECT_NEAR(chance_of_conformance(limits.least_mm, limits.least_mm, doubt_mm), 0.5, 1e-12);
    EXPECT_TRUE(is_pass(judge(accepted_mm, doubt_mm, limits)));
    EXPECT_EQ(judge(accepted_mm - 1e-6, doubt_mm, limits), Verdict::too_close_to_call);
    EXPECT_EQ(judge(limits.least_mm, doubt_mm, limits), Verdict::too_close_to_call);
    const double refused_mm = limits.least_mm - doubt_mm;
    EXPECT_NEAR(chance_of_conformance(refused_mm, limits.least_mm, doubt_mm), 0.022750, 1e-6);
    EXPECT_EQ(judge(refused_mm - 1e-6, doubt_mm, limits), Verdict::failed);
    EXPECT_EQ(judge(refused_mm + 1e-6, doubt_mm, limits), Verdict::too_close_to_call);
}

// Shigley's Mechanical Engineering Design, ch. 1, the shouldered screw (from memory, recomputed):
// 1.750±0.003 less 0.750±0.001, 0.120±0.005 and 0.875±0.001 in. The gap is 0.005 in, ±0.010 in if
// the worst is added, as a doubt's intervals are, and exactly ±0.006 in by squares, as its inputs.
TEST(UncertaintyReference, WorstCaseAndRootSumSquareStack) {
    const double tolerances_in[] = {0.003, 0.001, 0.005, 0.001};
    Train train;
    train.lifter.foot_K = Vec3(0.0, -90.0, 100.0);
    train.lifter.seat_height_mm = 40.0;
    train.rocker.pivot_K = Vec3(0.0, -65.0, 340.0);
    train.rocker.ball_arm_K = Vec3(0.0, -25.0, 0.0);
    train.rocker.tip_arm_K = Vec3(0.0, 38.0, 0.0);
    train.rod.length_mm = 200.0;
    const Engine engine = engine_around(train, 8.0);
    const Linkage linkage = *Linkage::close(train).linkage;
    const ClearancePlace place;
    std::vector<DoubtContribution> stack;
    std::vector<UncertainInput> by_squares;
    for (const double tolerance_in : tolerances_in) {
        DoubtContribution one;
        one.kind = DoubtKind::fit;
        one.takes_mm = one.gives_mm = 25.4 * tolerance_in;
        stack.push_back(one);
        by_squares.push_back({1.0, tolerance_in});
    }
    const auto doubt = doubt_at(engine, train, linkage, {place}, {}, stack);
    ASSERT_TRUE(doubt.has_value());
    EXPECT_NEAR(doubt->minus_mm / 25.4, 0.010, 1e-12);
    EXPECT_NEAR(doubt->plus_mm / 25.4, 0.010, 1e-12);
    EXPECT_NEAR(combined_standard_uncertainty(by_squares), 0.006, 1e-15);
}

} // namespace
} // namespace rodway
