#include "core/build/worked_hours.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

int minutes(std::string_view text) {
    const auto read = parse_hours(text);
    return read ? *read : -1;
}

TEST(WorkedHours, ReadWhatPeopleType) {
    EXPECT_EQ(minutes("2"), 120);
    EXPECT_EQ(minutes("2.5"), 150);
    EXPECT_EQ(minutes("2,25 h"), 135);
    EXPECT_EQ(minutes(".5"), 30);
    EXPECT_EQ(minutes("2:05"), 125);
    EXPECT_EQ(minutes("0:45"), 45);
    EXPECT_EQ(minutes("2h30"), 150);
    EXPECT_EQ(minutes("2 h 30 min"), 150);
    EXPECT_EQ(minutes("45 min"), 45);
    EXPECT_EQ(minutes("90 Minutes"), 90);
    EXPECT_EQ(minutes("1-1/2"), 90);
    EXPECT_EQ(minutes("1 1/2 hours"), 90);
    EXPECT_EQ(minutes("1\u00bd"), 90); // one and a half as one letter
    EXPECT_EQ(minutes("3/4"), 45);
    EXPECT_EQ(minutes("24"), 1440);
    EXPECT_EQ(minutes("0.33"), 20); // 19.8 minutes
}

TEST(WorkedHours, RefuseWhatIsNoTimeOfOneDay) {
    for (const char* text : {"half", "2:5", "2:60", "2.5:30", "2h30h", "-2", "2 days", "1/0", "5/4",
                             "2 30", "1,250.5", "2.5 h 30", "30\t45", "1e2", "$40", ":30", "h"}) {
        const auto read = parse_hours(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().expected, "hours") << text;
    }
    for (const char* text : {"0", "24:01", "25", "0:00", "0.001", "999999", "2000 min"}) {
        const auto read = parse_hours(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().expected, "hours_of_a_day") << text;
    }
    EXPECT_EQ(parse_hours("  ").error().code, ErrorCode::empty_text);
}

TEST(WorkedHours, AreWrittenAsAClockCounts) {
    EXPECT_EQ(hours_text(125), "2:05");
    EXPECT_EQ(hours_text(45), "0:45");
    EXPECT_EQ(hours_text(6000), "100:00");
}

} // namespace
} // namespace rodway
