#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/dyno/pull.h"
#include "core/files/pull_header.h"

namespace rodway {

/// What a person may know about a dyno's table that the file doesn't say.
struct PullCsvHints {
    std::optional<char> separator;    ///< ',' ';' '\t'
    std::optional<char> decimal_mark; ///< '.' or ','
};

/// A column that was understood.
struct PullColumn {
    PullHeading heading;
    std::string written; ///< the heading as the file has it
};

/// A number of the file, in the unit in which its quantity is held, and one step of the last digit
/// written.
struct PullNumber {
    double value = 0.0;
    double step = 0.0;
    std::string written; ///< in the column's unit, with a decimal point and no plus sign
};

/// One row: what stands in each column understood, nothing where the cell is empty, "-" or "n/m";
/// and the other columns' cells as written.
struct PullCsvRow {
    int line = 0;
    std::vector<std::optional<PullNumber>> numbers; ///< in the order of `PullCsv::columns`
    std::vector<std::string> leftovers;             ///< in the order of `PullCsv::leftovers`
};

/// A power in the file that isn't its row's torque times speed, however the three were rounded.
struct PowerContradiction {
    int line = 0;
    bool corrected = false; ///< of the two corrected columns
    Power stated;
    Power own; ///< torque times speed
    /// The same in all rows: two corrections, or two units. Nothing where torque times speed is 0.
    std::optional<double> stated_over_own;
};

/// A table of a pull as its file has it.
struct PullCsv {
    std::vector<PullColumn> columns;
    std::vector<std::string> leftovers; ///< headings that name nothing known here: never dropped
    std::vector<PullCsvRow> rows;
    std::vector<PowerContradiction> contradictions;

    /// Place of a quantity among the columns.
    [[nodiscard]] std::optional<std::size_t> column_of(PullQuantity quantity) const;
};

/// Reads a table of a pull: a line of headings (`pull_heading`), perhaps a line of units below it,
/// then a row for each speed. Separated by tabs, semicolons or commas (the first of these that the
/// headings have); decimal point, or decimal comma where commas don't separate. One mark all
/// through the file: with both, or with numbers that could all be thousands ("1,250" among tabs or
/// semicolons, "1.250" among semicolons), it is separator_unclear until a hint says.
///
/// At most 4 MiB, 20 000 rows, 64 columns, 400 bytes a cell.
/// Errors, `line` the file's: as `utf8_text` and `delimited_rows`; out_of_range ("file");
/// unit_unclear; duplicate_field (a quantity twice: `value` the second heading, `expected` the
/// first); missing_field ("speed"; "torque" where no column has a torque or power); column_count
/// (`value` the row's, `expected` the headings'); not_a_number, out_of_range (`field` the heading;
/// `limits` in the column's unit); empty_text (a row without its speed); too_few_rows.
Result<PullCsv> read_pull_csv(std::string_view bytes, const PullCsvHints& hints = {});

/// The raw pull of a table: its torque column or, if it has none, torque from its power. Rows where
/// that cell is empty are left out. Errors: missing_field ("torque": corrected columns alone are no
/// raw pull); as `check_pull`, `line` the file's.
Result<Pull> raw_pull(const PullCsv& table);

} // namespace rodway
