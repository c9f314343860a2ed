#include "core/files/lift_table_file.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/cam/lift_table.h"
#include "core/engine/set_up.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

struct Way {
    std::string separator = ";";
    char decimal_mark = '.';
    std::string header = "cam deg;lift in\n";
    std::string line_end = "\n";
    double angle_unit = 1.0; ///< of cam degrees
    double lift_unit = 1.0;  ///< of inches
    double full_lift = 0.35;
};

std::string number(double value, char decimal_mark) {
    char text[32];
    std::snprintf(text, sizeof text, "%.4f", value);
    std::string written = text;
    std::replace(written.begin(), written.end(), '.', decimal_mark);
    return written;
}

/// 27 rows, 5 cam degrees apart, a hill of 0.35 in.
std::string file(const Way& way) {
    std::string text = way.header;
    for (int row = -13; row <= 13; ++row) {
        const double share = std::max(0.0, 1.0 - row * row / 144.0);
        text += number(5.0 * row * way.angle_unit, way.decimal_mark) + way.separator +
                number(way.full_lift * share * share * way.lift_unit, way.decimal_mark) +
                way.line_end;
    }
    return text;
}

LiftTable table_of(const Result<TypedValue>& field) {
    EXPECT_TRUE(field.ok()) << (field.ok() ? 0 : static_cast<int>(field.error().code));
    return field.ok() ? *lift_table_from_text(field->text, field->unit) : LiftTable{};
}

void expect_same(const LiftTable& a, const LiftTable& b, double tolerance_mm = 1e-9) {
    ASSERT_EQ(a.rows.size(), b.rows.size());
    for (std::size_t at = 0; at < a.rows.size(); ++at) {
        EXPECT_DOUBLE_EQ(a.rows[at].cam_deg, b.rows[at].cam_deg);
        EXPECT_NEAR(a.rows[at].lift_mm, b.rows[at].lift_mm, tolerance_mm);
    }
}

ErrorCode code_of(const std::string& bytes, const LiftTableHints& hints = {}) {
    const auto field = read_lift_table_file(bytes, hints);
    EXPECT_FALSE(field.ok());
    return field.ok() ? ErrorCode::no_graphics : field.error().code;
}

TEST(LiftTableFile, ReadsEverySeparatorWithEveryDecimalMark) {
    const LiftTable expected = table_of(read_lift_table_file(file({})));
    ASSERT_EQ(expected.rows.size(), 27u);
    EXPECT_DOUBLE_EQ(expected.rows[0].cam_deg, -65.0);
    EXPECT_NEAR(expected.rows[13].lift_mm, 0.35 * 25.4, 1e-12);
    for (const char* separator : {";", "\t", " ", "   ", " ; ", "; ", ", ", ","}) {
        for (const char mark : {'.', ','}) {
            if (mark == ',' && separator[0] == ',') {
                continue;
            }
            Way way;
            way.separator = separator;
            way.decimal_mark = mark;
            expect_same(table_of(read_lift_table_file(file(way))), expected);
        }
    }
    Way way;
    for (const char* line_end : {"\r\n", "\r", "\n\n", " \n", "\t\n"}) {
        way.line_end = line_end;
        expect_same(table_of(read_lift_table_file(file(way))), expected);
    }
}

TEST(LiftTableFile, SkipsCommentsBlankLinesAndTheMark) {
    const LiftTable expected = table_of(read_lift_table_file(file({})));
    std::string text = file({});
    text.insert(text.find("-60"), "# checked twice\n\n   \n  # 1;2\n");
    expect_same(table_of(read_lift_table_file(text)), expected);
    expect_same(table_of(read_lift_table_file("\xEF\xBB\xBF" + text)), expected);
}

