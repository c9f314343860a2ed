#include "core/files/delimited_text.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

using Cells = std::vector<std::string>;

std::vector<DelimitedRow> rows_of(const std::string& text, char separator = ',') {
    const auto rows = delimited_rows(text, separator);
    EXPECT_TRUE(rows.ok());
    return rows.ok() ? *rows : std::vector<DelimitedRow>{};
}

TEST(DelimitedText, RowsKeepTheirLines) {
    const auto rows = rows_of("a,b\n\n# a remark, with a comma\n 1 ,\t2\r\n,,\n3,4\r5,");
    ASSERT_EQ(rows.size(), 4u);
    EXPECT_EQ(rows[0].cells, (Cells{"a", "b"}));
    EXPECT_EQ(rows[0].line, 1);
    EXPECT_EQ(rows[1].cells, (Cells{"1", "2"}));
    EXPECT_EQ(rows[1].line, 4);
    EXPECT_EQ(rows[2].cells, (Cells{"3", "4"}));
    EXPECT_EQ(rows[2].line, 6);
    EXPECT_EQ(rows[3].cells, (Cells{"5", ""}));
    EXPECT_EQ(rows[3].line, 7);
}

// RFC 4180.
TEST(DelimitedText, QuotedCellsHoldAnything) {
    const auto rows = rows_of("\"a,b\",\"say \"\"no\"\"\",\"two\nlines\"\nx, \"y\" ,z\n");
    ASSERT_EQ(rows.size(), 2u);
    EXPECT_EQ(rows[0].cells, (Cells{"a,b", "say \"no\"", "two\nlines"}));
    EXPECT_EQ(rows[1].cells, (Cells{"x", "y", "z"}));
    EXPECT_EQ(rows[1].line, 3);
    const auto open = delimited_rows("a,b\n1,\"2\n3,4\n", ',');
    EXPECT_EQ(open.error().code, ErrorCode::column_count);
    EXPECT_EQ(open.error().line, 2);
    EXPECT_EQ(delimited_rows("\"", ',').error().line, 1);
    EXPECT_EQ(delimited_rows("\"\"\"", ',').error().line, 1);
}

TEST(DelimitedText, TheSeparatorIsTheOneOutsideQuotationMarks) {
    EXPECT_EQ(separator_of("speed (rpm);oil, psi"), ';');
    EXPECT_EQ(separator_of("speed\ttorque; raw"), '\t');
    EXPECT_EQ(separator_of("\"a;b\",c"), ',');
    EXPECT_EQ(separator_of("alone"), ',');
}

TEST(DelimitedText, NothingIsLargerThanItsLimit) {
    const TableLimits limits{1000, 3, 2, 5};
    const auto field = [&](const std::string& text) {
        const auto rows = delimited_rows(text, ',', limits);
        return rows.ok() ? std::string("good") : rows.error().field;
    };
    EXPECT_EQ(field("1,2\n3,4\n5,12345\n"), "good");
    EXPECT_EQ(field("1\n2\n3\n4\n"), "rows");
    EXPECT_EQ(field("1,2,3\n"), "columns");
    EXPECT_EQ(field("123456\n"), "cell");
    EXPECT_EQ(field("\"123456\"\n"), "cell");
    const auto error = delimited_rows("1\n2\n123456", ',', limits).error();
    EXPECT_EQ(error.line, 3);
    EXPECT_EQ(error.limits->high, 5.0);
}

} // namespace
} // namespace rodway
