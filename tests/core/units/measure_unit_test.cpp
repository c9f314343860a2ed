#include "core/units/measure_unit.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(MeasureUnit, EveryDimensionHasItsOwnUnitFirst) {
    const std::pair<Dimension, std::string_view> held[] = {
        {Dimension::length, "mm"},        {Dimension::angle, "deg"},
        {Dimension::crank_angle, "deg"},  {Dimension::cam_angle, "deg"},
        {Dimension::force, "N"},          {Dimension::mass, "g"},
        {Dimension::volume, "cc"},        {Dimension::pressure, "kPa"},
        {Dimension::temperature, "degC"}, {Dimension::torque, "Nm"},
        {Dimension::power, "kW"},         {Dimension::speed, "rpm"},
        {Dimension::time, "s"},           {Dimension::percent, "%"},
    };
    for (const auto& [dimension, id] : held) {
        const auto units = units_of(dimension);
        ASSERT_FALSE(units.empty()) << id;
        EXPECT_EQ(units.front().id, id);
        EXPECT_EQ(units.front().factor, 1.0) << id;
        EXPECT_EQ(units.front().offset, 0.0) << id;
        for (const MeasureUnit& unit : units) {
            EXPECT_EQ(unit.dimension, dimension) << unit.id;
            EXPECT_EQ(find_unit(dimension, unit.id), &unit) << unit.id;
        }
    }
    EXPECT_TRUE(units_of(Dimension::none).empty());
}

TEST(MeasureUnit, IsFoundWithinItsDimensionOnly) {
    EXPECT_EQ(find_unit(Dimension::torque, "psi"), nullptr);
    EXPECT_EQ(find_unit(Dimension::none, "mm"), nullptr);
    EXPECT_EQ(unit_ids(Dimension::mass), "g kg oz lb");
    EXPECT_EQ(unit_ids(Dimension::none), "");
}

} // namespace
} // namespace rodway
