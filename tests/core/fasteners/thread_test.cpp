#include "core/fasteners/thread.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>

#include "core/units/length.h"

namespace rodway {
namespace {

double square_inches(double mm2) {
    return mm2 / (Length::mm_per_inch * Length::mm_per_inch);
}

// The spellings are common practice, no source; pitches by ASME B1.1 and ISO 261, from memory.
TEST(Thread, ReadsWhatIsWrittenOnTheBox) {
    struct Written {
        const char* text;
        const char* name;
        double diameter_mm;
        double pitch_mm;
    };
    const Written cases[] = {
        {"7/16-14", "7/16-14", 11.1125, 25.4 / 14.0},
        {" 7/16 - 14 UNC ", "7/16-14", 11.1125, 25.4 / 14.0},
        {"7/16-20", "7/16-20", 11.1125, 1.27},
        {"7/16 UNF", "7/16-20", 11.1125, 1.27},
        {"3/8 coarse", "3/8-16", 9.525, 1.5875},
        {".4375-14", "7/16-14", 11.1125, 25.4 / 14.0},
        {"0.3125-24", "5/16-24", 7.9375, 25.4 / 24.0},
        {"1-8", "1-8", 25.4, 3.175},
        {"1-1/8-7", "1-1/8-7", 28.575, 25.4 / 7.0},
        {"1 1/8-12", "1-1/8-12", 28.575, 25.4 / 12.0},
        {"1\u00bd-6", "1-1/2-6", 38.1, 25.4 / 6.0},
        {"#10-24", "#10-24", 4.826, 25.4 / 24.0},
        {"no. 10-32", "#10-32", 4.826, 25.4 / 32.0},
        {"8-32", "#8-32", 4.1656, 25.4 / 32.0},
        {"M12", "M12", 12.0, 1.75},
        {"m12x1.75", "M12", 12.0, 1.75},
        {"M10x1.25", "M10x1.25", 10.0, 1.25},
        {"M10 \u00d7 1,25", "M10x1.25", 10.0, 1.25},
        {"M10-1.5", "M10", 10.0, 1.5},
        {"M14x1.5", "M14x1.5", 14.0, 1.5},
        {"M8 fine", "", 0.0, 0.0},
    };
    for (const Written& each : cases) {
        const auto thread = parse_thread(each.text);
        if (each.diameter_mm == 0.0) { // two fine pitches
            ASSERT_FALSE(thread.ok()) << each.text;
            EXPECT_EQ(thread.error().expected, "M8 M8x1 M8x0.75");
            continue;
        }
        ASSERT_TRUE(thread.ok()) << each.text;
        EXPECT_EQ(thread->name, each.name) << each.text;
        EXPECT_NEAR(thread->diameter_mm, each.diameter_mm, 1e-9) << each.text; // decimal to binary
        EXPECT_NEAR(thread->pitch_mm, each.pitch_mm, 1e-9) << each.text;
    }
}

TEST(Thread, RefusesWhatNobodyMakesAndSaysWhatThereIs) {
    struct Wrong {
        const char* text;
        ErrorCode code;
        const char* expected;
    };
    const Wrong cases[] = {
        {"7/16-16", ErrorCode::not_a_choice, "7/16-14 7/16-20"},
        {"7/16-14 UNF", ErrorCode::not_a_choice, "7/16-14 7/16-20"},
        {"7/16", ErrorCode::not_a_choice, "7/16-14 7/16-20"}, // coarse or fine?
        {"M10x1.75", ErrorCode::not_a_choice, "M10 M10x1.25 M10x1 M10x0.75"},
        {"M12x2", ErrorCode::not_a_choice, "M12 M12x1.5 M12x1.25 M12x1"},
        {"7/16-14x3", ErrorCode::wrong_type, "thread"}, // a bolt, not a thread
        {"bolt", ErrorCode::wrong_type, "thread"},
        {"7/16-14 left", ErrorCode::wrong_type, "thread"},
        {"7/16 uncle", ErrorCode::wrong_type, "thread"},
        {"#10.5-24", ErrorCode::wrong_type, "thread"},
        {"0.0-14", ErrorCode::wrong_type, "thread"},
        {"", ErrorCode::empty_text, ""},
    };
    for (const Wrong& each : cases) {
        const auto thread = parse_thread(each.text);
        ASSERT_FALSE(thread.ok()) << each.text;
        EXPECT_EQ(thread.error().code, each.code) << each.text;
        EXPECT_EQ(thread.error().field, "thread");
        EXPECT_EQ(thread.error().value, each.text);
        EXPECT_EQ(thread.error().expected, each.expected) << each.text;
    }
    // A size nobody makes is answered with the sizes of its own system.
    const std::string inch = parse_thread("15/32-14").error().expected;
    EXPECT_NE(inch.find("7/16 1/2 9/16"), std::string::npos) << inch;
    EXPECT_EQ(inch.find('M'), std::string::npos) << inch;
    const std::string metric = parse_thread("M13").error().expected;
    EXPECT_NE(metric.find("M12 M14 M16"), std::string::npos) << metric;
    EXPECT_EQ(metric.find('/'), std::string::npos) << metric;
}

TEST(Thread, EveryThreadOfTheTableIsReadBackFromItsName) {
    std::set<std::string> names;
    for (const Thread& thread : threads()) {
        const auto read = parse_thread(thread.name);
        ASSERT_TRUE(read.ok()) << thread.name;
        EXPECT_EQ(*read, thread) << thread.name;
        EXPECT_TRUE(names.insert(thread.name).second) << thread.name << " stands there twice";
        EXPECT_GT(thread.minor_diameter_mm(), 0.0);
    }
    EXPECT_GT(names.size(), 80u);
}

// Minor-diameter areas, from which the root diameter follows: Shigley, table 8-2 (3/8-16 .0678,
// 1/2-13 .1257, 3/4-16 .351 in²) and table 8-1 (M10 52.3, M12 76.3 mm²), from memory. Tolerance:
// half a unit of the last printed digit; one for M12, which is 76.247 and was rounded twice.
TEST(Thread, TheRootIsWhereTheTablesHaveIt) {
    const auto root_area = [](const char* name) {
        const double d = parse_thread(name)->minor_diameter_mm();
        return std::numbers::pi / 4.0 * d * d;
    };
    EXPECT_NEAR(square_inches(root_area("3/8-16")), 0.0678, 5e-5);
    EXPECT_NEAR(square_inches(root_area("1/2-13")), 0.1257, 5e-5);
    EXPECT_NEAR(square_inches(root_area("3/4-16")), 0.351, 5e-4);
    EXPECT_NEAR(root_area("M10"), 52.3, 0.05);
    EXPECT_NEAR(root_area("M12"), 76.3, 0.1);
}

} // namespace
} // namespace rodway
