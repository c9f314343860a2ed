#include "core/files/pull_header.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace rodway {
namespace {

struct Case {
    std::string heading;
    PullQuantity quantity;
    std::string unit;
};

TEST(PullHeader, ReadsHeadingsAsPeopleWriteThem) {
    const Case cases[] = {
        {"rpm", PullQuantity::speed, "rpm"},
        {"Engine Speed (rpm)", PullQuantity::speed, "rpm"},
        {"speed_rpm", PullQuantity::speed, "rpm"},
        {"RPM", PullQuantity::speed, "rpm"},
        {"torque_Nm", PullQuantity::torque, "Nm"},
        {"Torque (N·m)", PullQuantity::torque, "Nm"},
        {"Torque, lb-ft", PullQuantity::torque, "lb-ft"},
        {"TQ ft-lbs", PullQuantity::torque, "lb-ft"},
        {"Trq [ft lb]", PullQuantity::torque, "lb-ft"},
        {"lb-ft", PullQuantity::torque, "lb-ft"},
        {"brake torque kgf-m", PullQuantity::torque, "kgf-m"},
        {"observed torque lb.ft", PullQuantity::torque, "lb-ft"},
        {"hp", PullQuantity::power, "hp"},
        {"BHP", PullQuantity::power, "hp"},
        {"Power [kW]", PullQuantity::power, "kW"},
        {"raw power PS", PullQuantity::power, "PS"},
        {"Corrected torque (lb-ft)", PullQuantity::corrected_torque, "lb-ft"},
        {"Power (corrected) [hp]", PullQuantity::corrected_power, "hp"},
        {"STP hp", PullQuantity::corrected_power, "hp"},
        {"SAE J1349 Power (kW)", PullQuantity::corrected_power, "kW"},
        {"Barometer inHg", PullQuantity::air_pressure, "inHg"},
        {"Baro Pressure (mbar)", PullQuantity::air_pressure, "mbar"},
        {"air pressure hPa", PullQuantity::air_pressure, "mbar"},
        {"Vapor pressure in Hg", PullQuantity::vapour_pressure, "inHg"},
        {"Inlet air temp (°F)", PullQuantity::dry_bulb, "degF"},
        {"air_temp_degC", PullQuantity::dry_bulb, "degC"},
        {"dry bulb deg F", PullQuantity::dry_bulb, "degF"},
        {"wet bulb C", PullQuantity::wet_bulb, "degC"},
        {"Rel. humidity", PullQuantity::relative_humidity, "%"},
        {"humidity %", PullQuantity::relative_humidity, "%"},
        {"Oil press psi", PullQuantity::oil_pressure, "psi"},
        {"oil pressure (bar)", PullQuantity::oil_pressure, "bar"},
        {"Oil temp degF", PullQuantity::oil_temperature, "degF"},
        {"Coolant temperature [degC]", PullQuantity::water_temperature, "degC"},
        {"Fuel flow lb/h", PullQuantity::fuel_flow, "lb/h"},
        {"Fuel (lbs/hr)", PullQuantity::fuel_flow, "lb/h"},
        {"fuel kg/h", PullQuantity::fuel_flow, "kg/h"},
        {"BSFC lb/hp-h", PullQuantity::specific_consumption, "lb/hp-h"},
        {"BSFC [lb/(hp·h)]", PullQuantity::specific_consumption, "lb/hp-h"},
        {"bsfc g/kWh", PullQuantity::specific_consumption, "g/kWh"},
        {"AFR", PullQuantity::air_fuel_ratio, ""},
        {"A/F", PullQuantity::air_fuel_ratio, ""},
    };
    for (const Case& one : cases) {
        const auto heading = pull_heading(one.heading);
        ASSERT_TRUE(heading.ok()) << one.heading;
        ASSERT_TRUE(heading->has_value()) << one.heading;
        EXPECT_EQ((*heading)->quantity, one.quantity)
            << one.heading << ": " << pull_quantity_name((*heading)->quantity);
        EXPECT_EQ((*heading)->unit.id, one.unit) << one.heading;
    }
}

TEST(PullHeader, WhatItDoesNotKnowIsNothing) {
    for (const std::string written : {"",
                                      "EGT 1 (degF)",
                                      "Lambda",
                                      "time s",
                                      "Torque 2 Nm",
                                      "wheel torque Nm",
                                      "Rear wheel hp",
                                      "torque loss Nm",
                                      "psi",
                                      "degF",
                                      "oil",
                                      "throttle %",
                                      "boost psi",
                                      "corrected rpm",
                                      "vehicle speed (km/h)",
                                      "(",
                                      ")",
                                      "[]",
                                      "((((",
                                      ",,,",
                                      "\xC3\xA9"}) {
        const auto heading = pull_heading(written);
        ASSERT_TRUE(heading.ok()) << written;
        EXPECT_FALSE(heading->has_value()) << written;
    }
}

TEST(PullHeader, AKnownQuantityWithoutItsUnitIsAskedFor) {
    const Case cases[] = {
        {"Torque", PullQuantity::torque, "Nm lb-ft in-lb kgf-m"},
        {"Torque (hp)", PullQuantity::torque, "Nm lb-ft in-lb kgf-m"},
        {"Power (PS/min)", PullQuantity::power, "kW hp PS"},
        {"corrected torque", PullQuantity::corrected_torque, "Nm lb-ft in-lb kgf-m"},
        {"oil temp", PullQuantity::oil_temperature, "degC degF"},
        {"Fuel flow (gal/h)", PullQuantity::fuel_flow, "kg/h lb/h g/s"},
        {"BSFC", PullQuantity::specific_consumption, "g/kWh lb/hp-h"},
        {"Speed (km/h)", PullQuantity::speed, "rpm"},
    };
    for (const Case& one : cases) {
        const auto heading = pull_heading(one.heading);
        ASSERT_FALSE(heading.ok()) << one.heading;
        EXPECT_EQ(heading.error().code, ErrorCode::unit_unclear);
        EXPECT_EQ(heading.error().field, pull_quantity_name(one.quantity));
        EXPECT_EQ(heading.error().value, one.heading);
        EXPECT_EQ(heading.error().expected, one.unit);
    }
}

// A pound an hour is 0.45359237 kg/h, 1 lb/hp-h 608.277 g/kWh (NIST SP 811's pound and horsepower).
TEST(PullHeader, UnitsLeadToTheOneThatIsHeld) {
    const auto unit = [](const std::string& heading) { return (*pull_heading(heading))->unit; };
    EXPECT_DOUBLE_EQ(unit("fuel lb/h").factor, 0.45359237);
    EXPECT_DOUBLE_EQ(unit("fuel g/s").factor, 3.6);
    EXPECT_NEAR(unit("bsfc lb/hp-h").factor, 608.277, 5e-4);
    EXPECT_NEAR(unit("oil temp degF").factor * 212.0 + unit("oil temp degF").offset, 100.0, 1e-12);
    EXPECT_NEAR(unit("lb-ft").factor, 1.3558179483314004, 1e-15);
}

TEST(PullHeader, KnowsALineOfUnits) {
    for (const std::string cell : {"rpm", "(Nm)", "[lb-ft]", "kW", "°C", "deg F", "lb/h", "%"}) {
        EXPECT_TRUE(is_pull_unit(cell)) << cell;
    }
    for (const std::string cell : {"", "torque", "5000", "n/m", "x"}) {
        EXPECT_FALSE(is_pull_unit(cell)) << cell;
    }
}

TEST(PullHeader, NamesDiffer) {
    std::set<std::string_view> names;
    for (int quantity = 0; quantity <= static_cast<int>(PullQuantity::air_fuel_ratio); ++quantity) {
        EXPECT_TRUE(names.insert(pull_quantity_name(static_cast<PullQuantity>(quantity))).second);
    }
    EXPECT_EQ(names.size(), 16u);
}

} // namespace
} // namespace rodway
