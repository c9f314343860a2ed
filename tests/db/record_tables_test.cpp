#include "db/record_tables.h"

#include <fstream>
#include <map>
#include <string>

#include "db/connection.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using RecordTablesTest = ShopTest;

TEST_F(RecordTablesTest, NameEveryColumnOfTheFileAndNoOther) {
    ShopFile shop = new_shop();
    for (const RecordTable& table : record_tables()) {
        std::map<std::string, bool> in_file; // column -> needed
        const QString sql =
            "PRAGMA table_info(" + QString::fromStdString(std::string(table.table)) + ")";
        take(shop.connection().each(sql, {}, [&](const Row& row) {
            if (row.text(1) != "id") in_file[row.text(1)] = row.integer(3) == 1;
        }));
        std::map<std::string, bool> allowed;
        for (const RecordField& field : table.fields) {
            allowed[std::string(field.name)] = field.needed;
        }
        EXPECT_EQ(allowed, in_file) << table.table;
        EXPECT_EQ(record_kind_from(table.word), table.kind);
    }
}

TEST_F(RecordTablesTest, PutEveryKindBehindThoseItRefersTo) {
    for (const RecordTable& table : record_tables()) {
        for (const RecordField& field : table.fields) {
            if (!field.refers_to) continue;
            // A part may take the place of another part, which is nobody's owner.
            if (field.name == "replaces_id") continue;
            EXPECT_LT(*field.refers_to, table.kind) << table.word;
        }
    }
}

/// The table of `tests/core/sheets/part_b_test.cpp` says of every field of a build record where it
/// lives; what it says of records must be so.
TEST_F(RecordTablesTest, HoldEveryFieldOfABuildRecordThatIsNotMeasured) {
    std::ifstream file(std::string(RODWAY_TEST_DATA) + "/part_b.txt");
    int found = 0;
    for (std::string word; file >> word;) {
        // "...|record KIND.FIELD, record KIND.FIELD"; the head of the file explains it in capitals.
        if (!word.ends_with("record") || !(file >> word) || word.starts_with("KIND")) continue;
        if (word.back() == ',') word.pop_back();
        const std::size_t dot = word.find('.');
        ASSERT_NE(dot, std::string::npos) << word;
        const auto known = record_kind_from(word.substr(0, dot));
        ASSERT_TRUE(known.has_value()) << word;
        EXPECT_NE(find_field(table_of(*known), word.substr(dot + 1)), nullptr) << word;
        ++found;
    }
    EXPECT_GE(found, 40);
}

} // namespace
} // namespace rodway
