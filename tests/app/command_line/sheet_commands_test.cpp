#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

class SheetCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] static QJsonObject answer(const QStringList& arguments) {
        const Ran ran = run(arguments + QStringList{"--json"});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    void read(const QString& quantity, const QString& position, const QString& text) const {
        const Ran ran = run({"read", shop_, "Halden V8", quantity, position, text});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    }
    [[nodiscard]] QJsonObject box(const QString& sheet, const QString& quantity,
                                  const QString& position) const {
        const QJsonObject whole = answer({"sheet", shop_, "Halden V8", sheet});
        for (const QJsonValue& line : whole["lines"].toArray()) {
            for (const QJsonValue& one : line["boxes"].toArray()) {
                if (line["quantity"] == quantity && one["position"] == position) {
                    return one.toObject();
                }
            }
        }
        return {};
    }

    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(SheetCommandsTest, ReadingsMakeAClearanceThatIsJudgedByWhoeverSetTheLimit) {
    read("main_diameter", "main 2", "2.4480");
    read("main_bearing_bore", "J2", "2.4505");
    const QJsonObject clearance = box("main_bearings", "main_clearance", "J2");
    EXPECT_NEAR(clearance["worked_out"]["low"].toDouble(), 0.0024 * 25.4, 1e-9);
    EXPECT_NEAR(clearance["worked_out"]["high"].toDouble(), 0.0026 * 25.4, 1e-9);
    EXPECT_EQ(clearance["verdict"].toString(), "passed");
    EXPECT_TRUE(clearance["limit"]["common_practice"].toBool());
    ASSERT_EQ(run({"set-limit", shop_, "1", "main_clearance", "--low", ".0030", "--source",
                   "the bearing's maker"})
                  .exit_code,
              0);
    const QJsonObject judged = box("main_bearings", "main_clearance", "J2");
    EXPECT_EQ(judged["verdict"].toString(), "failed");
    EXPECT_EQ(judged["limit"]["source"].toString(), "the bearing's maker");
    const Ran shown = run({"sheet", shop_, "1", "main_bearings"});
    EXPECT_TRUE(shown.output.contains("Outside the limit")) << shown.output.toStdString();
    // The other builds of the shop have their own limits.
    EXPECT_FALSE(run({"sheet", shop_, "2", "main_bearings"}).output.contains("bearing's maker"));
}

TEST_F(SheetCommandsTest, WhatCannotBeReadIsRefusedAndNothingIsKept) {
    for (const QStringList& wrong :
         {QStringList{"main_diameter", "J2", "wide"},
          QStringList{"main_diameter", "roof", "2.4480"},
          QStringList{"no_such_thing", "J2", "2.4480"}, QStringList{"main_diameter", "J2", " "}}) {
        EXPECT_EQ(run(QStringList{"read", shop_, "1"} + wrong).exit_code, 3)
            << wrong.join(' ').toStdString();
    }
    EXPECT_EQ(run({"sheet", shop_, "1", "no_such_sheet"}).exit_code, 3);
    EXPECT_EQ(run({"set-limit", shop_, "1", "main_clearance", "--low", ".004", "--high", ".002",
                   "--source", "me"})
                  .exit_code,
              3);
    const QJsonObject whole = answer({"sheet", shop_, "1", "main_bearings"});
    EXPECT_EQ(whole["filled"].toInt(), 0);
}

TEST_F(SheetCommandsTest, EverySheetIsListedWithHowItStands) {
    read("main_diameter", "J2", "2.4480");
    const QJsonArray sheets = answer({"sheets", shop_, "1"})["sheets"].toArray();
    EXPECT_GE(sheets.size(), 37);
    int filled = 0;
    for (const QJsonValue& sheet : sheets) {
        EXPECT_FALSE(sheet["title"].toString().isEmpty());
        if (sheet["sheet"] == "main_bearings") {
            filled = sheet["filled"].toInt();
        }
    }
    EXPECT_EQ(filled, 1);
}

TEST_F(SheetCommandsTest, AnOwnSheetIsAddedReadAndPrinted) {
    ASSERT_EQ(
        run({"add-sheet", shop_, "Waffles", "--line", "Height; length; mm; cylinder"}).exit_code,
        0);
    read("own_waffles_height", "3", "1,25");
    const QJsonObject height = box("own_waffles", "own_waffles_height", "3");
    EXPECT_NEAR(height["value"]["low"].toDouble(), 1.245, 1e-9);
    EXPECT_EQ(run({"add-sheet", shop_, "Bad", "--line", "Height; length; psi; cylinder"}).exit_code,
              3);
    EXPECT_EQ(run({"add-sheet", shop_, "Bad", "--line", "Height"}).exit_code, 3);
    const QString file = folder_.filePath("waffles.pdf");
    EXPECT_EQ(run({"print-sheet", shop_, "1", "own_waffles", file}).exit_code, 0);
    EXPECT_TRUE(QFile::exists(file));
    EXPECT_NE(run({"print-sheet", shop_, "1", "own_waffles", file}).exit_code, 0);
    EXPECT_EQ(run({"print-sheet", shop_, "1", "own_waffles", file, "--replace"}).exit_code, 0);
}

} // namespace
} // namespace rodway::tests
