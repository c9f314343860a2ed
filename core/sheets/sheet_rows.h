#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/engine/valve_position.h"
#include "core/sheets/row_statistics.h"
#include "core/sheets/sheet_assessment.h"

namespace rodway {

/// What one quantity comes to along the engine: at positions that differ in cylinder, journal or
/// bolt only.
struct SheetRow {
    std::string name; ///< as `row_name`
    std::vector<RowReading> readings;
    RowStatistics statistics;
};

/// What the positions of one row have in common, as they are kept: "I", "E2", "top", "front
/// vertical", "head left pass 2"; empty if there is nothing else to a position.
[[nodiscard]] std::string row_name(const SheetPosition& place);

/// A position parted: its valve or cylinder, and what else there is to it.
struct PartedPosition {
    std::string along;  ///< "3", "3I"
    std::string rest;   ///< "top thrust", "half"; empty if there is nothing else
    ValvePosition spot; ///< of a cylinder its first intake valve
    bool at_valve = false;
};
/// Nothing for a position that is neither at a valve nor at a cylinder.
[[nodiscard]] std::optional<PartedPosition> parted_position(std::string_view position, Place place);

/// A line's numbers row by row, in the order of its boxes: what was read, else what is worked out.
/// Rows of one number are left out. `RowStatistics::odd` is empty where a row needn't be alike:
/// see `row_should_be_alike`.
[[nodiscard]] std::vector<SheetRow> rows_of(const SheetLine& line);

} // namespace rodway
