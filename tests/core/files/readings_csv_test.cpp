#include "core/files/readings_csv.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

/// Taken apart by the rules of RFC 4180 alone.
std::vector<std::vector<std::string>> rows_in(const std::string& bytes) {
    std::vector<std::vector<std::string>> rows{{""}};
    bool quoted = false;
    for (std::size_t at = 3; at < bytes.size(); ++at) {
        const char c = bytes[at];
        std::string& cell = rows.back().back();
        if (quoted && c == '"' && bytes[at + 1] == '"') {
            cell += bytes[++at];
        } else if (c == '"') {
            quoted = !quoted;
        } else if (!quoted && c == ',') {
            rows.back().emplace_back();
        } else if (!quoted && bytes.compare(at, 2, "\r\n") == 0) {
            rows.push_back({""});
            ++at;
        } else {
            cell += c;
        }
    }
    EXPECT_FALSE(quoted);
    EXPECT_EQ(rows.back(), std::vector<std::string>{""}); // behind the last line's end
    rows.pop_back();
    return rows;
}

ReadingRow row(const std::string& quantity, const std::string& text) {
    ReadingRow made;
    made.reading.quantity = quantity;
    made.reading.position = "3I";
    made.reading.text = text;
    made.reading.unit = "in";
    made.reading.taken_by = "Dee";
    made.reading.taken_at = "2026-03-01T12:00:00Z";
    made.status = "measured";
    return made;
}

TEST(ReadingsCsv, EveryReadingIsARowUnderItsColumns) {
    ReadingRow full = row("rod_clearance", ".008-.010");
    full.sheet = "Rods, left bank";
    full.instrument = "feeler \"short\"";
    full.reading.note = "two\nlines";
    const std::string bytes =
        write_readings_csv("Blue pickup", {full, row("rod_clearance", ".01")});
    EXPECT_EQ(bytes.substr(0, 3), "\xEF\xBB\xBF");
    const auto rows = rows_in(bytes);
    ASSERT_EQ(rows.size(), 3U);
    const std::vector<std::string> columns{
        "build",  "sheet",      "quantity", "position",    "value", "unit",     "low", "high",
        "status", "instrument", "method",   "temperature", "who",   "when_utc", "note"};
    EXPECT_EQ(rows[0], columns);
    const std::vector<std::string> first{"Blue pickup",
                                         "Rods, left bank",
                                         "rod_clearance",
                                         "3I",
                                         ".008-.010",
                                         "in",
                                         ".008",
                                         ".010",
                                         "measured",
                                         "feeler \"short\"",
                                         "",
                                         "",
                                         "Dee",
                                         "2026-03-01 12:00:00",
                                         "two\nlines"};
    EXPECT_EQ(rows[1], first);
    EXPECT_EQ(rows[2][6], ".01");
    EXPECT_EQ(rows[2][7], ".01");
}

TEST(ReadingsCsv, ATextIsNeverAFormula) {
    const std::vector<std::string> hostile{
        "=1+1",    "+1+1",      "-1-1",    "@SUM(A1)",
        "\t=1",    "\r=1",      "\n=1",    " =1",
        "-",       "+",         "-.",      "--5",
        "-5x",     "+5 in",     "-1.2.3",  "=HYPERLINK(\"a\",\"b\")",
        "-2+3,=4", "\uff1d1+1", "\uff0b1", "\uff0d1",
        "\uff20a"};
    for (const std::string& text : hostile) {
        const auto rows = rows_in(write_readings_csv(text, {row("rod_clearance", text)}));
        ASSERT_EQ(rows.size(), 2U) << text;
        EXPECT_EQ(rows[1][0], '\'' + text);
        EXPECT_EQ(rows[1][4], '\'' + text);
        EXPECT_EQ(rows[1][6], "") << text;
    }
    for (const std::string number : {"-.005", "+.002", "-12", "+3.", "0", ".0085"}) {
        EXPECT_EQ(csv_cell(number), number);
    }
    EXPECT_EQ(csv_cell("1-1"), "1-1");
    EXPECT_EQ(csv_cell(""), "");
}

TEST(ReadingsCsv, LowAndHighAreEmptyWhereTheTextIsNoPlainNumber) {
    for (const std::string text : {"8 1/4", ".008 in", "n/m", "ok", "-.005-.010", "1-2-3", ""}) {
        const auto rows = rows_in(write_readings_csv("b", {row("rod_clearance", text)}));
        EXPECT_EQ(rows[1][6], "") << text;
        EXPECT_EQ(rows[1][7], "") << text;
    }
    // Nobody knows whether a shop's own quantity is an interval or two words with a dash.
    EXPECT_EQ(rows_in(write_readings_csv("b", {row("shop_word", "3-4")}))[1][6], "");
}

} // namespace
} // namespace rodway