TEST(LiftTableFile, ReadsQuotedCells) {
    const LiftTable expected = table_of(read_lift_table_file(file({})));
    std::string text = "\"cam deg\";\"lift in\"\n";
    for (const LiftRow& row : expected.rows) {
        text +=
            "\"" + number(row.cam_deg, ',') + "\";\"" + number(row.lift_mm / 25.4, ',') + "\"\n";
    }
    expect_same(table_of(read_lift_table_file(text)), expected);
    // With a comma between and a comma within, only the quotes tell.
    std::string commas = "\"cam deg\",\"lift in\"\n";
    for (const LiftRow& row : expected.rows) {
        commas +=
            "\"" + number(row.cam_deg, ',') + "\",\"" + number(row.lift_mm / 25.4, ',') + "\"\n";
    }
    const auto read = read_lift_table_file(commas);
    if (read.ok()) {
        expect_same(table_of(read), expected);
    }
}

TEST(LiftTableFile, TakesUnitAndKindOfAngleFromTheHeader) {
    const LiftTable expected = table_of(read_lift_table_file(file({})));
    Way crank;
    crank.angle_unit = 2.0;
    for (const char* header : {"Crank angle (deg); Lift (inch)\n", "CRANK;IN\n",
                               "made by hand\ncrankshaft degrees;inches\n"}) {
        crank.header = header;
        const auto field = read_lift_table_file(file(crank));
        ASSERT_TRUE(field.ok()) << header;
        EXPECT_EQ(field->unit, "crank_deg/in");
        expect_same(table_of(field), expected);
    }
    Way metric;
    metric.lift_unit = 25.4;
    metric.header = "camshaft; mm\n";
    const auto field = read_lift_table_file(file(metric));
    ASSERT_TRUE(field.ok());
    EXPECT_EQ(field->unit, "cam_deg/mm");
    // One file is rounded to 0.0001 in, the other to 0.0001 mm.
    expect_same(table_of(field), expected, 0.00127 + 0.00005 + 1e-9);
}

TEST(LiftTableFile, AsksForWhatTheFileDoesNotSay) {
    Way silent;
    silent.header = "";
    // 0.35 can only be inches; 130 degrees of lift may be cam or crank.
    EXPECT_EQ(code_of(file(silent)), ErrorCode::angle_kind_unclear);
    LiftTableHints cam;
    cam.crank_degrees = false;
    const auto field = read_lift_table_file(file(silent), cam);
    ASSERT_TRUE(field.ok());
    EXPECT_EQ(field->unit, "cam_deg/in");
    // A lift that lasts longer than any cam's turn allows is crank degrees.
    silent.angle_unit = 2.2;
    EXPECT_EQ(read_lift_table_file(file(silent))->unit, "crank_deg/in");
    // 1 to 20 mm or 1/25.4 to 20/25.4 in: what lies in both nobody can tell.
    Way both = silent;
    both.full_lift = 0.9;
    EXPECT_EQ(code_of(file(both)), ErrorCode::unit_unclear);
    both.full_lift = 8.9;
    EXPECT_EQ(read_lift_table_file(file(both))->unit, "crank_deg/mm");
    LiftTableHints inches;
    inches.inches = true;
    both.full_lift = 0.7;
    EXPECT_EQ(read_lift_table_file(file(both), inches)->unit, "crank_deg/in");
    // A header that says both says nothing.
    Way mixed;
    mixed.header = "cam or crank; in\n";
    EXPECT_EQ(code_of(file(mixed)), ErrorCode::angle_kind_unclear);
    mixed.header = "cam; in or mm\n";
    mixed.full_lift = 0.9;
    EXPECT_EQ(code_of(file(mixed)), ErrorCode::unit_unclear);
}

TEST(LiftTableFile, AHintNeverOverrulesTheHeader) {
    LiftTableHints hints;
    hints.crank_degrees = true; // the header says cam
    auto read = read_lift_table_file(file({}), hints);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::contradicts_header);
    EXPECT_EQ(read.error().expected, "cam");
    hints.crank_degrees = false;
    hints.inches = false; // the header says in
    read = read_lift_table_file(file({}), hints);
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::contradicts_header);
    EXPECT_EQ(read.error().expected, "in");
    hints.inches = true;
    EXPECT_TRUE(read_lift_table_file(file({}), hints).ok());
}

