#include "core/units/plain_text.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(PlainText, PutsAsciiInPlaceOfTypographicSigns) {
    EXPECT_EQ(plain_text(" 10.2\u00b1.1 MM\t"), "10.2+-.1 mm");
    EXPECT_EQ(plain_text("\u2212.005"), "-.005");
    EXPECT_EQ(plain_text("2\u00bd\u2033"), "2 1/2\"");
    EXPECT_EQ(plain_text("45\u00b0"), "45 deg");
    EXPECT_EQ(plain_text("64 cm\u00b3"), "64 cm3");
    EXPECT_EQ(plain_text("88 N\u00b7m"), "88 n-m");
    EXPECT_EQ(plain_text("250 \u00b5m"), "250 um");
    EXPECT_EQ(plain_text(""), "");
    EXPECT_EQ(plain_text(" \r\n"), "");
}

TEST(PlainText, KnowsWhatKeyboardsAndWordProcessorsMakeOfSigns) {
    EXPECT_EQ(plain_text("\u2014.005"), "-.005");
    EXPECT_EQ(plain_text("\u2011.005"), "-.005");
    EXPECT_EQ(plain_text(".010\u2019\u2019"), ".010\"");
    EXPECT_EQ(plain_text(".010\u2032\u2032"), ".010\"");
    EXPECT_EQ(plain_text(".010''"), ".010\"");
    EXPECT_EQ(plain_text("5\u2032"), "5'");
    EXPECT_EQ(plain_text("1\u20448"), "1/8");
    EXPECT_EQ(plain_text("3/8\u00d72.5"), "3/8x2.5");
    EXPECT_EQ(plain_text("\u2264.010"), "<.010");
    EXPECT_EQ(plain_text("<=.010"), "<.010");
    EXPECT_EQ(plain_text("\u2248 5"), "~ 5");
    EXPECT_EQ(plain_text("25\u2103"), "25 deg c");
    EXPECT_EQ(plain_text("\u3003"), "\"");
    EXPECT_EQ(plain_text("\ufeff.010\tin\n"), ".010 in");
}

// Half a sign, or a byte that is none, stays as it is; so does a NUL.
TEST(PlainText, TakesAnyBytes) {
    EXPECT_EQ(plain_text("\xc2"), "\xc2");
    EXPECT_EQ(plain_text("\xe2\x88"), "\xe2\x88");
    EXPECT_EQ(plain_text("\xff 1"), "\xff 1");
    EXPECT_EQ(plain_text(std::string_view("1\0 2", 4)), std::string("1\0 2", 4));
    EXPECT_EQ(plain_text(std::string(100000, '\'')), std::string(50000, '"'));
}

TEST(PlainText, LeavesOtherLettersAlone) {
    EXPECT_EQ(plain_text("Gr\u00f6\u00dfe"), "gr\u00f6\u00dfe");
}

} // namespace
} // namespace rodway
