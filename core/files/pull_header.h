#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/units/measure_unit.h"

namespace rodway {

/// What a column of a dyno's table holds.
enum class PullQuantity {
    speed,
    torque, ///< raw, or nothing said
    power,
    corrected_torque, ///< said to be corrected, or under a standard's name
    corrected_power,
    air_pressure, ///< a barometer's; whether at the station or at sea level the file rarely says
    vapour_pressure,
    dry_bulb, ///< of the air that the engine takes in
    wet_bulb,
    relative_humidity,
    oil_pressure,
    oil_temperature,
    water_temperature,
    fuel_flow,
    specific_consumption,
    air_fuel_ratio,
};

/// Its name in errors and answers, such as "oil_pressure": it never changes.
[[nodiscard]] std::string_view pull_quantity_name(PullQuantity quantity);

/// A unit of a column: what is written, times `factor`, plus `offset`, is in the unit in which the
/// quantity is held: as its dimension (`MeasureUnit`), a fuel flow in kg/h, a specific consumption
/// in g/kWh.
struct PullUnit {
    std::string id; ///< such as "lb-ft", "lb/h"; empty for a ratio
    double factor = 1.0;
    double offset = 0.0;
};

/// A column's heading, understood.
struct PullHeading {
    PullQuantity quantity = PullQuantity::speed;
    PullUnit unit;
};

/// Reads one heading: "Engine speed (rpm)", "torque_Nm", "Power [hp]", "Oil press, psi", "hp",
/// "Corrected torque lb-ft". A speed without a unit is in rpm, a humidity in per cent. Nothing
/// where the words name no quantity known here: the column is somebody else's. Error: unit_unclear
/// (a known quantity with no unit, or with another one's; `field` the quantity, `value` the
/// heading, `expected` the units).
Result<std::optional<PullHeading>> pull_heading(const std::string& heading);

/// Whether a cell is nothing but a unit, as in a line of units below the headings.
[[nodiscard]] bool is_pull_unit(const std::string& cell);

} // namespace rodway
