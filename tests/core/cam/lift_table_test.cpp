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
        {"begins far below the heel", [](LiftTable& t) { t.rows[0].lift_mm = -0.04; },
         ErrorCode::not_zero_at_ends, 1},
        {"begins too high on the ramp",
         [](LiftTable& t) { t.rows.erase(t.rows.begin(), t.rows.begin() + 2); },
         ErrorCode::not_zero_at_ends, 1},
        {"begins falling", [](LiftTable& t) { t.rows[0].lift_mm = 0.7; },
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
    EXPECT_TRUE(read_lift_table_ends(table)->opening_ramp_measured);
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

double thou(double value) {
    return value * 0.0254;
}

/// A bench's table, a row a cam degree: `heel` readings, then a lobe of 9 mm with flanks of 60°
/// that begins with a ramp, then as many heel readings again.
LiftTable bench(int heel_rows, const std::function<double(double)>& heel_mm) {
    LiftTable table;
    table.resolution_mm = 0.00254;
    for (int row = -60 - heel_rows; row <= 60 + heel_rows; ++row) {
        const double u = std::max(0.0, 1.0 - std::abs(row) / 60.0);
        const double lift = 9.0 * u * u * u * (10.0 + u * (-15.0 + 6.0 * u));
        const double read = std::round((lift + heel_mm(row)) / 0.00254) * 0.00254;
        table.rows.push_back({static_cast<double>(row), read});
    }
    return table;
}

LiftTable cut(LiftTable table, double first_deg, double last_deg) {
    std::erase_if(table.rows, [&](const LiftRow& row) {
        return row.cam_deg < first_deg || row.cam_deg > last_deg;
    });
    return table;
}

TEST(LiftTable, ADialThatWasNotZeroedIsToldByAFlatHeelAtBothEnds) {
    for (const double zero : {thou(3.0), thou(0.6), thou(-0.8), thou(-5.0), thou(50.0)}) {
        const auto ends = read_lift_table_ends(bench(8, [&](double) { return zero; }));
        ASSERT_TRUE(ends.ok()) << zero;
        EXPECT_NEAR(ends->zero_shift_mm, zero, 0.00127 + 1e-9); // half a step of the last digit
        EXPECT_TRUE(ends->opening_ramp_measured);
        EXPECT_TRUE(ends->closing_ramp_measured);
        EXPECT_LE(ends->heel_wander_mm, thou(0.3));
    }
}

TEST(LiftTable, AnOrdinaryZeroIsNotShifted) {
    const auto ends = read_lift_table_ends(bench(8, [](double) { return 0.0; }));
    ASSERT_TRUE(ends.ok());
    EXPECT_EQ(ends->zero_shift_mm, 0.0);
    // The heel ends where the lobe begins to stand off it, within a few rows.
    EXPECT_NEAR(bench(8, [](double) { return 0.0; }).rows[ends->opening_row].cam_deg, -59.0, 2.5);
    EXPECT_NEAR(bench(8, [](double) { return 0.0; }).rows[ends->closing_row].cam_deg, 59.0, 2.5);
}

TEST(LiftTable, ATableThatBeginsOnTheRampIsNotTakenForAZeroError) {
    // First rows in thousandths: about 4, 11, 23.
    for (const auto& [from, to] :
         {std::pair{-53.0, 53.0}, std::pair{-50.0, 51.0}, std::pair{-47.0, 47.0}}) {
        const auto ends = read_lift_table_ends(cut(bench(8, [](double) { return 0.0; }), from, to));
        ASSERT_TRUE(ends.ok()) << from;
        EXPECT_EQ(ends->zero_shift_mm, 0.0);
        EXPECT_FALSE(ends->opening_ramp_measured);
        EXPECT_FALSE(ends->closing_ramp_measured);
        EXPECT_EQ(ends->opening_row, 0u);
    }
    // More than 0.030 in is too much to make up.
    const auto refused =
        read_lift_table_ends(cut(bench(8, [](double) { return 0.0; }), -45.0, 60.0));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::not_zero_at_ends);
    EXPECT_EQ(refused.error().line, 1);
    const LiftTable other = cut(bench(8, [](double) { return 0.0; }), -60.0, 45.0);
    const auto closing = read_lift_table_ends(other);
    ASSERT_FALSE(closing.ok());
    EXPECT_EQ(closing.error().line, static_cast<int>(other.rows.size()));
}

TEST(LiftTable, OneEndMayStandOnTheHeelAndTheOtherOnTheRamp) {
    const LiftTable table = cut(bench(8, [](double) { return thou(4.0); }), -68.0, 56.0);
    const auto ends = read_lift_table_ends(table);
    ASSERT_TRUE(ends.ok());
    EXPECT_NEAR(ends->zero_shift_mm, thou(4.0), 0.00127 + 1e-9);
    EXPECT_TRUE(ends->opening_ramp_measured);
    EXPECT_FALSE(ends->closing_ramp_measured);
}

// A slow ramp of a constant 0.0003 in a degree, as under solid lifters (common practice, no
// source), is no flat heel though its rows differ by little.
TEST(LiftTable, ASlowRampIsNoHeel) {
    LiftTable table = cut(bench(0, [](double) { return 0.0; }), -55.0, 55.0);
    for (LiftRow& row : table.rows) {
        row.lift_mm += thou(4.0); // the flank stands on top of the ramp
    }
    for (int row = 1; row <= 12; ++row) {
        const double lift = table.rows.front().lift_mm - thou(0.3);
        table.rows.insert(table.rows.begin(), {-55.0 - row, lift});
        table.rows.push_back({55.0 + row, lift});
    }
    ASSERT_GT(table.rows.front().lift_mm, 0.0);
    const auto ends = read_lift_table_ends(table);
    ASSERT_TRUE(ends.ok());
    EXPECT_EQ(ends->zero_shift_mm, 0.0);
    EXPECT_FALSE(ends->opening_ramp_measured);
    EXPECT_FALSE(ends->closing_ramp_measured);
}

// A base circle 0.001 in out of round over the whole turn (common practice for a sound cam).
TEST(LiftTable, RunoutOfTheBaseCircleIsNoFault) {
    for (double phase = 0.0; phase < 6.2; phase += 0.4) {
        const LiftTable table = bench(110, [&](double deg) {
            return thou(0.5) * std::sin(deg * 3.14159265 / 180.0 + phase);
        });
        const auto ends = read_lift_table_ends(table);
        ASSERT_TRUE(ends.ok()) << phase;
        EXPECT_LE(std::abs(ends->zero_shift_mm), thou(0.65));
        EXPECT_NEAR(ends->heel_wander_mm, thou(0.9), thou(0.35));
        EXPECT_TRUE(ends->opening_ramp_measured);
        EXPECT_TRUE(ends->closing_ramp_measured);
    }
}

TEST(LiftTable, HeelsThatReadDifferentlyAreRefusedAtTheEndThatIsOff) {
    const LiftTable late = bench(8, [](double deg) { return deg > 0.0 ? thou(4.0) : 0.0; });
    const auto closing = read_lift_table_ends(late);
    ASSERT_FALSE(closing.ok());
    EXPECT_EQ(closing.error().code, ErrorCode::not_zero_at_ends);
    EXPECT_EQ(closing.error().line, static_cast<int>(late.rows.size()));
    const auto opening =
        read_lift_table_ends(bench(8, [](double deg) { return deg < 0.0 ? thou(-4.0) : 0.0; }));
    ASSERT_FALSE(opening.ok());
    EXPECT_EQ(opening.error().line, 1);
}

} // namespace
} // namespace rodway
