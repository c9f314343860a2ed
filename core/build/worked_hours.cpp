#include "core/build/worked_hours.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/build/word_list.h"
#include "core/units/plain_text.h"

namespace rodway {
namespace {

constexpr double minutes_in_hour = 60.0;

Error wrong(std::string_view text, std::string expected) {
    return Error{ErrorCode::wrong_type, "hours", std::string(text), std::move(expected), {}, {}};
}

void skip_blanks(std::string_view& rest) {
    while (rest.starts_with(' ')) rest.remove_prefix(1);
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// At most six digits, more than any day holds.
std::optional<int> take_whole(std::string_view& rest) {
    std::size_t digits = 0;
    int value = 0;
    while (digits < rest.size() && is_digit(rest[digits])) {
        if (digits == 6) return std::nullopt;
        value = 10 * value + (rest[digits++] - '0');
    }
    if (digits == 0) return std::nullopt;
    rest.remove_prefix(digits);
    return value;
}

bool take_unit(std::string_view& rest, std::initializer_list<std::string_view> words) {
    skip_blanks(rest);
    for (const std::string_view word : words) {
        if (!rest.starts_with(word)) continue;
        const char next = rest.size() > word.size() ? rest[word.size()] : ' ';
        if (next >= 'a' && next <= 'z') continue;
        rest.remove_prefix(word.size());
        skip_blanks(rest);
        return true;
    }
    return false;
}

bool take_hour_word(std::string_view& rest) {
    return take_unit(rest, {"hours", "hour", "hrs", "hr", "h"});
}
bool take_minute_word(std::string_view& rest) {
    return take_unit(rest, {"minutes", "minute", "mins", "min", "m"});
}

/// ".5", ",25": what stands behind a decimal mark.
std::optional<double> take_fraction_digits(std::string_view& rest) {
    rest.remove_prefix(1);
    double value = 0.0;
    double step = 0.1;
    std::size_t digits = 0;
    while (digits < rest.size() && is_digit(rest[digits]) && digits < 6) {
        value += step * (rest[digits++] - '0');
        step /= 10.0;
    }
    if (digits == 0) return std::nullopt;
    rest.remove_prefix(digits);
    return value;
}

/// "1/2" where `top` was read already.
std::optional<double> take_over(std::string_view& rest, int top) {
    rest.remove_prefix(1);
    const auto bottom = take_whole(rest);
    if (!bottom || *bottom == 0 || top >= *bottom) return std::nullopt;
    return static_cast<double>(top) / *bottom;
}

/// Hours as one number: "2", "2.5", ".5", "1-1/2", "1 1/2", "1/2".
std::optional<double> take_number(std::string_view& rest) {
    if (rest.starts_with('.') || rest.starts_with(',')) return take_fraction_digits(rest);
    const auto whole = take_whole(rest);
    if (!whole || rest.empty()) return whole ? std::optional<double>(*whole) : std::nullopt;
    if (rest.front() == '.' || rest.front() == ',') {
        const auto fraction = take_fraction_digits(rest);
        return fraction ? std::optional<double>(*whole + *fraction) : std::nullopt;
    }
    if (rest.front() == '/') return take_over(rest, *whole);
    std::string_view further = rest;
    if (further.front() == '-' || further.front() == ' ') {
        further.remove_prefix(1);
        const auto top = take_whole(further);
        if (top && further.starts_with('/')) {
            const auto fraction = take_over(further, *top);
            if (!fraction) return std::nullopt;
            rest = further;
            return *whole + *fraction;
        }
    }
    return *whole;
}

std::optional<double> read_minutes(std::string_view rest) {
    const auto number = take_number(rest);
    if (!number) return std::nullopt;
    if (rest.starts_with(':')) {
        rest.remove_prefix(1);
        const bool two_digits = rest.size() == 2;
        const auto minutes = take_whole(rest);
        const bool good = *number == std::floor(*number) && two_digits && minutes && *minutes < 60;
        return good ? std::optional(*number * minutes_in_hour + *minutes) : std::nullopt;
    }
    if (take_minute_word(rest)) return rest.empty() ? number : std::nullopt;
    const bool hours = take_hour_word(rest);
    skip_blanks(rest);
    if (rest.empty()) return *number * minutes_in_hour;
    if (!hours || *number != std::floor(*number)) return std::nullopt;
    const auto minutes = take_whole(rest);
    take_minute_word(rest);
    if (!minutes || *minutes >= 60 || !rest.empty()) return std::nullopt;
    return *number * minutes_in_hour + *minutes;
}

} // namespace

Result<int> parse_hours(std::string_view text) {
    const std::string typed = without_blanks(text);
    if (typed.empty()) return Error{ErrorCode::empty_text, "hours", {}, {}, {}, {}};
    const bool one_line = std::none_of(typed.begin(), typed.end(),
                                       [](char c) { return static_cast<unsigned char>(c) < ' '; });
    const auto minutes = one_line ? read_minutes(plain_text(typed)) : std::nullopt;
    if (!minutes) return wrong(text, "hours");
    const double whole = std::round(*minutes);
    if (whole < 1.0 || whole > most_minutes) return wrong(text, "hours_of_a_day");
    return static_cast<int>(whole);
}

std::string hours_text(int minutes) {
    const int left = minutes % 60;
    return std::to_string(minutes / 60) + (left < 10 ? ":0" : ":") + std::to_string(left);
}

} // namespace rodway
