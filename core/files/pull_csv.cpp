#include "core/files/pull_csv.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "core/files/delimited_text.h"
#include "core/files/text_bytes.h"
#include "core/units/plain_text.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

/// Many divide by 5252 where it is 5252.113, by 9549 or 9550 where it is 9549.297.
constexpr double rounded_divisor = 8.0e-5;
constexpr std::size_t shown_bytes = 60; // of a text in an error

/// What a column may hold, in the unit in which its quantity is held.
Limits limits_of(PullQuantity quantity) {
    switch (quantity) {
        case PullQuantity::speed:
            return {1.0, 30000.0, {}};
        case PullQuantity::torque:
        case PullQuantity::corrected_torque:
        case PullQuantity::power:
        case PullQuantity::corrected_power:
        case PullQuantity::specific_consumption:
            return {0.0, 20000.0, {}};
        case PullQuantity::air_pressure:
            return {50.0, 110.0, {}};
        case PullQuantity::vapour_pressure:
            return {0.0, 20.0, {}};
        case PullQuantity::relative_humidity:
        case PullQuantity::air_fuel_ratio:
            return {0.0, 100.0, {}};
        case PullQuantity::dry_bulb:
        case PullQuantity::wet_bulb:
            return {-40.0, 100.0, {}};
        case PullQuantity::oil_temperature:
        case PullQuantity::water_temperature:
            return {-40.0, 300.0, {}};
        case PullQuantity::oil_pressure:
            return {-100.0, 3000.0, {}};
        case PullQuantity::fuel_flow:
            return {0.0, 5000.0, {}};
    }
    RODWAY_ASSERT(false);
}

/// Marks between a number's digits, as all cells of the known columns have them.
struct Marks {
    std::optional<int> first_point; ///< line
    std::optional<int> first_comma;
    bool point_surely_decimal = false; ///< some number can't be thousands
    bool comma_surely_decimal = false;
};

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// "1,250", "12.500": a thousand and more to some, one and a quarter to others.
bool could_be_thousands(std::string_view cell, std::size_t mark) {
    std::string_view whole = cell.substr(0, mark);
    if (!whole.empty() && (whole.front() == '-' || whole.front() == '+')) {
        whole.remove_prefix(1);
    }
    return !whole.empty() && whole.size() <= 3 && whole.front() != '0' && cell.size() - mark == 4;
}

void note_marks(std::string_view cell, int line, Marks& marks) {
    const std::size_t mark = cell.find_first_of(".,");
    if (mark == std::string_view::npos) {
        return;
    }
    const bool point = cell[mark] == '.';
    auto& first = point ? marks.first_point : marks.first_comma;
    first = first.value_or(line);
    auto& surely = point ? marks.point_surely_decimal : marks.comma_surely_decimal;
    surely = surely || !could_be_thousands(cell, mark);
    if (cell.find(point ? ',' : '.', mark) != std::string_view::npos) {
        (point ? marks.first_comma : marks.first_point) = line;
    }
}

bool is_blank(std::string_view cell) {
    return cell.empty() || cell == "-" || cell == "--" || plain_text(cell) == "n/m";
}

/// A sign, digits, one mark, digits.
std::optional<PullNumber> number_in(std::string_view cell, char decimal_mark) {
    std::string plain;
    std::size_t decimals = 0;
    bool marked = false;
    for (std::size_t at = 0; at < cell.size(); ++at) {
        const char c = cell[at];
        if (c == decimal_mark && !marked) {
            marked = true;
            plain += '.';
        } else if (is_digit(c)) {
            decimals += marked ? 1 : 0;
            plain += c;
        } else if (at == 0 && (c == '-' || c == '+')) {
            plain += c == '-' ? "-" : "";
        } else {
            return std::nullopt;
        }
    }
    PullNumber number;
    const char* const end = plain.data() + plain.size();
    const auto [stopped, failure] = std::from_chars(plain.data(), end, number.value);
    if (failure != std::errc() || stopped != end) {
        return std::nullopt;
    }
    number.step = std::pow(10.0, -static_cast<double>(decimals));
    number.written = std::move(plain);
    return number;
}

/// Cut between letters, not within one.
std::string shown(const std::string& text) {
    std::size_t end = std::min(text.size(), shown_bytes);
    while (end > 0 && end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) {
        --end;
    }
    return text.substr(0, end);
}

/// Makes a table of rows of text.
class TableReader {
  public:
    TableReader(std::vector<DelimitedRow> rows, char separator, const PullCsvHints& hints)
        : rows_(std::move(rows)), separator_(separator), hints_(hints) {}

    Result<PullCsv> read() {
        take_unit_line();
        if (const auto bad = take_headings()) {
            return *bad;
        }
        if (const auto bad = check_columns()) {
            return *bad;
        }
        const auto mark = decimal_mark();
        if (!mark) {
            return mark.error();
        }
        for (std::size_t at = 1; at < rows_.size(); ++at) {
            if (const auto bad = take_row(rows_[at], *mark)) {
                return *bad;
            }
        }
        if (table_.rows.empty()) {
            return Error{ErrorCode::too_few_rows, "rows", "0", "1", {}, {}};
        }
        return std::move(table_);
    }

