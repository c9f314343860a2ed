#include "core/fasteners/fastener_size.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// Spellings are common practice, no source; 25.4 mm to the inch.
TEST(FastenerSize, ReadsThreadAndLength) {
    struct Written {
        const char* text;
        const char* thread; ///< empty: not said
        const char* size;
        double length_mm; ///< 0: not said
    };
    const Written cases[] = {
        {"3/8x2.5", "", "3/8", 63.5},
        {"3/8 x 2-1/2", "", "3/8", 63.5},
        {"3/8 x 3", "", "3/8", 76.2},
        {"3/8-16x2.5\"", "3/8-16", "3/8", 63.5},
        {"7/16-14 x 4", "7/16-14", "7/16", 101.6},
        {"7/16-14", "7/16-14", "7/16", 0.0},
        {"3/8-16 x 16 in", "3/8-16", "3/8", 406.4},
        {"3/8x16\"", "", "3/8", 406.4},
        {"3/8x60mm", "", "3/8", 60.0},
        {"M8x1.25x30", "M8", "M8", 30.0},
        {"M8x30", "M8", "M8", 30.0},
        {"M8x1.25", "M8", "M8", 0.0},
        {"M10x1.25x50", "M10x1.25", "M10", 50.0},
        {"M10 x 5", "M10", "M10", 5.0},
        {"M8 x 2 in", "", "M8", -1.0}, // 2 is read as a pitch, and there is none
    };
    for (const Written& each : cases) {
        const auto fastener = parse_fastener_size(each.text);
        if (each.length_mm < 0.0) {
            ASSERT_FALSE(fastener.ok()) << each.text;
            continue;
        }
        ASSERT_TRUE(fastener.ok()) << each.text;
        EXPECT_EQ(fastener->size, each.size) << each.text;
        EXPECT_EQ(fastener->thread ? fastener->thread->name : "", each.thread) << each.text;
        ASSERT_EQ(fastener->length_mm.has_value(), each.length_mm > 0.0) << each.text;
        if (fastener->length_mm) {
            EXPECT_NEAR(*fastener->length_mm, each.length_mm, 1e-9) << each.text;
        }
        EXPECT_NEAR(fastener->diameter_mm, threads_of(each.size).front().diameter_mm, 1e-12);
    }
}

TEST(FastenerSize, RefusesTwoMeaningsAndNonsense) {
    // 16 threads in an inch, or 16 inches long?
    const auto either = parse_fastener_size("3/8x16");
    ASSERT_FALSE(either.ok());
    EXPECT_EQ(either.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(either.error().expected, "3/8-16 3/8x16in");
    // Both of what is offered are accepted, and differ.
    EXPECT_FALSE(parse_fastener_size("3/8-16")->length_mm.has_value());
    EXPECT_NEAR(*parse_fastener_size("3/8x16in")->length_mm, 406.4, 1e-9);
    EXPECT_EQ(parse_fastener_size("3/8").error().expected, "3/8-16 3/8-24");
    EXPECT_EQ(parse_fastener_size("3/8-18x2").error().expected, "3/8-16 3/8-24");
    EXPECT_EQ(parse_fastener_size("7/16-14x").error().field, "length");
    EXPECT_EQ(parse_fastener_size("7/16-14x2-3").error().field, "length");
    EXPECT_EQ(parse_fastener_size("7/16-14x60").error().code, ErrorCode::out_of_range); // 60 in
    EXPECT_EQ(parse_fastener_size("x").error().code, ErrorCode::wrong_type);
    EXPECT_EQ(parse_fastener_size(" ").error().code, ErrorCode::empty_text);
}

} // namespace
} // namespace rodway
