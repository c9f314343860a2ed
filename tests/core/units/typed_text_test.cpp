#include "core/units/typed_text.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

struct Typed {
    const char* text;
    double low_mm;
    double high_mm;
};

// What builders write and say. An inch is 25.4 mm (NIST SP 811); the spellings are common practice,
// no source.
TEST(TypedLength, ReadsWhatTheTradeWrites) {
    const Typed cases[] = {
        {".010", 0.254, 0.254},
        {"0.010", 0.254, 0.254},
        {".010\"", 0.254, 0.254},
        {"10 thou", 0.254, 0.254},
        {"10thou", 0.254, 0.254},
        {"0.25mm", 0.25, 0.25},
        {"0,25 mm", 0.25, 0.25},
        {"250 um", 0.25, 0.25},
        {"250 \u00b5m", 0.25, 0.25},
        {"1/8", 3.175, 3.175},
        {"1-1/2", 38.1, 38.1},
        {"1 1/2", 38.1, 38.1},
        {"2-1/2\"", 63.5, 63.5},
        {"2\u00bd in", 63.5, 63.5},
        {"-.005", -0.127, -0.127},
        {"+.003/-.001", -0.0254, 0.0762},
        {".0015-.0030", 0.0381, 0.0762},
        {".0015 to .0030 in", 0.0381, 0.0762},
        {"10.2\u00b1.1 mm", 10.1, 10.3},
        {"2.100 +.003/-.001", 53.3146, 53.4162},
        {"half a thou", 0.0127, 0.0127},
        {"two and a half thou", 0.0635, 0.0635},
        {"six and a half thou", 0.1651, 0.1651},
        {"14 thousandths and 5 tenths", 0.3683, 0.3683},
        {"a tenth", 0.00254, 0.00254},
        {"forty over", 1.016, 1.016},
        {"ten under", -0.254, -0.254},
        {"2 thou", 0.0508, 0.0508},
        {"0", 0.0, 0.0},
        {" .018 ", 0.4572, 0.4572},
    };
    for (const Typed& each : cases) {
        const auto read = parse_length(each.text, BareNumber::inches);
        ASSERT_TRUE(read.ok()) << each.text;
        EXPECT_NEAR(read->low.in_mm(), each.low_mm, 1e-12) << each.text; // decimal to binary
        EXPECT_NEAR(read->high.in_mm(), each.high_mm, 1e-12) << each.text;
        EXPECT_EQ(read->text, each.text);
    }
}

TEST(TypedLength, NeverGuessesAUnit) {
    for (const char* text : {"10", "0,25", "two"}) {
        const auto read = parse_length(text, BareNumber::inches);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().code, ErrorCode::unit_needed) << text;
        EXPECT_EQ(read.error().value, text);
    }
    const auto leading_point = parse_length(".010", BareNumber::millimetres);
    ASSERT_FALSE(leading_point.ok());
    EXPECT_EQ(leading_point.error().code, ErrorCode::unit_needed);
    EXPECT_DOUBLE_EQ(parse_length("10", BareNumber::millimetres)->low.in_mm(), 10.0);
    EXPECT_DOUBLE_EQ(parse_length("0,25", BareNumber::millimetres)->low.in_mm(), 0.25);
    EXPECT_FALSE(parse_length(".010", BareNumber::refused).ok());
}

TEST(TypedLength, RefusesWhatIsNoLength) {
    const std::pair<const char*, ErrorCode> cases[] = {
        {"", ErrorCode::empty_text},
        {"   ", ErrorCode::empty_text},
        {"7/16-14", ErrorCode::thread_not_length},
        {"3/8x2.5", ErrorCode::thread_not_length},
        {"10 mil", ErrorCode::ambiguous_unit},
        {"2.5 mils", ErrorCode::ambiguous_unit},
        {"snug", ErrorCode::not_a_length},
        {".010 lb", ErrorCode::not_a_length},
        {"1/0", ErrorCode::not_a_length},
        {"..", ErrorCode::not_a_length},
        {".010.5", ErrorCode::not_a_length},
        {".0030-.0015", ErrorCode::not_a_length},
        {"ten ten", ErrorCode::not_a_length},
        {"1e400", ErrorCode::not_a_length},
        {"nan", ErrorCode::not_a_length},
        {"inf", ErrorCode::not_a_length},
    };
    for (const auto& [text, code] : cases) {
        const auto read = parse_length(text, BareNumber::inches);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(static_cast<int>(read.error().code), static_cast<int>(code)) << text;
    }
}

TEST(TypedLength, KeepsWhatTrailingZerosAndSignsSay) {
    EXPECT_DOUBLE_EQ(parse_length(".0100", BareNumber::inches)->resolution.in_inches(), 0.0001);
    EXPECT_DOUBLE_EQ(parse_length(".010", BareNumber::inches)->resolution.in_inches(), 0.001);
    EXPECT_DOUBLE_EQ(parse_length("0,25 mm", BareNumber::inches)->resolution.in_mm(), 0.01);
    EXPECT_EQ(parse_length("~.010", BareNumber::inches)->firmness, Firmness::about);
    EXPECT_EQ(parse_length("<.002", BareNumber::inches)->firmness, Firmness::below);
    EXPECT_EQ(parse_length(">.030", BareNumber::inches)->firmness, Firmness::above);
    EXPECT_TRUE(parse_length(".010", BareNumber::inches)->inch);
    EXPECT_FALSE(parse_length("0.25 mm", BareNumber::inches)->inch);
}

TEST(TypedNumber, ReadsPointAndComma) {
    EXPECT_DOUBLE_EQ(*parse_number("106.5"), 106.5);
    EXPECT_DOUBLE_EQ(*parse_number("106,5"), 106.5);
    EXPECT_DOUBLE_EQ(*parse_number("-8"), -8.0);
    for (const char* text : {"", "1.2.3", "12a", "nan", "inf", "1e999"}) {
        EXPECT_FALSE(parse_number(text).ok()) << text;
    }
}

TEST(ExactText, ReadsBackAsTheSameNumber) {
    for (const double value : {0.1, 1.0 / 3.0, 0.3125, 8.968198, -2.688677, 1e-9}) {
        EXPECT_EQ(*parse_number(exact_text(value)), value);
    }
}

} // namespace
} // namespace rodway
