#include "core/build/label_time.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "core/build/word_list.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

constexpr double minutes_in_hour = 60.0;
constexpr double minutes_in_day = 24.0 * minutes_in_hour;
constexpr std::size_t most_digits = 6; ///< more than the longest time has

struct Unit {
    std::string_view word;
    double minutes;
};
constexpr std::array<Unit, 15> units{{{"minutes", 1.0},
                                      {"minute", 1.0},
                                      {"mins", 1.0},
                                      {"min", 1.0},
                                      {"m", 1.0},
                                      {"hours", minutes_in_hour},
                                      {"hour", minutes_in_hour},
                                      {"hrs", minutes_in_hour},
                                      {"hr", minutes_in_hour},
                                      {"h", minutes_in_hour},
                                      {"days", minutes_in_day},
                                      {"day", minutes_in_day},
                                      {"d", minutes_in_day},
                                      {"weeks", 7.0 * minutes_in_day},
                                      {"week", 7.0 * minutes_in_day}}};

Error wrong(std::string_view text, const char* expected) {
    return Error{ErrorCode::wrong_type, "minutes", std::string(text), expected, {}, {}};
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return c >= 'a' && c <= 'z';
}

void skip_blanks(std::string_view& rest) {
    while (rest.starts_with(' ')) rest.remove_prefix(1);
}

/// "12", "1.5", "1,5", ".5".
std::optional<double> take_number(std::string_view& rest) {
    double value = 0.0;
    double step = 0.0; // of the next digit behind the mark; 0 before it
    std::size_t digits = 0;
    while (!rest.empty() && digits <= most_digits) {
        const char c = rest.front();
        if (is_digit(c) && step == 0.0) {
            value = 10.0 * value + (c - '0');
            ++digits;
        } else if (is_digit(c)) {
            value += step * (c - '0');
            step /= 10.0;
            ++digits;
        } else if ((c == '.' || c == ',') && step == 0.0) {
            step = 0.1;
        } else {
            break;
        }
        rest.remove_prefix(1);
    }
    return digits == 0 || digits > most_digits ? std::nullopt : std::optional(value);
}

/// How many minutes the unit has that stands next; nothing if none does.
std::optional<double> take_unit(std::string_view& rest) {
    skip_blanks(rest);
    std::size_t length = 0;
    while (length < rest.size() && is_letter(rest[length])) ++length;
    const std::string_view word = rest.substr(0, length);
    const auto unit = std::find_if(units.begin(), units.end(),
                                   [word](const Unit& one) { return one.word == word; });
    if (unit == units.end()) return std::nullopt;
    rest.remove_prefix(length);
    skip_blanks(rest);
    return unit->minutes;
}

} // namespace

Result<int> parse_label_time(std::string_view text) {
    const std::string typed = without_blanks(text);
    if (typed.empty()) return Error{ErrorCode::empty_text, "minutes", {}, {}, {}, {}};
    const std::string plain = plain_text(typed);
    std::string_view rest = plain;
    double minutes = 0.0;
    double before = 0.0; // the unit before it: the next one is smaller
    while (!rest.empty()) {
        const auto number = take_number(rest);
        if (!number) return wrong(text, "label_time");
        const bool alone = before == 0.0 && rest.empty();
        const auto unit = take_unit(rest);
        if (!unit) return wrong(text, alone ? "label_time_unit" : "label_time");
        if (before != 0.0 && *unit >= before) return wrong(text, "label_time");
        minutes += *number * *unit;
        before = *unit;
    }
    const double whole = std::round(minutes);
    if (whole < 1.0 || whole > most_label_minutes) return wrong(text, "label_time_range");
    return static_cast<int>(whole);
}

} // namespace rodway
