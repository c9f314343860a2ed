#pragma once

#include <string>
#include <vector>

#include "core/build/records.h"

namespace rodway {

/// A reading with the words that stand for its numbers; empty where there are none.
struct ReadingRow {
    Reading reading;
    std::string sheet;
    std::string instrument;
    std::string status; ///< the word for the reading's status
};

/// Readings as a spreadsheet takes them: RFC 4180, one row for each, a decimal point, UTF-8 with a
/// byte order mark, for without it spreadsheets take a file for one in the computer's old encoding.
/// `low` and `high` are plain numbers in the row's unit where the text is a number or two with a
/// dash between them; else they are empty. A text that a spreadsheet would take for a formula gets
/// an apostrophe before it; a plain number such as -.005 stays one.
[[nodiscard]] std::string write_readings_csv(const std::string& build,
                                             const std::vector<ReadingRow>& rows);

/// One cell, quoted if it must be.
[[nodiscard]] std::string csv_cell(const std::string& text);

} // namespace rodway
