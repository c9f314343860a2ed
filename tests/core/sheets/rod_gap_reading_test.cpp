#include "core/sheets/rod_gap_reading.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

constexpr double inch = 25.4;

Reading reading_of(const std::string& text, const std::string& unit = "in") {
    Reading reading;
    reading.id = 7;
    reading.set_up_id = 4;
    reading.quantity = std::string(rod_gap_quantity);
    reading.position = "3I/plate/lifter/9:30/120.5_crank_deg";
    reading.text = text;
    reading.unit = unit;
    return reading;
}

TEST(RodGapReading, TakesPlaceAndSetUpFromItsRecord) {
    const auto gap = read_rod_gap(reading_of(".008-.010"));
    ASSERT_TRUE(gap.ok());
    EXPECT_EQ(gap->name, "7");
    EXPECT_EQ(position_name(gap->valve), "3I");
    EXPECT_EQ(gap->passage, "plate");
    EXPECT_EQ(gap->set_up_id, 4);
    EXPECT_EQ(gap->end, BoreEnd::bottom);
    EXPECT_EQ(gap->clock_hours, 9.5);
    EXPECT_EQ(gap->place, TurnPlace::at_crank_angle);
    EXPECT_EQ(gap->crank.in_deg(), 120.5);
    Reading tightest = reading_of(".008");
    tightest.position = "3I/tube/rocker/tightest/heel";
    EXPECT_EQ(read_rod_gap(tightest)->clock_hours, std::nullopt);
}

// A side on which nothing was tried has no limit: the fit must not take it for one.
TEST(RodGapReading, HasLimitsOnlyWhereAGaugeWasTried) {
    struct Read {
        const char* text;
        std::optional<double> low_in, high_in;
    };
    for (const Read& each : {Read{".008 goes .010 no", 0.008, 0.010},
                             {".008-.010", 0.008, 0.010},
                             {".012", 0.0115, 0.0125},
                             {".008 goes", 0.008, {}},
                             {"tape .006 survived", 0.006, {}},
                             {">.030", 0.030, {}},
                             {".010 no", {}, 0.010},
                             {"<.002", {}, 0.002},
                             {"touch", 0.0, 0.0},
                             {"rubs", 0.0, 0.0}}) {
        const auto gap = read_rod_gap(reading_of(each.text));
        ASSERT_TRUE(gap.ok()) << each.text;
        ASSERT_EQ(gap->low_mm.has_value(), each.low_in.has_value()) << each.text;
        ASSERT_EQ(gap->high_mm.has_value(), each.high_in.has_value()) << each.text;
        if (each.low_in) {
            EXPECT_NEAR(*gap->low_mm, *each.low_in * inch, 1e-12) << each.text;
        }
        if (each.high_in) {
            EXPECT_NEAR(*gap->high_mm, *each.high_in * inch, 1e-12) << each.text;
        }
    }
    EXPECT_NEAR(*read_rod_gap(reading_of("0,3 goes", "mm"))->low_mm, 0.3, 1e-12);
}

TEST(RodGapReading, RefusesByTheRecordsField) {
    const auto refused = [](const Reading& reading) {
        const auto gap = read_rod_gap(reading);
        EXPECT_FALSE(gap.ok()) << reading.text;
        return gap.ok() ? Error{} : gap.error();
    };
    for (const char* text : {"snug", "12", "-.005", "2.5", ".010 goes .008 no", ".008 goes maybe",
                             "nan", "inf", "1e400", "mil"}) {
        EXPECT_EQ(refused(reading_of(text)).field, "text") << text;
    }
    EXPECT_EQ(refused(reading_of("")).code, ErrorCode::empty_text);
    EXPECT_EQ(refused(reading_of(".008", "")).field, "unit");
    EXPECT_EQ(refused(reading_of(".008", "thou")).field, "unit");
    Reading nowhere = reading_of(".008");
    nowhere.position = "3I";
    EXPECT_EQ(refused(nowhere).field, "position");
}

} // namespace
} // namespace rodway
