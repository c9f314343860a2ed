#include "core/cam/lift_table.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

namespace rodway {
namespace {

/// 13 rows, 10° apart, zero at both ends, 8 mm in the middle (row 7).
LiftTable good() {
    LiftTable table;
    table.resolution_mm = 0.001;
    for (int row = -6; row <= 6; ++row) {
        const double share = std::cos(row * 3.14159265358979 / 12.0);
        table.rows.push_back({10.0 * row, row == -6 || row == 6 ? 0.0 : 8.0 * share * share});
    }
    return table;
}

struct Spoiled {
    const char* what;
    std::function<void(LiftTable&)> spoil;
    ErrorCode code;
    std::optional<int> line;
};

TEST(LiftTable, TakesAGoodTable) {
    EXPECT_TRUE(check_lift_table(good()).ok());
}

TEST(LiftTable, RefusesEachFaultAndNamesItsRow) {
    const Spoiled cases[] = {
        {"no rows", [](LiftTable& t) { t.rows.clear(); }, ErrorCode::empty_file, {}},
        {"seven rows", [](LiftTable& t) { t.rows.resize(7); }, ErrorCode::too_few_rows, {}},
        {"same angle twice", [](LiftTable& t) { t.rows[4].cam_deg = t.rows[3].cam_deg; },
         ErrorCode::order_wrong, 5},
        {"angle going back", [](LiftTable& t) { t.rows[9].cam_deg = 0.0; }, ErrorCode::order_wrong,
         10},
        {"angle not a number", [](LiftTable& t) { t.rows[2].cam_deg = std::nan(""); },
         ErrorCode::order_wrong, 3},
        {"more than a turn", [](LiftTable& t) { t.rows[12].cam_deg = 300.1; },
         ErrorCode::out_of_range, 13},
        {"peak under 1 mm",
         [](LiftTable& t) {
             for (LiftRow& row : t.rows) {
                 row.lift_mm /= 10.0;
             }
         },
         ErrorCode::out_of_range, 7},
        {"peak over 20 mm", [](LiftTable& t) { t.rows[6].lift_mm = 20.1; }, ErrorCode::out_of_range,
         7},
        {"begins off the heel", [](LiftTable& t) { t.rows[0].lift_mm = 0.002; },
         ErrorCode::not_zero_at_ends, 1},
        {"ends off the heel", [](LiftTable& t) { t.rows[12].lift_mm = -0.5; },
         ErrorCode::not_zero_at_ends, 13},
        {"dip on the opening flank", [](LiftTable& t) { t.rows[4].lift_mm = 0.5; },
         ErrorCode::not_single_peak, 5},
        {"bump on the closing flank", [](LiftTable& t) { t.rows[10].lift_mm = 6.0; },
         ErrorCode::not_single_peak, 10},
    };
    for (const Spoiled& each : cases) {
        LiftTable table = good();
        each.spoil(table);
        const auto checked = check_lift_table(table);
        ASSERT_FALSE(checked.ok()) << each.what;
        EXPECT_EQ(static_cast<int>(checked.error().code), static_cast<int>(each.code)) << each.what;
        EXPECT_EQ(checked.error().line, each.line) << each.what;
    }
}

TEST(LiftTable, RefusesALiftThatIsNoNumberAnywhere) {
    for (std::size_t row = 0; row < good().rows.size(); ++row) {
        LiftTable table = good();
        table.rows[row].lift_mm = std::nan("");
        EXPECT_FALSE(check_lift_table(table).ok()) << "row " << row + 1;
    }
}

TEST(LiftTable, StandsAtItsLimits) {
    LiftTable table = good();
    table.rows[12].cam_deg = 300.0; // a whole turn
    EXPECT_TRUE(check_lift_table(table).ok());
    table = good();
    table.rows[0].lift_mm = 0.001; // one step of the last digit
    EXPECT_TRUE(check_lift_table(table).ok());
    table.rows[6].lift_mm = 20.0;
    EXPECT_TRUE(check_lift_table(table).ok());
}

// A dial and a degree wheel scatter by up to 0.0002 in either way (common practice, no source): two
// rows of a flat nose may then differ by 0.0004 in and a rounding step.
TEST(LiftTable, ScatterOfADialOnTheNoseIsNoSecondPeak) {
    LiftTable table;
    table.resolution_mm = 0.00254;
    for (int row = -10; row <= 10; ++row) {
        const double lift = row == -10 || row == 10 ? 0.0 : 8.0 * (1.0 - std::pow(row / 10.0, 4));
        table.rows.push_back({5.0 * row, lift});
    }
    table.rows[9].lift_mm = 8.0 + 0.0002 * 25.4;
    table.rows[10].lift_mm = 8.0 - 0.0003 * 25.4; // a rounding step more
    table.rows[11].lift_mm = 8.0 + 0.0003 * 25.4;
    EXPECT_TRUE(check_lift_table(table).ok());
}

} // namespace
} // namespace rodway
