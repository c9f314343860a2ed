#include "core/build/utc_time.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// Counts of seconds: POSIX.1-2017, 4.16 "Seconds Since the Epoch", and its examples as `date -u
// +%s` prints them.
TEST(UtcTime, CountsSecondsAsPosixDoes) {
    EXPECT_EQ(utc_seconds("1970-01-01T00:00:00Z"), 0);
    EXPECT_EQ(utc_seconds("2026-03-01T14:05:00Z"), 1772373900);
    EXPECT_EQ(utc_seconds("2000-02-29T23:59:59Z"), 951868799);
    EXPECT_EQ(utc_seconds("1969-12-31T23:59:59Z"), -1);
    EXPECT_EQ(utc_seconds("2038-01-19T03:14:08Z"), 2147483648);
}

TEST(UtcTime, WritesWhatItReads) {
    for (const std::int64_t seconds :
         {std::int64_t{0}, std::int64_t{-1}, std::int64_t{-86400}, std::int64_t{-86401},
          std::int64_t{1772373900}, std::int64_t{4102444799}}) {
        const std::string text = utc_text(seconds);
        EXPECT_EQ(utc_seconds(text), seconds) << text;
    }
    EXPECT_EQ(utc_text(1772373900), "2026-03-01T14:05:00Z");
    EXPECT_EQ(utc_text(-1), "1969-12-31T23:59:59Z");
    EXPECT_EQ(utc_text(*utc_seconds("0001-01-01T00:00:00Z")), "0001-01-01T00:00:00Z");
    EXPECT_EQ(utc_text(*utc_seconds("9999-12-31T23:59:59Z")), "9999-12-31T23:59:59Z");
}

TEST(UtcTime, RefusesWhatIsNoTime) {
    for (const char* text :
         {"", "2026-03-01", "2026-03-01T14:05:00", "2026-03-01T14:05Z", "2026-03-01 14:05:00Z",
          "2026-03-01T24:00:00Z", "2026-03-01T23:60:00Z", "2026-03-01T23:59:60Z",
          "2026-02-29T00:00:00Z", "2026-13-01T00:00:00Z", "2026-00-01T00:00:00Z",
          "2026-03-00T00:00:00Z", "0000-03-01T00:00:00Z", "2026-03-01T14:05:00+01:00",
          "2026-03-01T14:05:00Zx", "2026-3-1T14:05:00Z", "+026-03-01T14:05:00Z"}) {
        EXPECT_EQ(utc_seconds(text), std::nullopt) << text;
    }
}

TEST(UtcTime, CountsDaysOverLeapYearsAndCenturies) {
    EXPECT_EQ(day_number("1970-01-01"), 0);
    EXPECT_EQ(days_between("2024-02-28", "2024-03-01"), 2); // a leap year
    EXPECT_EQ(days_between("2026-02-28", "2026-03-01"), 1);
    EXPECT_EQ(days_between("2000-02-28", "2000-03-01"), 2); // divisible by 400
    EXPECT_EQ(days_between("2100-02-28", "2100-03-01"), 1); // by 100 only
    EXPECT_EQ(days_between("2026-03-01", "2026-02-01"), -28);
    EXPECT_EQ(days_between("2026-03-01", "1 March"), std::nullopt);
    EXPECT_EQ(days_between("2026-02-30", "2026-03-01"), std::nullopt);
}

// Every day of 800 years follows the one before it: the texts rise as the numbers do.
TEST(UtcTime, EveryDayFollowsTheOneBeforeIt) {
    std::string before = day_text(*day_number("1600-01-01") - 1);
    for (std::int64_t day = *day_number("1600-01-01"); day < *day_number("2400-01-01"); ++day) {
        const std::string text = day_text(day);
        ASSERT_EQ(day_number(text), day);
        ASSERT_LT(before, text);
        before = text;
    }
    EXPECT_EQ(days_between("1600-01-01", "2400-01-01"), 2 * 146097); // days of 400 Gregorian years
}

TEST(UtcTime, DifferencesInSecondsHaveASign) {
    EXPECT_EQ(seconds_between("2026-03-01T14:05:00Z", "2026-03-01T14:06:01Z"), 61);
    EXPECT_EQ(seconds_between("2026-03-01T00:00:00Z", "2026-02-28T23:59:59Z"), -1);
    EXPECT_EQ(seconds_between("2026-03-01", "2026-03-01T00:00:00Z"), std::nullopt);
}

} // namespace
} // namespace rodway
