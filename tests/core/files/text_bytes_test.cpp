#include "core/files/text_bytes.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

using namespace std::string_literals;

TEST(TextBytes, TakesUtf8WithAndWithoutItsMark) {
    EXPECT_EQ(*utf8_text("\xEF\xBB\xBF"
                         "abc"),
              "abc");
    EXPECT_EQ(*utf8_text("a\xC3\xA4\xE2\x82\xAC\xF0\x9F\x94\xA7"),
              "a\xC3\xA4\xE2\x82\xAC\xF0\x9F\x94\xA7");
}

// Ill-formed sequences of the Unicode Standard, table 3-7 (from memory).
TEST(TextBytes, RefusesIllFormedUtf8AndNamesTheLine) {
    for (const std::string& bytes :
         {"\x80"s, "\xC0\xAF"s, "\xC1\x81"s, "\xE0\x80\xAF"s, "\xED\xA0\x80"s, "\xF0\x80\x80\xAF"s,
          "\xF4\x90\x80\x80"s, "\xF5\x80\x80\x80"s, "\xE2\x82"s, "\xC3("s, "\xFF"s}) {
        const auto read = utf8_text("one\ntwo\n" + bytes);
        ASSERT_FALSE(read.ok());
        EXPECT_EQ(read.error().code, ErrorCode::not_utf8);
        EXPECT_EQ(read.error().line, 3);
    }
}

TEST(TextBytes, KnowsUtf16AndBinary) {
    EXPECT_EQ(utf8_text("\xFF\xFE"
                        "a\0"s)
                  .error()
                  .expected,
              "utf-16");
    EXPECT_EQ(utf8_text("\xFE\xFF\0a"s).error().expected, "utf-16");
    EXPECT_EQ(utf8_text("a\0b\0c\0"s).error().expected, "utf-16");
    EXPECT_EQ(utf8_text("abcdefgh\0ijkl"s).error().expected, "binary");
    EXPECT_EQ(utf8_text("").error().code, ErrorCode::empty_file);
}

TEST(TextBytes, LinesCountFromOne) {
    EXPECT_EQ(line_of("a\nb\nc", 0), 1);
    EXPECT_EQ(line_of("a\nb\nc", 2), 2);
    EXPECT_EQ(line_of("a\nb\nc", 99), 3);
}

} // namespace
} // namespace rodway
