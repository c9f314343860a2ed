#include "core/dyno/fuel_power.h"

namespace rodway {
namespace {

const Limits flow_limits{0.01, 5000.0, "kg/h"};
const Limits consumption_limits{100.0, 2000.0, "g/kWh"};
const Limits power_limits{0.1, 20000.0, "kW"};
constexpr double g_per_kg = 1000.0;

Bounded grams_over(const Bounded& flow_kg_per_h, const Bounded& divisor) {
    return worst_case<2>({flow_kg_per_h, divisor},
                         [](const std::array<double, 2>& at) { return at[0] * g_per_kg / at[1]; });
}

} // namespace

Result<Bounded> power_from_fuel_kW(const Bounded& flow_kg_per_h,
                                   const Bounded& consumption_g_per_kWh) {
    if (const auto bad = outside("fuel_flow", flow_kg_per_h, flow_limits)) {
        return *bad;
    }
    if (const auto bad =
            outside("specific_consumption", consumption_g_per_kWh, consumption_limits)) {
        return *bad;
    }
    return grams_over(flow_kg_per_h, consumption_g_per_kWh);
}

Result<Bounded> specific_consumption_g_per_kWh(const Bounded& flow_kg_per_h,
                                               const Bounded& power_kW) {
    if (const auto bad = outside("fuel_flow", flow_kg_per_h, flow_limits)) {
        return *bad;
    }
    if (const auto bad = outside("power", power_kW, power_limits)) {
        return *bad;
    }
    return grams_over(flow_kg_per_h, power_kW);
}

} // namespace rodway
