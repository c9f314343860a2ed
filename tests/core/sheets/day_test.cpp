#include "core/sheets/day.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(Day, IsKeptYearFirstWithTwoDigits) {
    EXPECT_EQ(parse_day("2026-03-01"), "2026-03-01");
    EXPECT_EQ(parse_day("2026-3-1"), "2026-03-01");
    EXPECT_EQ(parse_day("2024-02-29"), "2024-02-29"); // a leap year
    EXPECT_EQ(parse_day("2000-02-29"), "2000-02-29");
    EXPECT_EQ(kept_day(1999, 12, 31), "1999-12-31");
}

TEST(Day, RefusesWhatTheCalendarLacksAndOtherOrders) {
    for (const char* text :
         {"", "2026", "2026-03", "2026-03-", "2026-03-01-", "2026-02-29", "1900-02-29",
          "2026-13-01", "2026-00-10", "2026-04-31", "2026-04-00", "26-03-01", "01-03-2026",
          "3/1/2026", "2026--3-01", "2026-003-01", "1776-07-04", "2026-03-01 x", "2026-03-+1"}) {
        EXPECT_EQ(parse_day(text), std::nullopt) << text;
    }
}

} // namespace
} // namespace rodway
