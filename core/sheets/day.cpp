#include "core/sheets/day.h"

#include <array>
#include <charconv>
#include <chrono>
#include <vector>

namespace rodway {
namespace {

std::string two_digits(int number) {
    std::string text = number < 10 ? "0" : "";
    text += std::to_string(number);
    return text;
}

/// The month of this name, or of its first three letters or more; 0: none. Small letters.
int month_called(std::string_view name) {
    constexpr std::array<std::string_view, 12> months{
        "january", "february", "march",     "april",   "may",      "june",
        "july",    "august",   "september", "october", "november", "december"};
    for (std::size_t at = 0; at < months.size(); ++at) {
        if (name.size() >= 3 && months[at].substr(0, name.size()) == name) {
            return static_cast<int>(at) + 1;
        }
    }
    return 0;
}

/// Words and numbers in turn, between them spaces, and a comma or a full stop behind each.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char letter : text) {
        if (letter != ' ') {
            words.back() +=
                letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
        } else if (!words.back().empty()) {
            words.emplace_back();
        }
    }
    if (words.back().empty()) {
        words.pop_back();
    }
    for (std::string& word : words) {
        if (word.size() > 1 && (word.back() == ',' || word.back() == '.')) {
            word.pop_back();
        }
    }
    return words;
}

/// A number of so many digits and nothing else; 0: no such number.
int whole_number(std::string_view word, std::size_t fewest, std::size_t most) {
    int number = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), number);
    const bool whole = read.ec == std::errc() && read.ptr == word.data() + word.size();
    return whole && word.size() >= fewest && word.size() <= most ? number : 0;
}

std::optional<std::string> day_with_month_name(std::string_view text) {
    const std::vector<std::string> words = words_of(text);
    if (words.size() != 3) {
        return std::nullopt;
    }
    // Where day, month and year stand.
    for (const auto& [day, month, year] :
         {std::array{0U, 1U, 2U}, std::array{1U, 0U, 2U}, std::array{2U, 1U, 0U}}) {
        const int named = month_called(words[month]);
        const int of_year = whole_number(words[year], 4, 4);
        const int of_month = whole_number(words[day], 1, 2);
        if (named > 0 && of_year > 0 && of_month > 0) {
            return kept_day(of_year, named, of_month);
        }
    }
    return std::nullopt;
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
    if (auto named = day_with_month_name(text)) {
        return named;
    }
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
