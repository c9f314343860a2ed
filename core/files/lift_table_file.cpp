#include "core/files/lift_table_file.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

#include "core/cam/lift_table.h"
#include "core/engine/set_up.h"
#include "core/files/text_bytes.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"

namespace rodway {
namespace {

struct Line {
    std::string text;
    int number = 0;
};

/// One way of reading a file, and what it makes of it.
struct Reading {
    char separator;
    char decimal_mark;
    std::vector<std::array<std::string, 2>> rows; ///< numbers with a decimal point
};

constexpr std::array<std::pair<char, char>, 7> ways{{
    {';', '.'},
    {';', ','},
    {'\t', '.'},
    {'\t', ','},
    {' ', '.'},
    {' ', ','},
    {',', '.'},
}};

std::vector<Line> lines_of(const std::string& text) {
    std::vector<Line> lines;
    int number = 0;
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = std::min(text.find_first_of("\r\n", start), text.size());
        ++number;
        std::string line = text.substr(start, end - start);
        start = end + (text.compare(end, 2, "\r\n") == 0 ? 2 : 1);
        const auto last = line.find_last_not_of(" \t");
        line.resize(last == std::string::npos ? 0 : last + 1);
        const auto first = line.find_first_not_of(" \t");
        if (first != std::string::npos && line[first] != '#') {
            lines.push_back({line, number});
        }
    }
    return lines;
}

bool has_letter(const std::string& text) {
    return std::any_of(text.begin(), text.end(),
                       [](unsigned char c) { return std::isalpha(c) || c >= 0x80; });
}

std::vector<std::string> cells_of(const std::string& line, char separator) {
    std::vector<std::string> cells(1);
    for (const char c : line) {
        const bool space = c == ' ' || c == '\t';
        if (c == separator || (separator == ' ' && space)) {
            if (separator != ' ' || !cells.back().empty()) {
                cells.emplace_back();
            }
        } else if (!space || separator == '\t') {
            cells.back() += c;
        }
    }
    return cells;
}

/// The number with a decimal point, if the cell is one in this way of writing.
std::optional<std::string> number_in(std::string cell, char decimal_mark) {
    const char other = decimal_mark == '.' ? ',' : '.';
    if (cell.size() > 1 && cell.front() == '"' && cell.back() == '"') {
        cell = cell.substr(1, cell.size() - 2);
    }
    if (cell.find(other) != std::string::npos) {
        return std::nullopt;
    }
    std::replace(cell.begin(), cell.end(), ',', '.');
    return parse_number(cell).ok() ? std::optional(cell) : std::nullopt;
}

/// Reads all lines one way; nothing if a line doesn't make two numbers.
std::optional<Reading> read_way(const std::vector<Line>& lines, char separator, char decimal_mark) {
    Reading reading{separator, decimal_mark, {}};
    for (const Line& line : lines) {
        const auto cells = cells_of(line.text, separator);
        if (cells.size() != 2) {
            return std::nullopt;
        }
        const auto angle = number_in(cells[0], decimal_mark);
        const auto lift = number_in(cells[1], decimal_mark);
        if (!angle || !lift) {
            return std::nullopt;
        }
        reading.rows.push_back({*angle, *lift});
    }
    return reading;
}

/// No way fits: names the first line that the likeliest way stumbles over.
Error stumble(const std::vector<Line>& lines, const LiftTableHints& hints) {
    std::size_t furthest = 0;
    std::pair<char, char> likeliest = ways[0];
    for (const auto& way : ways) {
        if ((hints.separator && *hints.separator != way.first) ||
            (hints.decimal_mark && *hints.decimal_mark != way.second)) {
            continue;
        }
        std::size_t good = 0;
        while (good < lines.size() && read_way({lines[good]}, way.first, way.second)) {
            ++good;
        }
        if (good > furthest) {
            furthest = good;
            likeliest = way;
        }
    }
    const Line& line = lines[std::min(furthest, lines.size() - 1)];
    const bool two_cells = cells_of(line.text, likeliest.first).size() == 2;
    return {two_cells ? ErrorCode::not_a_number : ErrorCode::column_count,
            "lift_table",
            line.text.substr(0, 60),
            "2",
            line.number,
            {}};
}

Result<Reading> only_reading(const std::vector<Line>& lines, const LiftTableHints& hints) {
    std::optional<Reading> found;
    for (const auto& [separator, decimal_mark] : ways) {
        if ((hints.separator && *hints.separator != separator) ||
            (hints.decimal_mark && *hints.decimal_mark != decimal_mark)) {
            continue;
        }
        const auto reading = read_way(lines, separator, decimal_mark);
        if (!reading) {
            continue;
        }
        if (found && found->rows != reading->rows) {
            return Error{ErrorCode::separator_unclear,
                         "lift_table",
                         lines.front().text.substr(0, 60),
                         {},
                         lines.front().number,
                         {}};
        }
        found = reading;
    }
    if (!found) {
        return stumble(lines, hints);
    }
    return *found;
}

/// Whole words of the header lines, in small letters.
std::vector<std::string> header_words(const std::vector<Line>& headers) {
    std::vector<std::string> words;
    for (const Line& line : headers) {
        words.emplace_back();
        for (const char c : line.text) {
            if (std::isalpha(static_cast<unsigned char>(c))) {
                words.back() += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
            } else if (!words.back().empty()) {
                words.emplace_back();
            }
        }
    }
    return words;
}

/// What the header says: true for a word of the first set, false for the second, nothing for both.
std::optional<bool> said(const std::vector<std::string>& words,
                         std::initializer_list<std::string_view> yes,
                         std::initializer_list<std::string_view> no) {
    const auto any = [&](std::initializer_list<std::string_view> set) {
        return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
            return std::find(set.begin(), set.end(), word) != set.end();
        });
    };
    if (any(yes) == any(no)) {
        return std::nullopt;
    }
    return any(yes);
}

