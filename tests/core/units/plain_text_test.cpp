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

TEST(PlainText, LeavesOtherLettersAlone) {
    EXPECT_EQ(plain_text("Gr\u00f6\u00dfe"), "gr\u00f6\u00dfe");
}

} // namespace
} // namespace rodway
