// What people type, in every form a reading can have. The tables say what each text means; they
// were written before the program read them.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>

#include "core/sheets/reading_value.h"
#include "tests/core/sheets/typed_table.h"

namespace rodway {
namespace {

Reading typed(const std::string& text, const std::string& unit) {
    Reading reading;
    reading.text = text;
    reading.unit = unit;
    return reading;
}

/// As the tables write it.
std::string firmness_word(Firmness firmness) {
    switch (firmness) {
        case Firmness::plain:
            return "plain";
        case Firmness::about:
            return "about";
        case Firmness::below:
            return "below";
        case Firmness::above:
            return "above";
    }
    return {};
}

std::string said_word(Said said) {
    switch (said) {
        case Said::number:
            return "number";
        case Said::words:
            return "words";
        case Said::fine:
            return "fine";
        case Said::blank:
            return "blank";
        case Said::same:
            return "same";
        case Said::see_photo:
            return "see_photo";
        case Said::not_measured:
            return "not_measured";
    }
    return {};
}

std::string code_word(ErrorCode code) {
    static const std::map<ErrorCode, std::string> words{
        {ErrorCode::empty_text, "empty_text"},
        {ErrorCode::not_a_length, "not_a_length"},
        {ErrorCode::unit_needed, "unit_needed"},
        {ErrorCode::ambiguous_unit, "ambiguous_unit"},
        {ErrorCode::sign_needed, "sign_needed"},
        {ErrorCode::gauge_needed, "gauge_needed"},
        {ErrorCode::two_values, "two_values"},
        {ErrorCode::thread_not_length, "thread_not_length"},
        {ErrorCode::not_an_amount, "not_an_amount"},
        {ErrorCode::not_a_date, "not_a_date"},
        {ErrorCode::not_a_choice, "not_a_choice"},
        {ErrorCode::out_of_range, "out_of_range"}};
    const auto found = words.find(code);
    return found == words.end() ? "another code" : found->second;
}

/// What is lost between decimal and binary in a few operations, a part in 10^15 each.
double rounding_of(double value) {
    return 1e-14 + 1e-14 * std::abs(value);
}

void expect_near(double read, const std::string& wanted, const std::string& where) {
    const double value = std::stod(wanted);
    EXPECT_NEAR(read, value, rounding_of(value)) << where;
}

TEST(TypedForms, EveryNumberIsReadAsItIsMeant) {
    const auto rows = typed_rows("numbers.tsv", 7);
    EXPECT_GE(rows.size(), 300U);
    for (const TypedRow& row : rows) {
        const auto quantity = typed_quantity(row.cells[0]);
        ASSERT_TRUE(quantity) << row.where();
        const auto value = read_value(typed(row.cells[2], row.cells[1]), *quantity);
        if (!value.ok()) {
            ADD_FAILURE() << row.where() << " is refused: " << code_word(value.error().code);
            continue;
        }
        EXPECT_EQ(said_word(value->said), "number") << row.where();
        expect_near(value->low, row.cells[3], row.where());
        expect_near(value->high, row.cells[4], row.where());
        expect_near(value->resolution, row.cells[5], row.where());
        EXPECT_EQ(firmness_word(value->firmness), row.cells[6]) << row.where();
        EXPECT_FALSE(std::signbit(value->low) && value->low == 0.0) << row.where();
    }
}

// A unit said once for the whole quantity means the same as one that the reading says.
TEST(TypedForms, TheQuantitysUnitCountsWhereTheReadingHasNone) {
    for (const TypedRow& row : typed_rows("numbers.tsv", 7)) {
        auto quantity = typed_quantity(row.cells[0]);
        ASSERT_TRUE(quantity);
        const auto said = read_value(typed(row.cells[2], row.cells[1]), *quantity);
        quantity->unit = row.cells[1];
        const auto of_quantity = read_value(typed(row.cells[2], ""), *quantity);
        ASSERT_EQ(said.ok(), of_quantity.ok()) << row.where();
        if (said.ok()) {
            EXPECT_EQ(said->low, of_quantity->low) << row.where();
            EXPECT_EQ(said->high, of_quantity->high) << row.where();
        }
    }
}

TEST(TypedForms, WhatIsNoNumberIsKeptApartFromZero) {
    for (const TypedRow& row : typed_rows("said.tsv", 5)) {
        const auto quantity = typed_quantity(row.cells[0]);
        ASSERT_TRUE(quantity) << row.where();
        const auto value = read_value(typed(row.cells[2], row.cells[1]), *quantity);
        if (!value.ok()) {
            ADD_FAILURE() << row.where() << " is refused: " << code_word(value.error().code);
            continue;
        }
        EXPECT_EQ(said_word(value->said), row.cells[3]) << row.where();
        EXPECT_EQ(value->words, row.cells[4]) << row.where();
        EXPECT_FALSE(value->is_number()) << row.where();
    }
}

TEST(TypedForms, WhatCannotBeMeantIsRefusedByName) {
    const auto rows = typed_rows("invalid.tsv", 5);
    EXPECT_GE(rows.size(), 200U);
    for (const TypedRow& row : rows) {
        const auto quantity = typed_quantity(row.cells[0]);
        ASSERT_TRUE(quantity) << row.where();
        const auto value = read_value(typed(row.cells[2], row.cells[1]), *quantity);
        if (value.ok()) {
            ADD_FAILURE() << row.where() << " is read as " << value->low << " to " << value->high;
            continue;
        }
        const Error& error = value.error();
        EXPECT_EQ(code_word(error.code), row.cells[3]) << row.where();
        EXPECT_EQ(error.expected, row.cells[4]) << row.where();
        const bool of_unit = error.field == "unit";
        EXPECT_TRUE(of_unit || error.field == "text") << row.where();
        EXPECT_EQ(error.value, row.cells[of_unit ? 1 : 2]) << row.where();
        EXPECT_EQ(error.limits.has_value(), row.cells[3] == "out_of_range") << row.where();
    }
}

TEST(TypedForms, EveryFormStandsInTheTables) {
    std::map<std::string, int> right;
    std::map<std::string, int> wrong;
    std::set<std::vector<std::string>> texts;
    for (const TypedRow& row : typed_rows("numbers.tsv", 7)) {
        ++right[row.cells[0]];
        EXPECT_TRUE(texts.insert({row.cells[0], row.cells[1], row.cells[2]}).second) << row.where();
    }
    for (const TypedRow& row : typed_rows("said.tsv", 5)) {
        ++right[row.cells[0]];
        EXPECT_TRUE(texts.insert({row.cells[0], row.cells[1], row.cells[2]}).second) << row.where();
    }
    for (const TypedRow& row : typed_rows("invalid.tsv", 5)) {
        ++wrong[row.cells[0]];
        EXPECT_TRUE(texts.insert({row.cells[0], row.cells[1], row.cells[2]}).second) << row.where();
    }
    for (int at = 0; at <= static_cast<int>(Form::choice); ++at) {
        const Form form = static_cast<Form>(at);
        const std::string name(form_name(form));
        EXPECT_GE(right[name], 5) << name;
        EXPECT_GE(wrong[name], form == Form::words ? 0 : 4) << name; // words may say anything
    }
}

TEST(TypedForms, ALashKeepsWhatItWasSetAt) {
    const Quantity either{"lash", Form::lash, Place::valve, "in", "hot cold"};
    EXPECT_EQ(read_value(typed(".026 hot", ""), either)->words, "hot");
    EXPECT_EQ(read_value(typed(".018 cold", ""), either)->words, "cold");
    EXPECT_EQ(read_value(typed(".018", ""), either)->words, "");
    const Quantity hot{"lash", Form::lash, Place::valve, "in", "hot"};
    EXPECT_TRUE(read_value(typed(".026 hot", ""), hot).ok());
    EXPECT_FALSE(read_value(typed(".026 cold", ""), hot).ok());
}

} // namespace
} // namespace rodway
