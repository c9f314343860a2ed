#pragma once

#include <optional>
#include <string>

#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// Full lift of a valve, net of lash, mm: as measured on the springs' sheet, else as the set-up has
/// it. Nothing if neither is known, or the set-up's train doesn't close. `valve`: as kept ("3I").
[[nodiscard]] std::optional<Interval> full_valve_lift_mm(const SheetFacts& facts,
                                                         const std::string& valve);

/// Full lift of the lobe that works a valve, mm: as measured on the camshaft's sheet, else as the
/// set-up has it.
[[nodiscard]] std::optional<Interval> full_lobe_lift_mm(const SheetFacts& facts,
                                                        const std::string& valve);

/// A rocker's ratio: as measured, else as its box has it. Nothing if neither was written.
[[nodiscard]] std::optional<Interval> rocker_ratio(const SheetFacts& facts,
                                                   const std::string& valve);

} // namespace rodway
