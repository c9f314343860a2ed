#include "core/fasteners/bolt_tightening.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr NutFactor dry{0.16, 0.20, 0.25};

TEST(BoltTightening, TorqueAndPreloadUndoEachOther) {
    for (const double torque_Nm : {5.0, 61.0, 240.0}) {
        const auto preload = preload_at_torque(Torque::Nm(torque_Nm), 11.1125, dry);
        ASSERT_TRUE(preload.ok());
        EXPECT_LT(preload->low, preload->likely);
        EXPECT_LT(preload->likely, preload->high);
        const auto torque = torque_for_preload(preload->likely, 11.1125, dry);
        EXPECT_NEAR(torque->likely.in_Nm(), torque_Nm, 1e-9);
        // A bolt at the slippery end has its high preload from the same torque.
        EXPECT_NEAR(torque_for_preload(preload->high, 11.1125, dry)->low.in_Nm(), torque_Nm, 1e-9);
        EXPECT_NEAR(torque_for_preload(preload->low, 11.1125, dry)->high.in_Nm(), torque_Nm, 1e-9);
    }
}

// Arithmetic: 100 N m over 0.2 of 10 mm is 50 kN.
TEST(BoltTightening, AWrenchsErrorWidensThePreload) {
    const auto preload = preload_at_torque(Torque::Nm(100.0), 10.0, dry, 0.04);
    EXPECT_NEAR(preload->likely.in_N(), 50000.0, 1e-9);
    EXPECT_NEAR(preload->low.in_N(), 0.96 * 40000.0, 1e-9);
    EXPECT_NEAR(preload->high.in_N(), 1.04 * 62500.0, 1e-9);
}

TEST(BoltTightening, FrictionIsMostOfTheTorque) {
    const Thread thread = *parse_thread("7/16-14");
    const double k = *nut_factor_of_friction(thread, {0.15, 0.15, {}});
    // Common practice, no source: about a tenth of the torque pulls, the rest rubs.
    const double pitch_alone = thread.pitch_mm / (2.0 * 3.14159265) / thread.diameter_mm;
    EXPECT_GT(pitch_alone / k, 0.08);
    EXPECT_LT(pitch_alone / k, 0.17);
    // A wider flange rubs more, by f_c·(difference of mean diameters)/2 (Shigley, eq. 8-26).
    const double wide =
        *nut_factor_of_friction(thread, {0.15, 0.15, 1.25 * thread.diameter_mm + 4.0});
    EXPECT_NEAR(wide - k, 0.15 * 4.0 / (2.0 * thread.diameter_mm), 1e-12);
    EXPECT_LT(*nut_factor_of_friction(thread, {0.08, 0.15, {}}), k);
    EXPECT_EQ(nut_factor_of_friction(thread, {0.0, 0.15, {}}).error().field, "thread_friction");
    EXPECT_EQ(nut_factor_of_friction(thread, {0.15, 0.9, {}}).error().field, "collar_friction");
    EXPECT_EQ(nut_factor_of_friction(thread, {0.15, 0.15, 5.0}).error().field, "collar");
}

// Arithmetic: bolt and parts of 300 and 600 N/mm·1000 in a row are 200 kN/mm; a quarter turn of a
// 1.5 mm pitch is 0.375 mm: 75 kN.
TEST(BoltTightening, AngleAddsPreloadByStiffness) {
    const Thread m10 = *parse_thread("M10");
    const JointStiffness stiffness{300e3, 600e3};
    EXPECT_NEAR(stiffness.joint_constant(), 1.0 / 3.0, 1e-12);
    EXPECT_NEAR(stiffness.in_a_row_N_per_mm(), 200e3, 1e-6);
    const PreloadRange snug{Force::N(4000.0), Force::N(5000.0), Force::N(6000.0)};
    const auto after = preload_after_angle(snug, 90.0, m10, stiffness);
    EXPECT_NEAR(after->likely.in_N(), 80000.0, 1e-6);
    // The angle adds the same to every bolt: only the snug torque's scatter is left.
    EXPECT_NEAR((after->high - after->low).in_N(), 2000.0, 1e-6);
    EXPECT_NEAR(*angle_for_preload(snug.likely, after->likely, m10, stiffness), 90.0, 1e-9);
    EXPECT_EQ(preload_after_angle(snug, -5.0, m10, stiffness).error().field, "angle");
    EXPECT_EQ(preload_after_angle(snug, 90.0, m10, {0.0, 1e5}).error().field, "bolt_stiffness");
    EXPECT_EQ(angle_for_preload(Force::N(9.0), Force::N(8.0), m10, stiffness).error().field,
              "preload");
}

TEST(BoltTightening, WithoutAProofStrengthThereIsNoShareOfProof) {
    const Thread thread = *parse_thread("3/8-24");
    const auto unknown = own_strength("rod bolt", {}, 1517.0, {});
    EXPECT_FALSE(proof_load(thread, *unknown).has_value());
    EXPECT_FALSE(share_of_proof(Force::N(1e4), thread, *unknown).has_value());
    EXPECT_FALSE(recommended_preload(thread, *unknown, JointUse::reused).has_value());
    EXPECT_TRUE(tensile_load(thread, *unknown).has_value());
    const auto grade = strength_of("8", thread.diameter_mm);
    const Force reused = *recommended_preload(thread, *grade, JointUse::reused);
    EXPECT_NEAR(*share_of_proof(reused, thread, *grade), 0.75, 1e-12);
    const Force permanent = *recommended_preload(thread, *grade, JointUse::permanent);
    EXPECT_NEAR(*share_of_proof(permanent, thread, *grade), 0.90, 1e-12);
}

TEST(BoltTightening, NamesWhatIsWrong) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(preload_at_torque(Torque::Nm(nan), 10.0, dry).error().code, ErrorCode::not_a_number);
    EXPECT_EQ(preload_at_torque(Torque::Nm(-1.0), 10.0, dry).error().field, "torque");
    EXPECT_EQ(preload_at_torque(Torque::Nm(10.0), 0.4375, dry).error().field, "diameter");
    EXPECT_EQ(preload_at_torque(Torque::Nm(10.0), 10.0, {0.2, 0.1, 0.3}).error().field, "factor");
    EXPECT_EQ(preload_at_torque(Torque::Nm(10.0), 10.0, {0.0, 0.1, 0.3}).error().field, "factor");
    EXPECT_EQ(preload_at_torque(Torque::Nm(10.0), 10.0, dry, 4.0).error().field, "wrench");
    EXPECT_EQ(torque_for_preload(Force::N(-1.0), 10.0, dry).error().field, "preload");
}

} // namespace
} // namespace rodway
