#include "core/dyno/fuel_power.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

// By hand: 200 pounds an hour at half a pound a horsepower-hour are 400 hp, in any units.
TEST(FuelPower, IsFlowOverConsumption) {
    const auto power = power_from_fuel_kW(Bounded::exactly(200.0 * kg_per_h_per_lb_per_h),
                                          Bounded::exactly(0.5 * g_per_kWh_per_lb_per_hp_h));
    ASSERT_TRUE(power.ok());
    EXPECT_NEAR(Power::kW(power->value).in_hp(), 400.0, 1e-10);
    EXPECT_NEAR(power_from_fuel_kW(Bounded::exactly(75.0), Bounded::exactly(300.0))->value, 250.0,
                1e-12);
    // NIST SP 811's pound and horsepower make 608.277 g/kWh (from memory of handbooks).
    EXPECT_NEAR(g_per_kWh_per_lb_per_hp_h, 608.277, 5e-4);
}

// What isn't known of a consumption is a wide answer, and the whole of it is shown.
TEST(FuelPower, ItsBoundsAreThoseOfAGuessedConsumption) {
    const auto power =
        power_from_fuel_kW(Bounded::between(74.0, 76.0), Bounded{300.0, 270.0, 330.0});
    EXPECT_NEAR(power->value, 250.0, 1e-12);
    EXPECT_NEAR(power->low, 74000.0 / 330.0, 1e-12);
    EXPECT_NEAR(power->high, 76000.0 / 270.0, 1e-12);
}

TEST(FuelPower, ConsumptionIsTheOtherWayRound) {
    const auto consumption =
        specific_consumption_g_per_kWh(Bounded::exactly(75.0), Bounded{250.0, 240.0, 260.0});
    EXPECT_NEAR(consumption->value, 300.0, 1e-12);
    EXPECT_NEAR(consumption->low, 75000.0 / 260.0, 1e-12);
    EXPECT_NEAR(consumption->high, 75000.0 / 240.0, 1e-12);
}

TEST(FuelPower, BadNumbersAreErrorsThatNameThem) {
    const Bounded flow = Bounded::exactly(75.0);
    EXPECT_EQ(power_from_fuel_kW(Bounded{}, flow).error().field, "fuel_flow");
    EXPECT_EQ(power_from_fuel_kW(flow, Bounded::exactly(0.5)).error().field,
              "specific_consumption"); // lb/hp-h as g/kWh
    EXPECT_EQ(specific_consumption_g_per_kWh(flow, Bounded{}).error().field, "power");
    EXPECT_EQ(specific_consumption_g_per_kWh(
                  Bounded::exactly(std::numeric_limits<double>::infinity()), flow)
                  .error()
                  .code,
              ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
