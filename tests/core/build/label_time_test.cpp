#include "core/build/label_time.h"

#include <gtest/gtest.h>

#include <string>

namespace rodway {
namespace {

int minutes(std::string_view text) {
    const auto read = parse_label_time(text);
    return read ? *read : -1;
}

TEST(LabelTime, ReadsWhatLabelsState) {
    EXPECT_EQ(minutes("1 h"), 60);
    EXPECT_EQ(minutes("24 h"), 1440);
    EXPECT_EQ(minutes(" 24H "), 1440);
    EXPECT_EQ(minutes("90 min"), 90);
    EXPECT_EQ(minutes("5 minutes"), 5);
    EXPECT_EQ(minutes("1.5 hours"), 90);
    EXPECT_EQ(minutes("1,5 h"), 90);
    EXPECT_EQ(minutes(".5 hr"), 30);
    EXPECT_EQ(minutes("1 h 30 min"), 90);
    EXPECT_EQ(minutes("1h30m"), 90);
    EXPECT_EQ(minutes("7 days"), 7 * 24 * 60);
    EXPECT_EQ(minutes("2 d 12 h"), 60 * 60);
    EXPECT_EQ(minutes("1 week"), 7 * 24 * 60);
    EXPECT_EQ(minutes("60 days"), most_label_minutes);
}

TEST(LabelTime, ANumberAloneIsAskedForItsUnit) {
    for (const char* text : {"24", "1.5", "90"}) {
        const auto read = parse_label_time(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().expected, "label_time_unit") << text;
        EXPECT_EQ(read.error().value, text);
    }
}

TEST(LabelTime, WhatIsNoTimeIsRefused) {
    for (const char* text : {"overnight", "1 h 2 h", "30 min 1 h", "1 h 30", "-1 h", "1..5 h", "h",
                             "1 hx", "1 h <b>", "1:30", "12345678 min", "1e3 min", "1 h\n2"}) {
        const auto read = parse_label_time(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().code, ErrorCode::wrong_type) << text;
        EXPECT_EQ(read.error().expected, "label_time") << text;
    }
    for (const char* text : {"0 min", "0.2 min", "61 days", "9 weeks"}) {
        const auto read = parse_label_time(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().expected, "label_time_range") << text;
    }
    EXPECT_EQ(parse_label_time("  ").error().code, ErrorCode::empty_text);
}

} // namespace
} // namespace rodway