struct Extent {
    double whole = 0.0;  ///< of the angles
    double lifted = 0.0; ///< of the angles with lift
    double full_lift = 0.0;
};

Extent extent_of(const std::vector<std::array<std::string, 2>>& rows) {
    Extent extent;
    std::optional<double> first_lifted;
    const double first = *parse_number(rows.front()[0]);
    for (const auto& row : rows) {
        const double angle = *parse_number(row[0]);
        const double lift = *parse_number(row[1]);
        extent.whole = std::max(extent.whole, angle - first);
        extent.full_lift = std::max(extent.full_lift, lift);
        if (lift > 0.0) {
            first_lifted = first_lifted.value_or(angle);
            extent.lifted = angle - *first_lifted;
        }
    }
    return extent;
}

std::optional<bool> unit_by_size(double full_lift) {
    const bool could_be_mm = full_lift >= 1.0 && full_lift <= 20.0;
    const double as_inches = full_lift * Length::mm_per_inch;
    const bool could_be_inches = as_inches >= 1.0 && as_inches <= 20.0;
    return could_be_mm == could_be_inches ? std::nullopt : std::optional(could_be_inches);
}

} // namespace

Result<TypedValue> read_lift_table_file(std::string_view bytes, const LiftTableHints& hints) {
    const auto text = utf8_text(bytes);
    if (!text) {
        return text.error();
    }
    std::vector<Line> lines = lines_of(*text);
    const auto first_row = std::find_if(lines.begin(), lines.end(),
                                        [](const Line& line) { return !has_letter(line.text); });
    const std::vector<std::string> words = header_words({lines.begin(), first_row});
    lines.erase(lines.begin(), first_row);
    if (lines.empty()) {
        return Error{ErrorCode::empty_file, "lift_table", {}, {}, {}, {}};
    }
    const auto reading = only_reading(lines, hints);
    if (!reading) {
        return reading.error();
    }
    const Extent extent = extent_of(reading->rows);
    const Error unclear{
        ErrorCode::unit_unclear, "lift_table", exact_text(extent.full_lift), {}, {}, {}};

    if (std::find(words.begin(), words.end(), "valve") != words.end()) {
        return Error{ErrorCode::valve_lift_table, "lift_table", {}, {}, {}, {}};
    }
    const std::optional<bool> header_inches =
        said(words, {"in", "inch", "inches"},
             {"mm", "millimetre", "millimetres", "millimeter", "millimeters"});
    const std::optional<bool> header_crank =
        said(words, {"crank", "crankshaft"}, {"cam", "camshaft"});
    const auto contradicted = [](const std::optional<bool>& hint,
                                 const std::optional<bool>& header) {
        return hint && header && *hint != *header;
    };
    if (contradicted(hints.inches, header_inches) ||
        contradicted(hints.crank_degrees, header_crank)) {
        const bool unit = contradicted(hints.inches, header_inches);
        return Error{ErrorCode::contradicts_header,
                     "lift_table",
                     {},
                     unit ? (*header_inches ? "in" : "mm") : (*header_crank ? "crank" : "cam"),
                     {},
                     {}};
    }
    std::optional<bool> inches = hints.inches ? hints.inches : header_inches;
    if (!inches) {
        inches = unit_by_size(extent.full_lift);
    }
    if (!inches) {
        return unclear;
    }
    std::optional<bool> crank = hints.crank_degrees ? hints.crank_degrees : header_crank;
    if (!crank && (extent.whole > 360.0 || extent.lifted > 240.0)) {
        crank = true;
    }
    if (!crank) {
        Error error = unclear;
        error.code = ErrorCode::angle_kind_unclear;
        error.value = exact_text(extent.lifted);
        return error;
    }

    TypedValue field;
    field.unit = std::string(*crank ? "crank_deg" : "cam_deg") + (*inches ? "/in" : "/mm");
    for (const auto& row : reading->rows) {
        field.text += (field.text.empty() ? "" : "; ") + row[0] + " " + row[1];
    }
    const auto table = lift_table_from_text(field.text, field.unit);
    RODWAY_ASSERT(table.ok());
    if (const auto checked = check_lift_table(*table); !checked) {
        Error error = checked.error();
        if (error.line) {
            const auto row = static_cast<std::size_t>(*error.line - 1);
            error.line = lines[row].number;
            error.value = lines[row].text;
        }
        return error;
    }
    return field;
}

} // namespace rodway
