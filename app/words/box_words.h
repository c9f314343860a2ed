#pragma once

#include <QString>
#include <string>

#include "core/sheets/reading_value.h"
#include "core/sheets/sheet_rows.h"

namespace rodway::words {

/// What was typed, in the quantity's unit and in the other: ".0025" of inches is "0.0025 in =
/// 0.0635 mm". No digit that was typed is lost. Empty for what isn't a number with a unit.
[[nodiscard]] QString both_units(const ReadingValue& value, const Quantity& quantity);

/// The number of `amount` alone, for where there is room for a few signs only.
[[nodiscard]] QString bare_amount(const Interval& value, const Quantity& quantity);

/// A row as `row_name` calls it, in words: "Intake", "Exhaust, full", "Top thrust"; "All" if
/// nothing else tells its positions apart.
[[nodiscard]] QString row_title(const std::string& name);

/// "8: least 1.810 in (3I), most 1.825 in (8I), spread 0.015 in, mean 1.8175 in", with the odd
/// ones behind.
[[nodiscard]] QString row_text(const SheetRow& row, const Quantity& quantity);

/// "12 of 16, 1 outside, 2 to see"; empty for a sheet that nobody has begun.
[[nodiscard]] QString progress(const AssessedSheet& sheet);

/// A limit as it is kept: "0.002 to 0.003 in, new parts, 3I, this build (the maker)".
[[nodiscard]] QString limit_record(const LimitRecord& record, const Quantity& quantity);

} // namespace rodway::words
