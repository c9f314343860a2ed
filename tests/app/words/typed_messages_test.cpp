// What a person is told about every text of the table that can't be taken for a value.
#include <gtest/gtest.h>

#include <QStringList>
#include <map>

#include "app/words/error_text.h"
#include "core/sheets/reading_value.h"
#include "tests/core/sheets/typed_table.h"

namespace rodway {
namespace {

/// What a sentence about each fault says, beside the text: what would be accepted.
const std::map<std::string, QStringList>& says() {
    static const std::map<std::string, QStringList> all{
        {"unit_needed", {"inches, thousandths or millimetres", "thou", "mm"}},
        {"ambiguous_unit", {"to some", "thou", "mm"}},
        {"thread_not_length", {"is a thread, not a length"}},
        {"two_values", {"two values", "own place"}},
        {"gauge_needed", {"how thick", ".010 no go"}},
        {"sign_needed", {"could be", "type"}},
        {"not_a_length", {"is not a length", ".010", "10 thou", "1/8", "0,25 mm"}},
        {"out_of_range", {"is outside"}},
        {"not_a_date", {"2026-03-01", "1 March 2026"}},
        {"not_a_choice", {"is not one of"}},
        {"not_an_amount", {}}, // depends on whether there are units: below
    };
    return all;
}

void expect_units(const QString& sentence, const std::string& units, const std::string& where) {
    if (units.empty()) {
        EXPECT_TRUE(sentence.contains("is not a number")) << where;
        return;
    }
    EXPECT_TRUE(sentence.contains("can't be read here")) << where;
    for (const QString& unit : QString::fromStdString(units).split(' ')) {
        EXPECT_TRUE(sentence.contains(unit)) << where;
    }
}

TEST(TypedMessages, EveryRefusedTextIsToldWhatWouldBeAccepted) {
    const auto rows = typed_rows("invalid.tsv", 5);
    ASSERT_GE(rows.size(), 200U);
    for (const TypedRow& row : rows) {
        Reading reading;
        reading.unit = row.cells[1];
        reading.text = row.cells[2];
        const auto value = read_value(reading, *typed_quantity(row.cells[0]));
        ASSERT_FALSE(value.ok()) << row.where();
        const QString sentence = words::error_text(value.error());
        const std::string where = row.where() + ": " + sentence.toStdString();
        EXPECT_TRUE(sentence.endsWith('.')) << where;
        const std::string& code = row.cells[3];
        // Of a word with two meanings the word is named, not the text.
        EXPECT_TRUE(code == "ambiguous_unit" ||
                    sentence.contains(QString::fromStdString(value.error().value)))
            << where;
        const auto wanted = says().find(code);
        ASSERT_NE(wanted, says().end()) << where;
        for (const QString& words : wanted->second) {
            EXPECT_TRUE(sentence.contains(words)) << where;
        }
        if (code == "not_an_amount") {
            expect_units(sentence, row.cells[4], where);
        }
        if (code == "not_a_choice") {
            EXPECT_TRUE(sentence.contains(QString::fromStdString(row.cells[4]).replace(' ', ", ")))
                << where;
        }
    }
}

TEST(TypedMessages, AskForTheSideInItsOwnWords) {
    const auto about = [](Form form, const char* text) {
        Reading reading;
        reading.text = text;
        const Quantity quantity{"typed", form, Place::engine, form == Form::deck ? "in" : "cc"};
        return words::error_text(read_value(reading, quantity).error());
    };
    EXPECT_EQ(about(Form::deck, ".015"),
              "Reading: “.015” could be in the hole or out of it: type “in the hole .015” or “out "
              ".015”.");
    EXPECT_EQ(about(Form::dome, "12"),
              "Reading: “12” could be a dome or a dish: type “dome 12” or “dish 12”.");
}

TEST(TypedMessages, ATenthIsNamedAsOne) {
    Reading reading;
    reading.text = "2 tenths";
    reading.unit = "mm";
    const QString sentence = words::error_text(
        read_value(reading, {"typed", Form::length, Place::engine, "mm"}).error());
    EXPECT_TRUE(sentence.contains("A tenth is 0.0001 in to some and 0.1 mm to others"))
        << sentence.toStdString();
    EXPECT_FALSE(sentence.contains("mil")) << sentence.toStdString();
}

} // namespace
} // namespace rodway