  private:
    /// Units in a line of their own go behind their headings.
    void take_unit_line() {
        if (rows_.size() < 2 || rows_[1].cells.size() != rows_[0].cells.size()) {
            return;
        }
        const auto& units = rows_[1].cells;
        const bool any_unit = std::any_of(units.begin(), units.end(), is_pull_unit);
        const bool any_number = std::any_of(units.begin(), units.end(), [](const auto& cell) {
            return number_in(cell, '.') || number_in(cell, ',');
        });
        if (!any_unit || any_number) {
            return;
        }
        for (std::size_t at = 0; at < units.size(); ++at) {
            if (!units[at].empty()) {
                rows_[0].cells[at] += " (" + units[at] + ")";
            }
        }
        rows_.erase(rows_.begin() + 1);
    }

    std::optional<Error> take_headings() {
        const DelimitedRow& headings = rows_.front();
        for (const std::string& written : headings.cells) {
            const auto heading = pull_heading(written);
            if (!heading) {
                Error error = heading.error();
                error.line = headings.line;
                return error;
            }
            if (!*heading) {
                known_.push_back(false);
                table_.leftovers.push_back(written);
                continue;
            }
            if (const auto before = table_.column_of((*heading)->quantity)) {
                return Error{ErrorCode::duplicate_field,
                             std::string(pull_quantity_name((*heading)->quantity)),
                             shown(written),
                             shown(table_.columns[*before].written),
                             headings.line,
                             {}};
            }
            known_.push_back(true);
            table_.columns.push_back({**heading, written});
        }
        return std::nullopt;
    }

    std::optional<Error> check_columns() const {
        const auto missing = [&](PullQuantity quantity) {
            return Error{ErrorCode::missing_field,
                         std::string(pull_quantity_name(quantity)),
                         {},
                         {},
                         rows_.front().line,
                         {}};
        };
        if (!table_.column_of(PullQuantity::speed)) {
            return missing(PullQuantity::speed);
        }
        for (const PullQuantity quantity :
             {PullQuantity::torque, PullQuantity::power, PullQuantity::corrected_torque,
              PullQuantity::corrected_power}) {
            if (table_.column_of(quantity)) {
                return std::nullopt;
            }
        }
        return missing(PullQuantity::torque);
    }

    /// What stands between whole numbers and their decimals, all through the file.
    Result<char> decimal_mark() const {
        if (hints_.decimal_mark) {
            return *hints_.decimal_mark;
        }
        if (separator_ == ',') {
            return '.';
        }
        Marks marks;
        for (std::size_t row = 1; row < rows_.size(); ++row) {
            for (std::size_t at = 0; at < std::min(known_.size(), rows_[row].cells.size()); ++at) {
                if (known_[at]) {
                    note_marks(rows_[row].cells[at], rows_[row].line, marks);
                }
            }
        }
        const auto unclear = [](int line) {
            return Error{ErrorCode::separator_unclear, "decimal_mark", {}, ". ,", line, {}};
        };
        if (marks.first_point && marks.first_comma) {
            return unclear(std::max(*marks.first_point, *marks.first_comma));
        }
        if (marks.first_comma) {
            return marks.comma_surely_decimal ? Result<char>(',') : unclear(*marks.first_comma);
        }
        if (marks.first_point && separator_ == ';' && !marks.point_surely_decimal) {
            return unclear(*marks.first_point);
        }
        return '.';
    }

    std::optional<Error> take_row(const DelimitedRow& row, char mark) {
        if (row.cells.size() != known_.size()) {
            return Error{ErrorCode::column_count,       "columns", std::to_string(row.cells.size()),
                         std::to_string(known_.size()), row.line,  {}};
        }
        PullCsvRow taken;
        taken.line = row.line;
        for (std::size_t at = 0; at < row.cells.size(); ++at) {
            if (!known_[at]) {
                taken.leftovers.push_back(row.cells[at]);
                continue;
            }
            const PullColumn& column = table_.columns[taken.numbers.size()];
            const auto number = cell_number(column, row.cells[at], mark, row.line);
            if (!number) {
                return number.error();
            }
            taken.numbers.push_back(*number);
        }
        note_contradictions(taken);
        table_.rows.push_back(std::move(taken));
        return std::nullopt;
    }

