#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QSettings>
#include <QTemporaryDir>

#include "app/window/main_window.h"
#include "db/build_records.h"
#include "db/build_store.h"
#include "db/reading_store.h"

namespace rodway {
namespace {

/// The real window on a demo shop, its first build open.
class BuildFolderWindowTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        QSettings().clear();
        window_ = std::make_unique<MainWindow>();
        ASSERT_TRUE(window_->make_shop(path("one.rodway"), true));
        window_->open_build(1);
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    ShopFile& shop() { return window_->session()->shop(); }

    QTemporaryDir folder_;
    std::unique_ptr<MainWindow> window_;
};

TEST_F(BuildFolderWindowTest, AWholeBuildGoesOutOfOneShopAndIntoAnotherAndOpensThere) {
    const auto before = readings(shop(), 1);
    ASSERT_TRUE(before.ok());
    ASSERT_FALSE(before->empty());
    window_->export_build_folder(path("halden"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
    ASSERT_TRUE(window_->make_shop(path("two.rodway"), false));
    EXPECT_TRUE(load_builds(shop())->empty());
    window_->import_build_folder(path("halden"));
    EXPECT_TRUE(window_->complaint().isEmpty()) << window_->complaint().toStdString();
    const auto builds = load_builds(shop());
    ASSERT_EQ(builds->size(), 1u);
    EXPECT_EQ(builds->front().name, "Halden V8");
    const auto after = readings(shop(), builds->front().id);
    ASSERT_EQ(after->size(), before->size());
    for (std::size_t which = 0; which < before->size(); ++which) {
        EXPECT_EQ((*after)[which].position, (*before)[which].position);
        EXPECT_EQ((*after)[which].text, (*before)[which].text);
    }
    // It is the build in hand now.
    window_->export_readings(path("readings.csv"));
    QFile csv(path("readings.csv"));
    ASSERT_TRUE(csv.open(QIODevice::ReadOnly));
    EXPECT_TRUE(csv.readAll().contains(QByteArray::fromStdString(before->front().text)));
}

TEST_F(BuildFolderWindowTest, WhatStandsThereIsNeverReplacedAndWhatIsNoBuildTakesNothingIn) {
    ASSERT_TRUE(QDir().mkpath(path("there/inside")));
    window_->export_build_folder(path("there"));
    EXPECT_FALSE(window_->complaint().isEmpty());
    EXPECT_TRUE(QDir(path("there/inside")).exists());
    EXPECT_EQ(QDir(path("there")).entryList(QDir::NoDotAndDotDot | QDir::AllEntries).size(), 1);
    window_->say({});
    window_->import_build_folder(path("there"));
    EXPECT_TRUE(window_->complaint().contains("Nothing was taken in"));
    QFile broken(path("there/build.json"));
    ASSERT_TRUE(broken.open(QIODevice::WriteOnly));
    broken.write("{\"format\": \"rodway-build\", \"version\": 1");
    broken.close();
    window_->say({});
    window_->import_build_folder(path("there"));
    EXPECT_TRUE(window_->complaint().contains("Nothing was taken in"));
    EXPECT_EQ(load_builds(shop())->size(), 3u);
}

} // namespace
} // namespace rodway
