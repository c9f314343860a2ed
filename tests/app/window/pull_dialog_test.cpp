#include "app/sheets/pull_dialog.h"

#include <QLabel>
#include <QPushButton>

#include "app/sheets/sheets_page.h"
#include "tests/app/window/place_test.h"

namespace rodway {
namespace {

class PullDialogTest : public PlaceTest {
  protected:
    void SetUp() override {
        PlaceTest::SetUp();
        go_to("Sheets");
    }
    QPushButton& button() { return *window_->findChild<QPushButton*>("import_pull"); }
    void import(const QString& file, bool keep, QString* said = nullptr) {
        in_dialog<PullDialog>([&] { button().click(); },
                              [&](PullDialog& dialog) {
                                  dialog.choose(file);
                                  if (said) {
                                      *said = dialog.findChild<QLabel*>("pull_answer")->text();
                                  }
                                  if (keep) {
                                      dialog.accept();
                                  }
                              });
    }
    const QString file_ = QStringLiteral(RODWAY_RESOURCES "/demo/v8-pull-1.csv");
};

TEST_F(PullDialogTest, TheButtonStandsOnTheDynoSheetAlone) {
    window_->sheets().open_kind("lash");
    EXPECT_FALSE(button().isVisible());
    window_->sheets().open_kind("dyno_pull");
    EXPECT_TRUE(button().isVisible());
}

TEST_F(PullDialogTest, ShowsWhatItReadAndKeepsItAsOneActThatUndoTakesBack) {
    window_->sheets().open_kind("dyno_pull");
    const std::size_t before = all<Reading>().size();
    QString said;
    import(file_, false, &said);
    EXPECT_TRUE(said.contains("7 rows, 3000 to 6000 rpm")) << said.toStdString();
    EXPECT_TRUE(said.contains("396.3 lb-ft at 4500 rpm")) << said.toStdString();
    EXPECT_EQ(all<Reading>().size(), before); // it was only looked at
    import(file_, true);
    const std::size_t kept = all<Reading>().size();
    EXPECT_GT(kept, before + 7);
    undo();
    EXPECT_EQ(all<Reading>().size(), before);
    redo();
    EXPECT_EQ(all<Reading>().size(), kept);
}

TEST_F(PullDialogTest, WhatIsNoPullIsRefusedWithWhyAndNothingIsKept) {
    window_->sheets().open_kind("dyno_pull");
    const std::size_t before = all<Reading>().size();
    const QString wrong = folder_.filePath("wrong.csv");
    QFile file(wrong);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write("rpm,Torque (lb-ft)\n3000,366.2\n2500,380.4\n");
    file.close();
    for (const QString& bad : {wrong, folder_.filePath("missing.csv")}) {
        QString said;
        in_dialog<PullDialog>([&] { button().click(); },
                              [&](PullDialog& dialog) {
                                  dialog.choose(bad);
                                  said = dialog.findChild<QLabel*>("pull_answer")->text();
                                  EXPECT_FALSE(dialog.pull());
                              });
        EXPECT_FALSE(said.isEmpty());
        EXPECT_FALSE(said.contains("rows,")) << said.toStdString();
    }
    EXPECT_EQ(all<Reading>().size(), before);
}

} // namespace
} // namespace rodway
