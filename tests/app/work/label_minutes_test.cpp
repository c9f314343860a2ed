#include "app/work/label_minutes.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(LabelMinutesTest, TimesAreReadAsLabelsPrintThem) {
    const std::vector<std::pair<const char*, int>> printed{
        {"90 min", 90},   {"1 h", 60},        {"24 hours", 1440}, {"1 h 30 min", 90},
        {"1h30min", 90},  {"7 days", 10080},  {"2 d", 2880},      {"1,5 h", 90},
        {"1/2 hour", 30}, {"60 days", 86400}, {"120 s", 2},       {"1 day 12 h", 2160}};
    for (const auto& [text, minutes] : printed) {
        const auto read = parse_label_minutes(text);
        ASSERT_TRUE(read.ok()) << text;
        EXPECT_EQ(*read, minutes) << text;
    }
}

TEST(LabelMinutesTest, WhatIsNotOneWholeTimeIsRefused) {
    for (const char* text : {"", "  ", "60", "1-2 h", "~1 h", "h", "1 x", "1 psi", "0 min", "90 s",
                             "61 days", "-5 min", "1e99 h", "nan h", "1 h x"}) {
        EXPECT_FALSE(parse_label_minutes(text).ok()) << text;
    }
    EXPECT_EQ(parse_label_minutes("61 days").error().code, ErrorCode::out_of_range);
    EXPECT_EQ(parse_label_minutes("60").error().code, ErrorCode::not_an_amount);
}

TEST(LabelMinutesTest, EveryTimeIsShownSoThatItReadsBack) {
    for (int minutes = 1; minutes <= most_label_minutes; minutes += minutes < 5000 ? 1 : 61) {
        const auto back = parse_label_minutes(label_minutes_text(minutes).toStdString());
        ASSERT_TRUE(back.ok()) << minutes;
        ASSERT_EQ(*back, minutes);
    }
}

} // namespace
} // namespace rodway
