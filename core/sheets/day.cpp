#include "core/sheets/day.h"

#include <array>
#include <charconv>
#include <chrono>

namespace rodway {
namespace {

std::string two_digits(int number) {
    std::string text = number < 10 ? "0" : "";
    text += std::to_string(number);
    return text;
}

} // namespace

std::optional<std::string> kept_day(int year, int month, int day) {
    if (year < 1900 || year > 9999 || month < 1 || day < 1) {
        return std::nullopt;
    }
    const std::chrono::year_month_day date{std::chrono::year(year),
                                           std::chrono::month(static_cast<unsigned>(month)),
                                           std::chrono::day(static_cast<unsigned>(day))};
    if (!date.ok()) {
        return std::nullopt;
    }
    return std::to_string(year) + '-' + two_digits(month) + '-' + two_digits(day);
}

std::optional<std::string> parse_day(std::string_view text) {
    std::array<int, 3> numbers{};
    const char* at = text.data();
    const char* const end = text.data() + text.size();
    for (std::size_t which = 0; which < numbers.size(); ++which) {
        if (which > 0 && (at == end || *at++ != '-')) {
            return std::nullopt;
        }
        const char* const from = at;
        if (at == end || *at == '-') {
            return std::nullopt;
        }
        const auto read = std::from_chars(from, end, numbers[which]);
        const auto digits = read.ptr - from;
        if (read.ec != std::errc() || (which == 0 ? digits != 4 : digits > 2)) {
            return std::nullopt;
        }
        at = read.ptr;
    }
    return at == end ? kept_day(numbers[0], numbers[1], numbers[2]) : std::nullopt;
}

} // namespace rodway
