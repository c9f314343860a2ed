#include "db/typed_value_text.h"

#include <gtest/gtest.h>

#include <random>
#include <set>

namespace rodway {
namespace {

TEST(TypedValueText, ReadsTheWayAPersonWouldWriteIt) {
    EXPECT_EQ(to_edit_text({".3125", "in"}), ".3125 in");
    EXPECT_EQ(to_edit_text({"8", ""}), "8");
    EXPECT_EQ(to_edit_text({"1 5/8", "in"}), "1 5/8 in");
    EXPECT_EQ(to_edit_text({"1 5/8", ""}), "1 5/8 ");
}

TEST(TypedValueText, ComesBackExactlyAndTwoValuesNeverShareAText) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const auto word = [&random](const char* letters, unsigned count, std::size_t least) {
        std::string text;
        const std::size_t length = least + random() % 4;
        while (text.size() < length) text += letters[random() % count];
        return text;
    };
    // Few letters, so that all short texts with spaces in every place come up.
    std::set<std::pair<std::string, std::string>> values;
    std::set<std::string> texts;
    for (int i = 0; i < 5000; ++i) {
        const TypedValue value{word("1 /", 3, 1), word("in", 2, 0)};
        const std::string text = to_edit_text(value);
        const auto back = typed_value_from(text);
        ASSERT_TRUE(back.ok()) << '\'' << text << '\'';
        EXPECT_EQ(*back, value) << '\'' << text << '\'';
        values.insert({value.text, value.unit});
        texts.insert(text);
    }
    EXPECT_EQ(values.size(), texts.size());
    EXPECT_GT(values.size(), 300U);
}

TEST(TypedValueText, RefusesFormsThatItNeverMakes) {
    EXPECT_EQ(typed_value_from("").error().code, ErrorCode::empty_text);
    EXPECT_EQ(typed_value_from(" in").error().code, ErrorCode::empty_text);
    EXPECT_EQ(typed_value_from("8 ").error().code, ErrorCode::wrong_type);
    EXPECT_EQ(typed_value_from("8 ").error().expected, "8");
}

} // namespace
} // namespace rodway
