#pragma once

#include "core/base/result.h"
#include "core/units/bounded.h"
#include "core/units/mass.h"
#include "core/units/power.h"

namespace rodway {

/// Power by the fuel that was burnt: what is left to go by where a sheet hides its weather.

/// kg/h and g/kWh from pounds an hour and pounds a horsepower-hour.
constexpr double kg_per_h_per_lb_per_h = Mass::g_per_lb / 1000.0;
constexpr double g_per_kWh_per_lb_per_hp_h = Mass::g_per_lb / Power::kW_per_hp;

/// Flow over specific consumption, kW. `flow_kg_per_h`: 0.01 to 5000.
/// `consumption_g_per_kWh`: 100 to 2000; alcohols stand in the upper half. Errors: not_a_number,
/// order_wrong, out_of_range ("fuel_flow", "specific_consumption").
Result<Bounded> power_from_fuel_kW(const Bounded& flow_kg_per_h,
                                   const Bounded& consumption_g_per_kWh);

/// The other way round, g/kWh: what the consumption was, if the power is known. `power_kW`: 0.1 to
/// 20 000. Errors: as above; "power".
Result<Bounded> specific_consumption_g_per_kWh(const Bounded& flow_kg_per_h,
                                               const Bounded& power_kW);

} // namespace rodway
