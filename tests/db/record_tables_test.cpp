#include "db/record_tables.h"

#include <map>

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

} // namespace
} // namespace rodway