TEST(LiftTableFile, AValvesLiftIsNotALobes) {
    Way way;
    way.header = "cam deg; valve lift in\n";
    EXPECT_EQ(code_of(file(way)), ErrorCode::valve_lift_table);
}

// "10,0 1,5": a decimal comma and a space between, or a comma between "10" and "0 1,5"? Only a
// whole number on both sides leaves two readings: "-60,0" by itself is one angle and one lift.
TEST(LiftTableFile, AsksForTheSeparatorWhereTwoReadingsDiffer) {
    std::string text = "cam in\n";
    for (int row = -5; row <= 5; ++row) {
        text += std::to_string(row * 12) + ",0 0," +
                std::to_string(row == 0 ? 35 : 30 - row * row) + "\n";
    }
    const auto spaced = read_lift_table_file(text);
    ASSERT_FALSE(spaced.ok() && spaced->text.empty());
    // Semicolon hinted for a file that has none: nothing fits, and the line is named.
    LiftTableHints semicolon;
    semicolon.separator = ';';
    const auto refused = read_lift_table_file(text, semicolon);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::column_count);
    EXPECT_EQ(refused.error().line, 2);
}

TEST(LiftTableFile, NamesTheLineOfWhatIsWrong) {
    const std::string good = file({});
    const auto with = [&](const std::string& what, const std::string& by) {
        std::string text = good;
        return text.replace(text.find(what), what.size(), by);
    };
    auto read = read_lift_table_file(with("-55.0000", "-61.0000"));
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::order_wrong);
    EXPECT_EQ(read.error().line, 4); // header, -65, -60, then this
    read = read_lift_table_file(with("-55.0000;", "-55.0000;1;"));
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::column_count);
    EXPECT_EQ(read.error().line, 4);
    read = read_lift_table_file(with("-55.0000;", "-5x5;"));
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::not_a_number);
    EXPECT_EQ(read.error().line, 4);
    read = read_lift_table_file("cam;in\n1\n2\n3\n4\n5\n6\n7\n8\n");
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::column_count);
    EXPECT_EQ(read.error().line, 2);
    read = read_lift_table_file("cam;in\n1;2;3\n2;3;4\n");
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::column_count);
    EXPECT_EQ(code_of("cam;in\n0;0\n1;0.2\n2;0\n"), ErrorCode::too_few_rows);
    EXPECT_EQ(code_of(""), ErrorCode::empty_file);
    EXPECT_EQ(code_of("cam;in\n# nothing\n\n"), ErrorCode::empty_file);
    EXPECT_EQ(code_of(std::string("\xFF\xFE"
                                  "1\0;\0",
                                  6)),
              ErrorCode::not_utf8);
    EXPECT_EQ(code_of(with("65.0000;0.0000", "65.0000;0.0100")), ErrorCode::not_zero_at_ends);
}

// The demo's own files: what is read from them is what its set-ups hold.
TEST(LiftTableFile, DemoFilesAreTheTablesOfTheDemoEngines) {
    const std::string demo = std::string(RODWAY_RESOURCES) + "/demo/";
    const auto of_engine = [](const char* name, const char* kind) {
        const SetUpFields fields = demo_fields(name);
        const TypedValue& value = fields.at(std::string("lobes/") + kind + "/lift_table");
        return *lift_table_from_text(value.text, value.unit);
    };
    const auto german = read_lift_table_file(bytes_of(demo + "six-lobe-crank-degrees.csv"));
    ASSERT_TRUE(german.ok());
    EXPECT_EQ(german->unit, "crank_deg/in");
    expect_same(table_of(german), of_engine("inline-six", "intake"));
    expect_same(table_of(read_lift_table_file(bytes_of(demo + "v8-intake-lobe.csv"))),
                of_engine("v8-port-tubes", "intake"));
    expect_same(table_of(read_lift_table_file(bytes_of(demo + "v8-exhaust-lobe.csv"))),
                of_engine("v8-port-tubes", "exhaust"));
}

} // namespace
} // namespace rodway
