#pragma once

#include <QString>
#include <string_view>

#include "core/dyno/power_correction.h"
#include "core/units/power.h"
#include "core/units/torque.h"

namespace rodway::words {

/// "SAE J607", by the name that never changes; "no correction" for "none".
[[nodiscard]] QString standard_title(std::string_view name);
[[nodiscard]] QString standard_title(PowerStandard standard);

/// "402.5 lb-ft", "441 hp": rounded as dyno sheets have them, to a tenth.
[[nodiscard]] QString pull_torque(Torque torque);
[[nodiscard]] QString pull_power(Power power);
/// The same with its sign, of what was gained.
[[nodiscard]] QString pull_torque_gained(Torque torque);
[[nodiscard]] QString pull_power_gained(Power power);

} // namespace rodway::words
