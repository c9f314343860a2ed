#include "db/backup_names.h"

#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::EndsWith;
using BackupNamesTest = ShopTest;

const BackupTime when = *backup_time_from("2026-03-01T12:00:05Z");

TEST_F(BackupNamesTest, SayShopKindAndTimeAndAreReadBack) {
    EXPECT_EQ(backup_file_name({"shop", BackupKind::dated, when, 1}),
              "shop.backup-2026-03-01T120005Z.rodway");
    for (const char* shop : {"shop", "Müller & Son", "a.backup-b", "50% #3", "x.damaged-y"}) {
        for (const BackupKind kind :
             {BackupKind::dated, BackupKind::before_restore, BackupKind::damaged}) {
            for (const int copy : {1, 2, 10}) {
                const auto name = backup_name_from(backup_file_name({shop, kind, when, copy}));
                ASSERT_TRUE(name.has_value()) << shop;
                EXPECT_EQ(name->shop, shop);
                EXPECT_EQ(name->kind, kind);
                EXPECT_EQ(name->made, when);
                EXPECT_EQ(name->copy, copy);
            }
        }
    }
}

TEST_F(BackupNamesTest, AreLegalOnEverySystemAndSortByTime) {
    const std::string name = backup_file_name({"shop", BackupKind::dated, when, 2});
    EXPECT_EQ(name.find_first_of("<>:\"/\\|?*"), std::string::npos);
    EXPECT_LT(name, backup_file_name({"shop", BackupKind::dated, when + std::chrono::hours(1), 1}));
}

TEST_F(BackupNamesTest, AreNotSeenInOtherNames) {
    for (const char* name :
         {"", "shop.rodway", ".rodway", "shop.backup-v1-2026-03-01.rodway",
          "shop.backup-2026-03-01.rodway", "shop.backup-2026-02-30T120005Z.rodway",
          "shop.backup-2026-03-01T250005Z.rodway", "shop.backup-2026-03-01T120005Z.rodway-wal",
          "shop.backup-2026-03-01T120005Z.rodway.txt", "shop.backup-2026-03-01T120005Z-0.rodway",
          "shop.backup-2026-03-01T120005Z", ".backup-2026-03-01T120005Z.rodway",
          "shop backup-2026-03-01T120005Z.rodway", "shop.backup-2026-03-01T120005Z.rodway\n"}) {
        EXPECT_FALSE(backup_name_from(name)) << name;
    }
}

TEST_F(BackupNamesTest, LieBesideTheShopOrAtAnotherPlace) {
    EXPECT_EQ(backups_folder("/work/shop.rodway"), "/work/shop.backups");
    EXPECT_EQ(backups_folder("/work/shop.rodway", "/mnt/second/"), "/mnt/second/shop.backups");
}

TEST_F(BackupNamesTest, AreNeverTakenTwice) {
    const BackupName name{"shop", BackupKind::damaged, when, 1};
    const std::string folder = folder_.path().toStdString();
    EXPECT_THAT(free_backup_path(folder, name), EndsWith("T120005Z.rodway"));
    write_bytes(in_folder(backup_file_name(name)), "x");
    EXPECT_THAT(free_backup_path(folder, name), EndsWith("T120005Z-2.rodway"));
    // A log alone would be played into a copy of that name.
    write_bytes(in_folder("shop.damaged-2026-03-01T120005Z-2.rodway-wal"), "x");
    EXPECT_THAT(free_backup_path(folder, name), EndsWith("T120005Z-3.rodway"));
}

} // namespace
} // namespace rodway
