#pragma once

#include <string_view>

#include "core/base/result.h"
#include "core/build/records.h"

namespace rodway {

/// The most signs that one line of a record is typed in.
inline constexpr std::size_t longest_line = 300;

/// A part whose texts are as typed, with each in the form in which it is kept: without blanks at
/// its ends, nothing for an empty text, days as "2026-03-01", money as "12.50", length and weight
/// with their unit behind them. A fastener's size in `thread`, "3/8-16 x 2-1/2", is parted into
/// thread and length. `today`: ISO day of the shop's calendar.
/// Errors, `field` the member: empty_text "item"; not_a_choice "role"; not_a_date; those of
/// `parse_money`, `parse_amount`, `parse_length`, `parse_thread` and `parse_tightening_steps`;
/// out_of_range of a length, 1 to 1000 mm; wrong_type with `expected`
/// "one_line" (line ends or other signs that don't print), "shorter" (over `longest_line`),
/// "not_below_zero" (cost), "above_zero" (weight), "one_size" (a length from-to),
/// "day_gone_by" (something that happened on a day still to come),
/// "day_order" (`value` the day that comes before the one of the mark before it).
Result<PartRecord> checked_part(PartRecord part, std::string_view today);

/// The same for its days alone: what else was written on it stays as it is, whatever it is.
Result<PartRecord> with_checked_days(PartRecord part, std::string_view today);

/// A line as it is kept: without blanks at its ends. Errors: wrong_type, `expected` "one_line" or
/// "shorter".
Result<std::string> kept_line(std::string_view text, std::string_view field);

/// How many pieces: a whole number, 1 to 9999. Error: wrong_type "count", `expected` "count".
Result<int> parse_count(std::string_view text);

} // namespace rodway
