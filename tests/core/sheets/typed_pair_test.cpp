#include "core/sheets/typed_pair.h"

#include <gtest/gtest.h>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

// Two settings in one breath: common practice, no source.
TEST(TypedPair, PartsWhatIsSaidOfTwoPlaces) {
    struct Said {
        const char* text;
        const char* first;
        const char* second;
        bool spoken;
    };
    for (const Said& each : {Said{"26/28 hot", "26 hot", "28 hot", false},
                             {"18 and 20", "18", "20", true},
                             {"18 and 20 thou", "18 thou", "20 thou", true},
                             {".026/.028 hot", ".026 hot", ".028 hot", false},
                             {" 26 / 28 Hot ", "26 hot", "28 hot", false},
                             {"0,65/0,70 mm", "0,65 mm", "0,70 mm", false},
                             {"18&20 thou", "18 thou", "20 thou", true},
                             {"26/28thou", "26thou", "28thou", false},
                             {"1/8", "1", "8", false}}) {
        const auto pair = split_pair(each.text);
        ASSERT_TRUE(pair) << each.text;
        EXPECT_EQ(pair->first, each.first) << each.text;
        EXPECT_EQ(pair->second, each.second) << each.text;
        EXPECT_EQ(is_spoken_pair(each.text), each.spoken) << each.text;
    }
}

TEST(TypedPair, IsNothingElse) {
    for (const char* text :
         {"", "26", "26/", "/28", "26/28/30", "45/65/65+90", "+.003/-.001", "1-1/2", "26-28",
          "14 thousandths and 5 tenths", "two and a half thou", "ten ten", "26 28", "hot", "a/b"}) {
        EXPECT_FALSE(split_pair(text)) << text;
        EXPECT_FALSE(is_spoken_pair(text)) << text;
    }
}

// Each half goes into its own box as it is.
TEST(TypedPair, EachHalfReadsAlone) {
    const auto pair = split_pair("26/28 thou");
    EXPECT_NEAR(parse_length(pair->first, BareNumber::inches)->low.in_inches(), 0.026, 1e-15);
    EXPECT_NEAR(parse_length(pair->second, BareNumber::inches)->low.in_inches(), 0.028, 1e-15);
    const auto bare = split_pair("18 and 20");
    EXPECT_EQ(parse_length(bare->first, BareNumber::inches).error().code, ErrorCode::unit_needed);
}

} // namespace
} // namespace rodway
