#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/demo_plan.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

class HistoryCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] static QJsonObject answer(const QStringList& arguments, int exit_code = 0) {
        const Ran ran = run(arguments + QStringList{"--json"});
        EXPECT_EQ(ran.exit_code, exit_code) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    /// Ticked steps of the build as it stood.
    [[nodiscard]] int ticked(const QStringList& as_of) const {
        const QJsonObject record = answer(QStringList{"build-record", shop_, "Halden V8"} + as_of);
        int count = 0;
        for (const QJsonValue& row : record["records"].toArray()) {
            count +=
                row["kind"] == "step" && row["fields"].toObject().contains("ticked_by") ? 1 : 0;
        }
        return count;
    }

    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(HistoryCommandsTest, TellWhatWasDoneAndWhatItStoodLikeOnADate) {
    const QJsonObject history = answer({"history", shop_, "Halden V8"});
    const QJsonArray acts = history["acts"].toArray();
    // The demo makes the build, ticks steps of 12 stages, a stage a day, and takes two readings.
    ASSERT_EQ(acts.size(), 15);
    EXPECT_EQ(acts.at(1)["who"], "MH");
    EXPECT_EQ(acts.at(1)["edits"].toArray().at(0)["kind"], "step");
    EXPECT_EQ(history["head"].toString().size(), 64);
    EXPECT_TRUE(run({"history", shop_, "1"}).output.contains(history["head"].toString()));
    // The demo was made today and ticks steps on days in the past: they count from its making on.
    const int all = steps_before("complete_build", "clearance_walked");
    EXPECT_EQ(ticked({}), all);
    EXPECT_EQ(ticked({"--as-of", "2026-01-01"}), 0);
    EXPECT_EQ(ticked({"--as-of", "2999-01-01"}), all);
    EXPECT_EQ(run({"build-record", shop_, "1", "--as-of", "last week"}).exit_code, 3);
}

TEST_F(HistoryCommandsTest, KnowAHeadOfTheHistoryAndNoOther) {
    const QString head = answer({"history", shop_, "2"})["head"].toString();
    EXPECT_EQ(answer({"check-head", shop_, "2", head})["act"].toInt(),
              answer({"history", shop_, "2"})["acts"].toArray().last()["act"].toInt());
    EXPECT_TRUE(answer({"check-head", shop_, "1", head}, 4)["act"].isNull());
}

TEST_F(HistoryCommandsTest, EraseACustomerEverywhereAndNameTheBackupsThatStillHoldHim) {
    const auto stands = [this](const QByteArray& name) {
        for (const QString& file : QDir(folder_.path()).entryList(QDir::Files)) {
            QFile bytes(folder_.filePath(file));
            EXPECT_TRUE(bytes.open(QIODevice::ReadOnly));
            if (bytes.readAll().contains(name)) return true;
        }
        return false;
    };
    ASSERT_EQ(
        run({"add-customer", shop_, "Ada Brandvold", "--phone", "0 55 12 777", "--build", "1"})
            .exit_code,
        0);
    ASSERT_EQ(answer({"customers", shop_})["customers"].toArray().size(), 1);
    ASSERT_EQ(run({"back-up", shop_}).exit_code, 0);
    ASSERT_TRUE(stands("Brandvold"));

    const QJsonObject erased = answer({"erase-customer", shop_, "1"});
    EXPECT_TRUE(erased["file_cleared"].toBool());
    EXPECT_EQ(erased["builds"].toArray(), QJsonArray{1});
    ASSERT_EQ(erased["copies_that_still_hold_it"].toArray().size(), 1);
    EXPECT_FALSE(stands("Brandvold"));
    EXPECT_FALSE(stands("0 55 12 777"));
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
    EXPECT_TRUE(run({"customers", shop_}).output.contains("erased"));

    const QString backup = erased["copies_that_still_hold_it"].toArray().at(0).toString();
    EXPECT_TRUE(QFile::exists(backup));
    EXPECT_TRUE(
        answer({"erase-customer", shop_, "1", "--delete-backups"})["copies_that_still_hold_it"]
            .toArray()
            .isEmpty());
    EXPECT_FALSE(QFile::exists(backup));
    EXPECT_EQ(run({"erase-customer", shop_, "9"}).exit_code, 3);
}

TEST_F(HistoryCommandsTest, LinkNoCustomerToABuildThatIsNotThere) {
    const Ran ran = run({"add-customer", shop_, "Nobody", "--build", "Blue pickup"});
    EXPECT_NE(ran.exit_code, 0);
    EXPECT_TRUE(answer({"customers", shop_})["customers"].toArray().isEmpty());
}

} // namespace
} // namespace rodway::tests
