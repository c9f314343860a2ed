#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rodway {

// Times and days as records keep them, counted. Nothing here knows what time it is.

/// Seconds from 1970-01-01T00:00:00Z to a UTC time as it is kept, "2026-03-01T14:05:00Z"; before
/// then less than 0. Nothing if the text isn't one: years 0001 to 9999, no fractions, no other
/// zone, no leap seconds.
[[nodiscard]] std::optional<std::int64_t> utc_seconds(std::string_view text);
/// The time so many seconds after 1970-01-01T00:00:00Z, within those years.
[[nodiscard]] std::string utc_text(std::int64_t seconds);

/// Days from 1970-01-01 to a day as it is kept, "2026-03-01". Nothing if the text isn't one.
[[nodiscard]] std::optional<std::int64_t> day_number(std::string_view text);
[[nodiscard]] std::string day_text(std::int64_t days);

/// Days from one day to another, less than 0 if the second comes first. Nothing unless both are
/// days.
[[nodiscard]] std::optional<std::int64_t> days_between(std::string_view from, std::string_view to);
/// Seconds from one UTC time to another, in the same way.
[[nodiscard]] std::optional<std::int64_t> seconds_between(std::string_view from,
                                                          std::string_view to);

/// A day as the shop's clock has it. The days in records are of the shop's calendar and the times
/// are UTC: this says which times fall on the day. Where the clocks are changed it has 23 or 25
/// hours.
struct ShopDay {
    std::string day;        ///< "2026-03-01"
    std::string begins_utc; ///< its first second
    std::string ends_utc;   ///< the first second of the next
};

} // namespace rodway
