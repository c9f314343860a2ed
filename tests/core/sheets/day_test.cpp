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

TEST(Day, MayHaveItsMonthByName) {
    for (const char* text : {"4 December 2026", "4 dec 2026", "Dec 4, 2026", "december 4 2026",
                             "2026 Dec 4", "  04  Dec.  2026 "}) {
        EXPECT_EQ(parse_day(text), "2026-12-04") << text;
    }
    EXPECT_EQ(parse_day("1 Mar 2026"), "2026-03-01");
    EXPECT_EQ(parse_day("1 May 2026"), "2026-05-01");
    EXPECT_EQ(parse_day("31 jul 2026"), "2026-07-31");
    for (const char* text : {"4 D 2026", "4 Ma 2026", "4 Decembers 2026", "31 April 2026",
                             "4 December", "December 2026", "4 December 26", "4 12 2026",
                             "4 December 2026 x", "-4 December 2026", "4.5 December 2026"}) {
        EXPECT_EQ(parse_day(text), std::nullopt) << text;
    }
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
