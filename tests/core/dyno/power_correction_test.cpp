#include "core/dyno/power_correction.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace rodway {
namespace {

WeatherAir dry_air(double kPa, double degC, double vapour_kPa = 0.0) {
    WeatherAir air;
    air.dry_bulb = Temperature::degC(degC);
    air.dry = Pressure::kPa(kPa - vapour_kPa);
    air.vapour = Pressure::kPa(vapour_kPa);
    air.total = Pressure::kPa(kPa);
    return air;
}

constexpr PowerStandard spark_standards[] = {PowerStandard::sae_j607, PowerStandard::sae_j1349,
                                             PowerStandard::iso_1585, PowerStandard::din_70020};

TEST(PowerCorrection, IsOneInEachStandardsOwnAirAndInNoOthers) {
    for (const PowerStandard standard : spark_standards) {
        for (const PowerStandard other : spark_standards) {
            const ReferenceAir reference = reference_air(other);
            const double factor =
                power_correction(
                    standard, dry_air(reference.pressure.in_kPa(), reference.temperature.in_degC()))
                    ->factor;
            const bool same_air = reference_air(standard).pressure == reference.pressure &&
                                  reference_air(standard).temperature == reference.temperature;
            EXPECT_EQ(std::abs(factor - 1.0) < 1e-9, same_air)
                << standard_name(standard) << " in the air of " << standard_name(other);
        }
    }
}

TEST(PowerCorrection, ThinnerOrHotterAirHasALargerFactor) {
    for (const PowerStandard standard : spark_standards) {
        const double here = power_correction(standard, dry_air(98.0, 22.0))->factor;
        EXPECT_GT(power_correction(standard, dry_air(97.0, 22.0))->factor, here);
        EXPECT_GT(power_correction(standard, dry_air(98.0, 25.0))->factor, here);
        const double damp = power_correction(standard, dry_air(98.0, 22.0, 2.0))->factor;
        if (reference_air(standard).dry) {
            EXPECT_GT(damp, here);
        } else {
            EXPECT_EQ(damp, here);
        }
    }
}

TEST(PowerCorrection, SaysWhichOfItsLimitsTheAirIsOutside) {
    const auto iso = *power_correction(PowerStandard::iso_1585, dry_air(93.0, 35.0));
    EXPECT_TRUE(iso.factor_outside); // 1.0993
    EXPECT_FALSE(iso.temperature_outside);
    EXPECT_FALSE(iso.pressure_outside);
    EXPECT_TRUE(iso.outside_limits());
    EXPECT_TRUE(iso.unusual);
    const auto cold = *power_correction(PowerStandard::iso_1585, dry_air(98.0, 14.9));
    EXPECT_TRUE(cold.temperature_outside);
    EXPECT_FALSE(cold.factor_outside);
    EXPECT_FALSE(cold.unusual);
    const auto thin = *power_correction(PowerStandard::sae_j1349, dry_air(89.9, 20.0));
    EXPECT_TRUE(thin.pressure_outside);
    EXPECT_FALSE(thin.factor_outside); // none stated
    // It is the dry air's pressure that counts.
    EXPECT_TRUE(
        power_correction(PowerStandard::sae_j1349, dry_air(91.0, 20.0, 2.0))->pressure_outside);
    EXPECT_FALSE(
        power_correction(PowerStandard::sae_j1349, dry_air(106.0, 20.0, 2.0))->pressure_outside);
    // A standard without known limits still has what is usual.
    const auto j607 = *power_correction(PowerStandard::sae_j607, dry_air(89.9, 20.0));
    EXPECT_FALSE(j607.outside_limits());
    EXPECT_TRUE(j607.unusual);
    EXPECT_FALSE(power_correction(PowerStandard::sae_j1349, dry_air(99.0, 25.0))->outside_limits());
}

// The splits of J1349 take 0.18 parts of the torque for friction, whatever the air.
TEST(PowerCorrection, OnlyTwoStandardsHaveAFactorOfTheAirAlone) {
    const WeatherAir air = dry_air(95.0, 30.0);
    const double indicated = *indicated_factor(PowerStandard::sae_j1349, air);
    EXPECT_NEAR(power_correction(PowerStandard::sae_j1349, air)->factor, 1.18 * indicated - 0.18,
                1e-14);
    EXPECT_GT(std::abs(indicated - 1.0), 0.04);
    EXPECT_EQ(*indicated_factor(PowerStandard::sae_j607, air),
              power_correction(PowerStandard::sae_j607, air)->factor);
    EXPECT_FALSE(indicated_factor(PowerStandard::iso_1585, air).has_value());
    EXPECT_FALSE(indicated_factor(PowerStandard::din_70020, air).has_value());
}

// f_m by hand: 50 mg is 0.66, 40 is 0.3, 65 is 1.2 (the formula: an engine's workshop manual).
TEST(PowerCorrection, ACompressionIgnitionEngineFeelsTheAirByItsFuel) {
    const WeatherAir air = dry_air(95.0, 30.0);
    const double atmosphere = 99.0 / 95.0 * std::pow(303.0 / 298.0, 0.7);
    for (const auto& [fuel, power] :
         {std::pair{40.0, 0.3}, std::pair{50.0, 0.66}, std::pair{65.0, 1.2}}) {
        const auto correction = compression_ignition_correction(air, fuel);
        ASSERT_TRUE(correction.ok());
        EXPECT_NEAR(correction->factor, std::pow(atmosphere, power), 1e-12);
        EXPECT_EQ(correction->standard, PowerStandard::iso_1585_compression_ignition);
    }
    EXPECT_NEAR(compression_ignition_correction(dry_air(99.0, 25.0), 50.0)->factor, 1.0, 1e-12);
    EXPECT_EQ(compression_ignition_correction(air, 39.9).error().field, "fuel");
    EXPECT_EQ(compression_ignition_correction(air, 65.1).error().field, "fuel");
    EXPECT_EQ(compression_ignition_correction(air, std::nan("")).error().code,
              ErrorCode::not_a_number);
    EXPECT_TRUE(compression_ignition_correction(dry_air(85.0, 30.0), 65.0)->factor_outside);
    EXPECT_TRUE(compression_ignition_correction(dry_air(98.0, 41.0), 50.0)->temperature_outside);
    // Wider than a spark-ignition engine's: 1.085 at 39 degC is still within.
    const auto wide = compression_ignition_correction(dry_air(95.0, 39.0), 65.0);
    EXPECT_GT(wide->factor, 1.08);
    EXPECT_FALSE(wide->outside_limits());
    EXPECT_EQ(power_correction(PowerStandard::iso_1585_compression_ignition, air).error().expected,
              "fuel");
}

TEST(PowerCorrection, NamesNeverChange) {
    EXPECT_EQ(standard_name(PowerStandard::sae_j607), "j607");
    EXPECT_EQ(standard_name(PowerStandard::sae_j1349), "j1349");
    EXPECT_EQ(standard_name(PowerStandard::iso_1585), "iso_1585");
    EXPECT_EQ(standard_name(PowerStandard::din_70020), "din_70020");
    EXPECT_EQ(standard_name(PowerStandard::iso_1585_compression_ignition), "iso_1585_ci");
}

} // namespace
} // namespace rodway
