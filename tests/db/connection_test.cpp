#include "db/connection.h"

#include <filesystem>

#include "db/build_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using namespace std::chrono_literals;

class ConnectionAloneTest : public ShopTest {
  protected:
    ConnectionAloneTest() : path_(in_folder("shop.rodway")) {}
    std::string path_;
};

TEST_F(ConnectionAloneTest, KeepsOthersOutAndHasTheActsOfTheLog) {
    {
        ShopFile shop = new_shop();
        take(apply(shop, edits_to_create(sample_build(1)), "Dee", noon));
        EXPECT_EQ(take(shop.connection().single("PRAGMA journal_mode")).toString(), "wal");
        const auto alone = Connection::open_alone(path_, 0ms);
        ASSERT_FALSE(alone.ok());
        EXPECT_EQ(alone.error().code, ErrorCode::locked_file);
        take(apply(shop, edits_to_create(sample_build(2)), "Dee", noon));
    }
    {
        Connection alone = take(Connection::open_alone(path_, 0ms));
        EXPECT_EQ(take(alone.single("SELECT count(*) FROM builds")).toInt(), 2);
        EXPECT_FALSE(std::filesystem::exists(path_ + "-wal"));
        const auto other = ShopFile::open(path_, 0ms);
        ASSERT_FALSE(other.ok());
        EXPECT_EQ(other.error().code, ErrorCode::locked_file);
    }
    EXPECT_TRUE(ShopFile::open(path_, 0ms).ok());
}

} // namespace
} // namespace rodway
