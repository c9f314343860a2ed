#pragma once

#include <QString>
#include <QStringList>
#include <string_view>

#include "app/work/pull_import.h"
#include "core/dyno/power_correction.h"
#include "core/dyno/pull.h"
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
/// "402.5 lb-ft at 4500 rpm, 374.2 hp at 5000 rpm", both times `factor`.
[[nodiscard]] QString pull_peaks(const PullFigures& figures, double factor = 1.0);

/// What was read in a pull's file, line by line: its rows, its peaks as the brake read them, the
/// columns understood, what goes into notes, and what contradicts itself.
[[nodiscard]] QStringList pull_read(const PullToKeep& pull);

} // namespace rodway::words
