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

TEST_F(SheetCommandsTest, SeveralBoxesAreOneCommandAndOneAct) {
    const qsizetype acts = answer({"history", shop_, "1"})["acts"].toArray().size();
    const QJsonObject kept =
        answer({"read", shop_, "1", "lash_hot", "1", ".026/.028", "2I", ".027"});
    const QJsonArray readings = kept["readings"].toArray();
    ASSERT_EQ(readings.size(), 3);
    EXPECT_EQ(readings[1]["position"].toString(), "1E");
    EXPECT_EQ(readings[1]["text"].toString(), ".028");
    EXPECT_EQ(answer({"history", shop_, "1"})["acts"].toArray().size(), acts + 1);
    EXPECT_NEAR(box("lash", "lash_hot", "2I").value("value")["low"].toDouble(), 0.0265 * 25.4,
                1e-9);
    // One that can't be read keeps the others out as well.
    EXPECT_EQ(run({"read", shop_, "1", "lash_cold", "1I", ".018", "1E", "wide"}).exit_code, 3);
    EXPECT_EQ(run({"read", shop_, "1", "lash_cold", "1I", ".018", "1E"}).exit_code, 3);
    EXPECT_TRUE(box("lash", "lash_cold", "1I")["value"].isNull());
}

// 2.4480 in is 62.1792 mm; a tenth of a thousandth is 0.00254 mm, so three decimals tell it. 45
// lb-ft are 61.01 N m (NIST SP 811), to the whole one.
TEST_F(SheetCommandsTest, BothUnitsStandBesideEachOtherWhenAsked) {
    read("main_diameter", "J2", "2.4480");
    read("main_diameter", "J3", "62,18 mm");
    read("fastener_torque", "head left bolt 1 pass 1", "45");
    read("spring_seat_load", "1I", "118-124");
    const QString mains = run({"sheet", shop_, "1", "main_bearings", "--both"}).output;
    EXPECT_TRUE(mains.contains(QString::fromUtf8("= 62.179\u00a0mm"))) << mains.toStdString();
    EXPECT_TRUE(mains.contains(QString::fromUtf8("= 62.18\u00a0mm"))) << mains.toStdString();
    const QString bolts = run({"sheet", shop_, "1", "fasteners", "--both"}).output;
    EXPECT_TRUE(bolts.contains(QString::fromUtf8("= 61\u00a0Nm"))) << bolts.toStdString();
    // 524.9 and 551.6 N.
    const QString springs = run({"sheet", shop_, "1", "springs", "--both"}).output;
    EXPECT_TRUE(springs.contains(QString::fromUtf8("= 525 to 552\u00a0N")))
        << springs.toStdString();
    EXPECT_FALSE(run({"sheet", shop_, "1", "main_bearings"}).output.contains("= 62"));
}

TEST_F(SheetCommandsTest, LinesOfWhichNothingIsKnownCanBeLeftOut) {
    read("main_diameter", "J2", "2.4480");
    const QString all = run({"sheet", shop_, "1", "main_bearings"}).output;
    const QString written = run({"sheet", shop_, "1", "main_bearings", "--written"}).output;
    EXPECT_TRUE(all.contains("[main_bearing_bore]"));
    EXPECT_FALSE(written.contains("[main_bearing_bore]"));
    EXPECT_TRUE(written.contains("[main_diameter]"));
}

TEST_F(SheetCommandsTest, LashAfterTheRunStandsBesideLashAtTheSameHeat) {
    read("lash_hot", "1I", ".026");
    read("lash_cold", "1I", ".018");
    read("lash_cold", "1E", ".020");
    ASSERT_EQ(run({"read", shop_, "1", "lash_after_run", "1I", ".025", "1E", ".026"}).exit_code, 0);
    const auto change = [&](const char* valve) {
        const QJsonObject found = box("start_and_break_in", "lash_change_after_run", valve);
        const QJsonValue range = found["worked_out"];
        return (range["low"].toDouble() + range["high"].toDouble()) / 2.0 / 25.4;
    };
    EXPECT_NEAR(change("1I"), -0.001, 1e-9); // hot goes without saying
    EXPECT_NEAR(change("1E"), 0.006, 1e-9);  // only a cold lash was set
    EXPECT_EQ(box("start_and_break_in", "lash_change_after_run", "1E")["verdict"].toString(),
              "failed");
    read("lash_after_run", "1I", ".022 cold");
    EXPECT_NEAR(change("1I"), 0.004, 1e-9);
}

} // namespace
} // namespace rodway::tests
