#include "core/build/utc_time.h"

#include <algorithm>
#include <chrono>

#include "core/base/assert.h"

namespace rodway {
namespace {

constexpr std::int64_t minute_s = 60;
constexpr std::int64_t hour_s = 60 * minute_s;
constexpr std::int64_t day_s = 24 * hour_s;

bool has_shape(std::string_view text, std::string_view shape) {
    return text.size() == shape.size() &&
           std::equal(text.begin(), text.end(), shape.begin(), [](char c, char wanted) {
               return wanted == '0' ? c >= '0' && c <= '9' : c == wanted;
           });
}

/// The digits there as a number.
int number_at(std::string_view text, std::size_t from, std::size_t digits) {
    int number = 0;
    for (const char digit : text.substr(from, digits)) {
        number = 10 * number + (digit - '0');
    }
    return number;
}

std::string digits_of(std::int64_t number, std::size_t digits) {
    std::string text = std::to_string(number);
    return text.size() < digits ? std::string(digits - text.size(), '0') + text : text;
}

} // namespace

std::optional<std::int64_t> day_number(std::string_view text) {
    if (!has_shape(text, "0000-00-00") || number_at(text, 0, 4) == 0) {
        return std::nullopt;
    }
    const std::chrono::year_month_day date{
        std::chrono::year(number_at(text, 0, 4)),
        std::chrono::month(static_cast<unsigned>(number_at(text, 5, 2))),
        std::chrono::day(static_cast<unsigned>(number_at(text, 8, 2)))};
    if (!date.ok()) {
        return std::nullopt;
    }
    return std::chrono::sys_days(date).time_since_epoch().count();
}

std::string day_text(std::int64_t days) {
    const std::chrono::year_month_day date{std::chrono::sys_days(std::chrono::days(days))};
    const int year = static_cast<int>(date.year());
    RODWAY_ASSERT(year >= 1 && year <= 9999);
    return digits_of(year, 4) + '-' + digits_of(static_cast<unsigned>(date.month()), 2) + '-' +
           digits_of(static_cast<unsigned>(date.day()), 2);
}

std::optional<std::int64_t> utc_seconds(std::string_view text) {
    if (!has_shape(text, "0000-00-00T00:00:00Z")) {
        return std::nullopt;
    }
    const auto days = day_number(text.substr(0, 10));
    const int hours = number_at(text, 11, 2);
    const int minutes = number_at(text, 14, 2);
    const int seconds = number_at(text, 17, 2);
    if (!days || hours > 23 || minutes > 59 || seconds > 59) {
        return std::nullopt;
    }
    return *days * day_s + hours * hour_s + minutes * minute_s + seconds;
}

std::string utc_text(std::int64_t seconds) {
    std::int64_t days = seconds / day_s;
    std::int64_t rest = seconds % day_s;
    if (rest < 0) {
        --days;
        rest += day_s;
    }
    return day_text(days) + 'T' + digits_of(rest / hour_s, 2) + ':' +
           digits_of(rest % hour_s / minute_s, 2) + ':' + digits_of(rest % minute_s, 2) + 'Z';
}

std::optional<std::int64_t> days_between(std::string_view from, std::string_view to) {
    const auto first = day_number(from);
    const auto second = day_number(to);
    return first && second ? std::optional(*second - *first) : std::nullopt;
}

std::optional<std::int64_t> seconds_between(std::string_view from, std::string_view to) {
    const auto first = utc_seconds(from);
    const auto second = utc_seconds(to);
    return first && second ? std::optional(*second - *first) : std::nullopt;
}

} // namespace rodway
