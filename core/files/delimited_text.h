#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"

namespace rodway {

/// One row of a table in text: its cells, blanks at their ends taken off, and the line on which it
/// begins.
struct DelimitedRow {
    std::vector<std::string> cells;
    int line = 0;
};

/// What a table may be at most.
struct TableLimits {
    std::size_t bytes = std::size_t{4} * 1024 * 1024;
    std::size_t rows = 20000;
    std::size_t columns = 64;
    std::size_t cell_bytes = 400;
};

/// Takes text apart into rows and cells. Cells may stand in quotation marks (RFC 4180), and hold
/// separators, line ends and doubled quotation marks there. Blank lines, and lines that begin with
/// '#', are left out. Errors: out_of_range with `limits` ("rows", "columns", "cell"; `line`);
/// column_count (`expected` a quotation mark: one isn't closed).
Result<std::vector<DelimitedRow>> delimited_rows(std::string_view text, char separator,
                                                 const TableLimits& limits = {});

/// Tab, semicolon or comma: the first of these that the line has outside quotation marks; a comma
/// if it has none.
[[nodiscard]] char separator_of(std::string_view line);

} // namespace rodway
