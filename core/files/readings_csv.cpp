#include "core/files/readings_csv.h"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

/// "0.0085", ".0085", "-.005", "+12", "12.": a sign, digits and one point, nothing else.
bool is_plain_number(std::string_view text) {
    if (!text.empty() && (text.front() == '-' || text.front() == '+')) text.remove_prefix(1);
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    const auto points = std::count(text.begin(), text.end(), '.');
    const auto digits = std::count_if(text.begin(), text.end(), is_digit);
    return digits > 0 && points <= 1 && points + digits == static_cast<long>(text.size());
}

/// Whether a spreadsheet would work the text out instead of showing it: the signs that OWASP's page
/// "CSV Injection" names, also behind blanks, and their full-width twins.
bool looks_like_a_formula(std::string_view text) {
    static constexpr std::string_view first_signs = "=+-@\t\r\n";
    static constexpr std::array<std::string_view, 4> wide{"\uff1d", "\uff0b", "\uff0d", "\uff20"};
    const std::size_t at = text.find_first_not_of(' ');
    if (at == std::string_view::npos) return false;
    text.remove_prefix(at);
    return first_signs.find(text.front()) != std::string_view::npos ||
           std::any_of(wide.begin(), wide.end(), [text](std::string_view sign) {
               return text.substr(0, sign.size()) == sign;
           });
}

/// Low and high of a text that is a number, or two with a dash between them.
std::pair<std::string, std::string> numbers_of(const Reading& reading) {
    const Quantity* quantity = find_quantity(reading.quantity);
    if (quantity != nullptr && !is_numeric(quantity->form)) return {};
    if (is_plain_number(reading.text)) return {reading.text, reading.text};
    const std::size_t dash = reading.text.find('-', 1);
    if (quantity == nullptr || dash == std::string::npos) return {};
    const std::string low = reading.text.substr(0, dash);
    const std::string high = reading.text.substr(dash + 1);
    const bool unsigned_numbers = is_plain_number(low) && is_plain_number(high) &&
                                  low.front() != '-' && low.front() != '+' && high.front() != '-' &&
                                  high.front() != '+';
    if (!unsigned_numbers) return {};
    return {low, high};
}

/// "2026-03-01T12:00:00Z" as spreadsheets know times.
std::string spreadsheet_time(std::string when) {
    std::replace(when.begin(), when.end(), 'T', ' ');
    if (!when.empty() && when.back() == 'Z') when.pop_back();
    return when;
}

template <typename Cells>
void put_row(std::string& out, const Cells& cells) {
    bool first = true;
    for (const auto& cell : cells) {
        if (!first) out += ',';
        first = false;
        out += csv_cell(std::string(cell));
    }
    out += "\r\n";
}

} // namespace

std::string csv_cell(const std::string& text) {
    std::string cell = text;
    if (looks_like_a_formula(cell) && !is_plain_number(cell)) cell.insert(0, 1, '\'');
    if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
    std::string quoted = "\"";
    for (const char c : cell) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    quoted += '"';
    return quoted;
}

std::string write_readings_csv(const std::string& build, const std::vector<ReadingRow>& rows) {
    static constexpr std::array<std::string_view, 15> columns{
        "build",  "sheet",      "quantity", "position",    "value", "unit",     "low", "high",
        "status", "instrument", "method",   "temperature", "who",   "when_utc", "note"};
    std::string out = "\xEF\xBB\xBF";
    put_row(out, columns);
    for (const ReadingRow& row : rows) {
        const Reading& reading = row.reading;
        const auto [low, high] = numbers_of(reading);
        const std::array<std::string, columns.size()> cells{
            build,
            row.sheet,
            reading.quantity,
            reading.position,
            reading.text,
            reading.unit,
            low,
            high,
            row.status,
            row.instrument,
            reading.method.value_or(std::string()),
            reading.temperature.value_or(std::string()),
            reading.taken_by,
            spreadsheet_time(reading.taken_at),
            reading.note.value_or(std::string())};
        put_row(out, cells);
    }
    return out;
}

} // namespace rodway
