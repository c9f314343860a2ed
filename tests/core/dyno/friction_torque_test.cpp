#include "core/dyno/friction_torque.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/units/length.h"

namespace rodway {
namespace {

double mm_per_s(double ft_per_min) {
    return Length::inches(12.0 * ft_per_min).in_mm() / 60.0;
}

// lists.diy-efi.org 1995-March/001635: pounds-feet for each cubic inch. Tolerance: rounding.
TEST(FrictionTorque, IsThePrintedTableAndStraightBetween) {
    const std::pair<double, double> rows[] = {{0.0, .088},    {1000.0, .120}, {2000.0, .170},
                                              {3000.0, .233}, {4000.0, .308}, {5000.0, .433},
                                              {6000.0, .573}, {7000.0, .725}};
    const Volume displacement = Volume::cubic_inches(350.0);
    for (const auto& [ft_per_min, each] : rows) {
        EXPECT_NEAR(friction_torque(displacement, mm_per_s(ft_per_min))->in_lbf_ft(), 350.0 * each,
                    1e-9)
            << ft_per_min;
    }
    EXPECT_NEAR(friction_torque(displacement, mm_per_s(2500.0))->in_lbf_ft(), 350.0 * 0.2015, 1e-9);
    EXPECT_NEAR(friction_torque(displacement, mm_per_s(6250.0))->in_lbf_ft(), 350.0 * 0.611, 1e-9);
}

// The same page: Tc = (T + Ft)·CF - Ft. By hand: (300 + 60)·1.1 - 60 = 336, not 330.
TEST(FrictionTorque, TheFactorLeavesTheFrictionAlone) {
    const Torque corrected = corrected_beside_friction(Torque::Nm(300.0), Torque::Nm(60.0), 1.1);
    EXPECT_NEAR(corrected.in_Nm(), 336.0, 1e-12);
    EXPECT_NEAR(corrected_beside_friction(Torque::Nm(300.0), Torque::Nm(60.0), 1.0).in_Nm(), 300.0,
                1e-12);
}

// A friction of 0.18 of the torque makes J1349's split of it.
TEST(FrictionTorque, AFixedShareIsTheSplitOfJ1349) {
    const Torque raw = Torque::Nm(400.0);
    EXPECT_NEAR(corrected_beside_friction(raw, raw * 0.18, 1.07).in_Nm(),
                400.0 * (1.18 * 1.07 - 0.18), 1e-10);
}

TEST(FrictionTorque, CorrectsAPullRowByRow) {
    // 3.000 in stroke: 500·rpm/1000 ft/min, so 4000 rpm is 2000 ft/min and 6000 is 3000.
    Pull pull;
    pull.rows = {{4000.0, Torque::lbf_ft(300.0)}, {6000.0, Torque::lbf_ft(280.0)}};
    const Volume displacement = Volume::cubic_inches(300.0);
    const auto corrected =
        corrected_beside_friction(pull, displacement, Length::inches(3.0).in_mm(), 1.05);
    ASSERT_TRUE(corrected.ok());
    EXPECT_NEAR(corrected->rows[0].torque.in_lbf_ft(), (300.0 + 51.0) * 1.05 - 51.0, 1e-9);
    EXPECT_NEAR(corrected->rows[1].torque.in_lbf_ft(), (280.0 + 69.9) * 1.05 - 69.9, 1e-9);
    pull.rows.push_back({14001.0, Torque::lbf_ft(100.0)});
    const auto beyond =
        corrected_beside_friction(pull, displacement, Length::inches(3.0).in_mm(), 1.05);
    EXPECT_EQ(beyond.error().field, "piston_speed");
    EXPECT_EQ(beyond.error().line, 3);
}

TEST(FrictionTorque, BadNumbersAreErrorsThatNameThem) {
    const Volume displacement = Volume::cubic_inches(300.0);
    EXPECT_EQ(friction_torque(displacement, -1.0).error().field, "piston_speed");
    EXPECT_EQ(friction_torque(displacement, mm_per_s(7001.0)).error().field, "piston_speed");
    EXPECT_EQ(friction_torque(displacement, std::numeric_limits<double>::quiet_NaN()).error().code,
              ErrorCode::not_a_number);
    EXPECT_EQ(friction_torque(Volume::cc(1.0), 100.0).error().field, "displacement");
    Pull pull;
    pull.rows = {{4000.0, Torque::lbf_ft(300.0)}};
    EXPECT_EQ(corrected_beside_friction(pull, displacement, 3.0, 1.0).error().field, "stroke");
    EXPECT_EQ(corrected_beside_friction(pull, displacement, 76.2, 0.1).error().field, "factor");
    EXPECT_EQ(corrected_beside_friction({}, displacement, 76.2, 1.0).error().field, "rows");
}

} // namespace
} // namespace rodway
