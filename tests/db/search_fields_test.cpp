#include "db/search_fields.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <string>

#include "db/record_tables.h"

namespace rodway {
namespace {

// They stand in every shop file's index: a number that changed would lead to another record.
TEST(SearchFields, TheNumbersOfTheKindsNeverChange) {
    const std::map<std::string, int> frozen{{"reading", 0},        {"build", 1},
                                            {"customer", 2},       {"part", 3},
                                            {"note", 4},           {"open_item", 5},
                                            {"decision", 6},       {"photo", 7},
                                            {"visit", 8},          {"sheet", 9},
                                            {"instrument", 10},    {"person", 11},
                                            {"product", 12},       {"casting_number", 13},
                                            {"promise", 14},       {"hand_off", 15},
                                            {"set_up", 16},        {"waiver", 17},
                                            {"cure", 18},          {"approval", 19},
                                            {"worked_time", 20},   {"account_line", 21},
                                            {"limit", 22},         {"sign_off", 23},
                                            {"shop_detail", 24},   {"shop_sheet_kind", 25},
                                            {"shop_quantity", 26}, {"known_engine", 27}};
    std::map<std::string, int> now;
    for (const SearchedKind& searched : searched_kinds()) {
        const std::string word(table_of(searched.kind).word);
        EXPECT_TRUE(now.emplace(word, searched.number).second) << word;
        EXPECT_LT(searched.number, numbers_of_kinds);
    }
    EXPECT_EQ(now, frozen);
}

TEST(SearchFields, AreTextsOfTheirKindAndAllKindsButThePlansAreSearched) {
    for (const RecordTable& table : record_tables()) {
        const SearchedKind* searched = searched_kind(table.kind);
        const bool of_plan = table.kind == RecordKind::stage || table.kind == RecordKind::step ||
                             table.kind == RecordKind::gate || table.kind == RecordKind::shop_plan;
        ASSERT_EQ(searched == nullptr, of_plan) << table.word;
        if (of_plan) continue;
        std::vector<std::string_view> names = searched->body;
        if (!searched->title.empty()) names.push_back(searched->title);
        EXPECT_FALSE(names.empty()) << table.word;
        for (const std::string_view name : names) {
            const RecordField* field = find_field(table, name);
            ASSERT_NE(field, nullptr) << table.word << " " << name;
            EXPECT_EQ(field->form, FieldForm::text) << table.word << " " << name;
        }
    }
}

TEST(SearchFields, ARowLeadsBackToItsRecord) {
    for (const SearchedKind& searched : searched_kinds()) {
        for (const std::int64_t id : {std::int64_t{1}, std::int64_t{63}, highest_searched_id}) {
            const RecordRef record{searched.kind, id};
            const auto row = noun_row(record);
            if (searched.kind == RecordKind::reading) {
                EXPECT_FALSE(row.has_value());
            } else {
                ASSERT_TRUE(row.has_value());
                EXPECT_EQ(record_of_noun_row(*row), record);
            }
        }
    }
    EXPECT_FALSE(noun_row({RecordKind::build, highest_searched_id + 1}).has_value());
    EXPECT_FALSE(record_of_noun_row(64 + 63).has_value());
}

} // namespace
} // namespace rodway
