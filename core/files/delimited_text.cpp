#include "core/files/delimited_text.h"

#include <algorithm>

namespace rodway {
namespace {

std::string without_blanks(const std::string& cell) {
    const auto first = cell.find_first_not_of(" \t");
    if (first == std::string::npos) {
        return {};
    }
    return cell.substr(first, cell.find_last_not_of(" \t") - first + 1);
}

Error too_much(const char* field, std::size_t found, std::size_t most, int line) {
    return {ErrorCode::out_of_range,
            field,
            std::to_string(found),
            {},
            line,
            Limits{0.0, static_cast<double>(most), {}}};
}

/// Walks over the text once, cell by cell.
class Walk {
  public:
    Walk(std::string_view text, char separator, const TableLimits& limits)
        : text_(text), separator_(separator), limits_(limits) {}

    Result<std::vector<DelimitedRow>> rows() {
        std::vector<DelimitedRow> rows;
        while (at_ < text_.size()) {
            if (skipped_line()) {
                continue;
            }
            const auto row = take_row();
            if (!row) {
                return row.error();
            }
            rows.push_back(*row);
            if (rows.size() > limits_.rows) {
                return too_much("rows", rows.size(), limits_.rows, row->line);
            }
        }
        return rows;
    }

  private:
    [[nodiscard]] bool at_line_end() const {
        return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r';
    }
    void take_line_end() {
        if (at_ < text_.size()) {
            at_ += text_.substr(at_, 2) == "\r\n" ? 2 : 1;
            ++line_;
        }
    }

    /// Blank, or a remark. A line of separators alone is blank too: spreadsheets write such.
    bool skipped_line() {
        const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
        const std::string_view line = text_.substr(at_, end - at_);
        const auto first = line.find_first_not_of(" \t,;");
        if (first != std::string_view::npos && line[line.find_first_not_of(" \t")] != '#') {
            return false;
        }
        at_ = end;
        take_line_end();
        return true;
    }

    Result<DelimitedRow> take_row() {
        DelimitedRow row;
        row.line = line_;
        while (true) {
            const auto cell = take_cell(row.line);
            if (!cell) {
                return cell.error();
            }
            row.cells.push_back(*cell);
            if (row.cells.size() > limits_.columns) {
                return too_much("columns", row.cells.size(), limits_.columns, row.line);
            }
            if (at_line_end()) {
                take_line_end();
                return row;
            }
            ++at_; // the separator
        }
    }

    Result<std::string> take_cell(int row_line) {
        std::string cell;
        while (!at_line_end() && text_[at_] != separator_) {
            const bool opens = text_[at_] == '"' && without_blanks(cell).empty();
            if (!opens) {
                cell += text_[at_++];
            } else if (!take_quoted(cell)) {
                return Error{ErrorCode::column_count, "cell", {}, "\"", row_line, {}};
            }
            if (cell.size() > limits_.cell_bytes) {
                return too_much("cell", cell.size(), limits_.cell_bytes, row_line);
            }
        }
        return without_blanks(cell);
    }

    /// What stands between quotation marks; false if the second one is missing.
    bool take_quoted(std::string& cell) {
        cell.clear();
        for (++at_; at_ < text_.size(); ++at_) {
            if (text_[at_] == '"' && text_.substr(at_, 2) != "\"\"") {
                ++at_;
                return true;
            }
            at_ += text_[at_] == '"' ? 1 : 0;
            line_ += text_[at_] == '\n' ? 1 : 0;
            cell += text_[at_];
        }
        return false;
    }

    std::string_view text_;
    char separator_;
    const TableLimits& limits_;
    std::size_t at_ = 0;
    int line_ = 1;
};

} // namespace

Result<std::vector<DelimitedRow>> delimited_rows(std::string_view text, char separator,
                                                 const TableLimits& limits) {
    return Walk(text, separator, limits).rows();
}

char separator_of(std::string_view line) {
    std::string bare;
    bool quoted = false;
    for (const char c : line) {
        quoted = quoted != (c == '"');
        if (!quoted) {
            bare += c;
        }
    }
    for (const char separator : {'\t', ';'}) {
        if (bare.find(separator) != std::string::npos) {
            return separator;
        }
    }
    return ',';
}

} // namespace rodway
