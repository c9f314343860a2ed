#include "app/words/error_text.h"

#include <gtest/gtest.h>

#include "core/cam/lift_table.h"

namespace rodway {
namespace {

TEST(ErrorText, LimitsWithoutAUnitEndWithTheirNumber) {
    Error error{ErrorCode::out_of_range, "trains/1I/valve/axis/x", "2", {}, {}, Limits{-1, 1, {}}};
    EXPECT_EQ(words::error_text(error), "trains/1I/valve/axis/x: 2 is outside -1 to 1.");
    error.limits = Limits{3.0, 60.0, "mm"};
    EXPECT_EQ(words::error_text(error),
              "trains/1I/valve/axis/x: 2 is outside 3 to 60 mm. It would "
              "fit if it were inches: check the unit.");
}

// A table that starts 1.27 mm up is higher than a ramp that may be cut: the sentence says how high
// that is, and how high a ramp may start, in both units.
TEST(ErrorText, ATableThatStartsTooHighIsToldWhatItsEndsMayBe) {
    LiftTable table{{}, 0.01};
    for (int at = 0; at <= 20; ++at) {
        const double lift = 1.27 + 7.0 * (1.0 - (at - 10) * (at - 10) / 100.0);
        table.rows.push_back({4.0 * at, at == 20 ? 0.0 : lift});
    }
    const auto ends = read_lift_table_ends(table);
    ASSERT_FALSE(ends.ok());
    ASSERT_EQ(static_cast<int>(ends.error().code), static_cast<int>(ErrorCode::not_zero_at_ends));
    const QString text = words::error_text(ends.error());
    EXPECT_TRUE(text.contains("0.030 in (0.76 mm)")) << text.toStdString();
    EXPECT_TRUE(text.contains("0.050 in (1.27 mm)")) << text.toStdString();
}

TEST(ErrorText, ARodSaysWhatDoesNotGoTogether) {
    const auto text = [](const char* with) {
        return words::error_text({ErrorCode::not_of_this_kind, "field", "1", with, {}, {}});
    };
    EXPECT_TRUE(text("rod_length").contains("one length")) << text("rod_length").toStdString();
    EXPECT_TRUE(text("ball_end").contains("no cup")) << text("ball_end").toStdString();
}

// What is wrong with a file is said with its name and what to do next.
TEST(ErrorText, EveryFaultOfAShopFileNamesItAndSaysWhatToDo) {
    struct Fault {
        ErrorCode code;
        const char* value;
        const char* expected;
        const char* next;
    };
    const Fault faults[] = {
        {ErrorCode::cannot_write, "disk_full", "", "Make room"},
        {ErrorCode::cannot_write, "disk_error", "", "look at the disk"},
        {ErrorCode::cannot_write, "no_permission", "", "Check that the folder"},
        {ErrorCode::cannot_write, "exists", "", "left alone"},
        {ErrorCode::cannot_read, "", "", "Check that it is there"},
        {ErrorCode::damaged_file, "cut_off", "", "--rescue"},
        {ErrorCode::damaged_file, "unreadable", "", "go back to a backup"},
        {ErrorCode::foreign_file, "", "", "Choose another"},
        {ErrorCode::newer_version, "9", "2", "Update Rodway"},
        {ErrorCode::locked_file, "", "", "Try again"},
    };
    for (const Fault& fault : faults) {
        const QString text = words::error_text(
            {fault.code, "/bench/shop.rodway", fault.value, fault.expected, {}, {}});
        EXPECT_TRUE(text.startsWith("/bench/shop.rodway: ")) << text.toStdString();
        EXPECT_TRUE(text.contains(fault.next)) << text.toStdString();
    }
    const QString newer = words::error_text({ErrorCode::newer_version, "shop", "9", "2", {}, {}});
    EXPECT_TRUE(newer.contains("version 9; this one knows 2")) << newer.toStdString();
}

} // namespace
} // namespace rodway
