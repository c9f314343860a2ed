#include "db/record_tables.h"

#include <fstream>
#include <iterator>
#include <map>
#include <regex>
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
    std::string text((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
    const std::regex home(R"(record ([a-z_]+)\.([a-z_]+))");
    int found = 0;
    for (std::sregex_iterator at(text.begin(), text.end(), home), end; at != end; ++at) {
        const std::string kind = (*at)[1];
        const std::string field = (*at)[2];
        const auto known = record_kind_from(kind);
        ASSERT_TRUE(known.has_value()) << kind;
        EXPECT_NE(find_field(table_of(*known), field), nullptr) << kind << '.' << field;
        ++found;
    }
    EXPECT_GE(found, 40);
}

} // namespace
} // namespace rodway