    static Result<std::optional<PullNumber>> cell_number(const PullColumn& column,
                                                         const std::string& cell, char mark,
                                                         int line) {
        if (is_blank(cell)) {
            if (column.heading.quantity == PullQuantity::speed) {
                return Error{ErrorCode::empty_text, shown(column.written), cell, {}, line, {}};
            }
            return std::optional<PullNumber>();
        }
        auto number = number_in(cell, mark);
        if (!number) {
            return Error{
                ErrorCode::not_a_number, shown(column.written), shown(cell), "number", line, {}};
        }
        const PullUnit& unit = column.heading.unit;
        const Limits held = limits_of(column.heading.quantity);
        const Limits written{(held.low - unit.offset) / unit.factor,
                             (held.high - unit.offset) / unit.factor, unit.id};
        if (const auto bad = outside(shown(column.written), number->value, written, line)) {
            return *bad;
        }
        number->value = number->value * unit.factor + unit.offset;
        number->step *= unit.factor;
        return number;
    }

    [[nodiscard]] std::optional<PullNumber> number_of(const PullCsvRow& row,
                                                      PullQuantity quantity) const {
        const auto column = table_.column_of(quantity);
        return column ? row.numbers[*column] : std::nullopt;
    }

    void note_contradictions(const PullCsvRow& row) {
        for (const bool corrected : {false, true}) {
            const auto torque =
                number_of(row, corrected ? PullQuantity::corrected_torque : PullQuantity::torque);
            const auto power =
                number_of(row, corrected ? PullQuantity::corrected_power : PullQuantity::power);
            if (torque && power) {
                note_contradiction(row.line, corrected, *number_of(row, PullQuantity::speed),
                                   *torque, *power);
            }
        }
    }

    void note_contradiction(int line, bool corrected, const PullNumber& speed,
                            const PullNumber& torque, const PullNumber& power) {
        const auto at = [&](double half_steps) {
            return power_of(Torque::Nm(std::max(0.0, torque.value + half_steps * torque.step / 2)),
                            std::max(0.0, speed.value + half_steps * speed.step / 2))
                .in_kW();
        };
        const double half_kW = power.step / 2.0;
        if (power.value + half_kW >= at(-1.0) * (1.0 - rounded_divisor) &&
            power.value - half_kW <= at(1.0) * (1.0 + rounded_divisor)) {
            return;
        }
        const double own_kW = at(0.0);
        table_.contradictions.push_back(
            {line, corrected, Power::kW(power.value), Power::kW(own_kW),
             own_kW > 0.0 ? std::optional(power.value / own_kW) : std::nullopt});
    }

    std::vector<DelimitedRow> rows_;
    char separator_;
    const PullCsvHints& hints_;
    std::vector<bool> known_; ///< for each cell of a row, whether its column is
    PullCsv table_;
};

} // namespace

std::optional<std::size_t> PullCsv::column_of(PullQuantity quantity) const {
    const auto found = std::find_if(columns.begin(), columns.end(), [&](const PullColumn& column) {
        return column.heading.quantity == quantity;
    });
    return found == columns.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - columns.begin()));
}

Result<PullCsv> read_pull_csv(std::string_view bytes, const PullCsvHints& hints) {
    const TableLimits limits;
    if (const auto bad = outside("file", static_cast<double>(bytes.size()),
                                 {0.0, static_cast<double>(limits.bytes), "bytes"})) {
        return *bad;
    }
    const auto text = utf8_text(bytes);
    if (!text) {
        return text.error();
    }
    // The headings stand in the first line that is neither blank nor a remark.
    std::size_t start = 0;
    while (start < text->size()) {
        const auto first = text->find_first_not_of(" \t\r\n", start);
        if (first == std::string::npos || (*text)[first] != '#') {
            start = std::min(first, text->size());
            break;
        }
        start = std::min(text->find_first_of("\r\n", first), text->size());
    }
    const std::size_t end = std::min(text->find_first_of("\r\n", start), text->size());
    const char separator =
        hints.separator.value_or(separator_of(std::string_view(*text).substr(start, end - start)));
    auto rows = delimited_rows(*text, separator, limits);
    if (!rows) {
        return rows.error();
    }
    if (rows->empty()) {
        return Error{ErrorCode::empty_file, {}, {}, {}, {}, {}};
    }
    return TableReader(*std::move(rows), separator, hints).read();
}

Result<Pull> raw_pull(const PullCsv& table) {
    const auto torque = table.column_of(PullQuantity::torque);
    const auto power = table.column_of(PullQuantity::power);
    const auto speed = table.column_of(PullQuantity::speed);
    if (!speed || (!torque && !power)) {
        return Error{ErrorCode::missing_field, speed ? "torque" : "speed", {}, {}, {}, {}};
    }
    Pull pull;
    std::vector<int> lines;
    for (const PullCsvRow& row : table.rows) {
        const auto& figure = row.numbers[torque ? *torque : *power];
        if (!figure) {
            continue;
        }
        const double rpm = row.numbers[*speed]->value;
        pull.rows.push_back(
            {rpm, torque ? Torque::Nm(figure->value) : torque_of(Power::kW(figure->value), rpm)});
        lines.push_back(row.line);
    }
    if (const auto good = check_pull(pull); !good) {
        Error error = good.error();
        if (error.line) {
            error.line = lines[static_cast<std::size_t>(*error.line) - 1];
        }
        return error;
    }
    return pull;
}

} // namespace rodway
