#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// What a person may know about a lift table that the file doesn't say.
struct LiftTableHints {
    std::optional<char> separator;     ///< ';' ',' '\t' or ' '
    std::optional<char> decimal_mark;  ///< '.' or ','
    std::optional<bool> inches;        ///< false: millimetres
    std::optional<bool> crank_degrees; ///< false: cam degrees
};

/// Reads a lift table of two columns, angle and lobe lift, from text: one row a line, header lines
/// above, blank lines and lines that begin with '#' anywhere.
///
/// What the file doesn't settle is never guessed but asked for. Separator and decimal mark are
/// found by trying all that make two numbers of every row; if several do and their numbers differ:
/// separator_unclear. The unit comes from the header ("in", "inch", "mm"), or from a full lift that
/// only one unit leaves between 1 and 20 mm; else unit_unclear. Crank or cam comes from the header,
/// or from a table longer than a cam's turn (360), or a lift that lasts longer than 240, which are
/// crank degrees; else angle_kind_unclear.
///
/// Returns the table as a set-up's field. Other errors: as `utf8_text`, `check_lift_table`, and
/// column_count, not_a_number, contradicts_header, valve_lift_table; `line` is the file's.
Result<TypedValue> read_lift_table_file(std::string_view bytes, const LiftTableHints& hints = {});

} // namespace rodway
