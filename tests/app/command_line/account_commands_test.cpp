#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

class AccountCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    QJsonObject answer(const char* command, const QStringList& words = {},
                       int exit_code = 0) const {
        const Ran ran = run(QStringList{command, shop_, "Halden V8", "--json"} + words);
        EXPECT_EQ(ran.exit_code, exit_code) << command << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    [[nodiscard]] QString refusal(const char* command, const QStringList& words) const {
        const Ran ran = run(QStringList{command, shop_, "Halden V8"} + words);
        EXPECT_EQ(ran.exit_code, 3) << command << words.join(' ').toStdString();
        return ran.complaints;
    }

    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(AccountCommandsTest, KeepAnAccountAndWriteItsInvoice) {
    const int line = answer("add-estimate-line", {"Short block", "1,250.50"})["line"].toInt();
    EXPECT_EQ(answer("add-estimate-line", {"Discount", "--", "-12"})["line"].toInt(), line + 1);
    const QJsonObject asked =
        answer("add-extra", {"Line bore", "--amount", "300", "--on", "2026-11-20"});
    const QString bore = QString::number(asked["extra"].toInt());
    const QString cam = QString::number(
        answer("add-extra", {"Roller cam", "--amount", "$1,100", "--on", "2026-11-20"})["extra"]
            .toInt());
    EXPECT_NE(bore, cam);
    answer("answer-extra",
           {bore, "approved", "--whom", "Ada", "--how", "letter", "--on", "2026-11-21"});
    answer("answer-extra",
           {cam, "declined", "--whom", "Ada", "--how", "spoken", "--on", "2026-11-22"});
    answer("add-deposit", {"On ordering", "500", "--on", "2026-11-25"});
    answer("add-hours", {"2:30", "Porting", "--on", "2026-11-26"});
    EXPECT_EQ(answer("invoice-agreed")["lines"].toInt(), 3);
    EXPECT_EQ(answer("invoice-agreed")["lines"].toInt(), 0);

    const QJsonObject account = answer("account");
    EXPECT_EQ(account["format"], "rodway-account");
    EXPECT_EQ(account["sums"]["estimate"], "1238.50");
    EXPECT_EQ(account["sums"]["extras_approved"], "300.00");
    EXPECT_EQ(account["sums"]["extras_declined"], "1100.00");
    EXPECT_EQ(account["sums"]["invoice"], "1538.50");
    EXPECT_EQ(account["sums"]["to_pay"], "1038.50");
    EXPECT_EQ(account["waits_for_answers"], 0);
    EXPECT_EQ(account["invoice"].toArray().at(2)["extra"], asked["extra"]);
    EXPECT_EQ(account["extras"].toArray().at(1)["answer"], "declined");
    EXPECT_EQ(account["extras"].toArray().at(1)["manner"], "spoken");
    EXPECT_EQ(account["deposits"].toArray().at(0)["dated"], "2026-11-25");
    EXPECT_EQ(account["hours"]["minutes"], 150);
    EXPECT_EQ(account["hours"]["by_work"].toArray().at(0)["work"], "Porting");
    EXPECT_TRUE(account["hours"]["by_person"].toArray().at(0)["person"].isNull());

    const QString file = folder_.filePath("invoice.pdf");
    EXPECT_EQ(answer("write-invoice", {file})["to_pay"], "1038.50");
    QFile written(file);
    ASSERT_TRUE(written.open(QIODevice::ReadOnly));
    EXPECT_TRUE(written.readAll().startsWith("%PDF-"));
    const QString said = run({"account", shop_, "1"}).output;
    EXPECT_TRUE(said.contains("To pay: 1,038.50")) << said.toStdString();
    EXPECT_TRUE(said.contains("Roller cam: 1,100.00, declined 22 November 2026 by Ada, spoken"))
        << said.toStdString();
}

TEST_F(AccountCommandsTest, RefuseWhatIsNoAmountNoDayAndNoAnswer) {
    EXPECT_TRUE(refusal("add-estimate-line", {"Heads", "many"}).contains("1,250.50"));
    EXPECT_TRUE(refusal("add-estimate-line", {"", "5"}).contains("Nothing is typed"));
    EXPECT_TRUE(refusal("add-deposit", {"First", "5", "--on", "12/1"}).contains("2026-03-01"));
    EXPECT_TRUE(
        refusal("add-deposit", {"First", "5", "--on", "2999-01-01"}).contains("still to come"));
    EXPECT_TRUE(refusal("add-hours", {"30", "Porting"}).contains("24 hours"));
    EXPECT_TRUE(refusal("add-hours", {"2", "Porting", "--person", "Nobody"}).contains("Nobody"));
    EXPECT_TRUE(
        refusal("answer-extra", {"7", "approved", "--whom", "A", "--how", "letter"}).contains("7"));
    const QString cam = QString::number(answer("add-extra", {"Cam"})["extra"].toInt());
    EXPECT_TRUE(refusal("answer-extra", {cam, "approved"}).contains("whom"));
    EXPECT_EQ(run({"answer-extra", shop_, "1", cam, "perhaps"}).exit_code, 2);
    EXPECT_FALSE(refusal("write-invoice", {folder_.filePath("none.pdf")}).isEmpty());
    EXPECT_FALSE(QFile::exists(folder_.filePath("none.pdf")));
    const QJsonObject account = answer("account");
    EXPECT_TRUE(account["estimate"].toArray().isEmpty());
    EXPECT_TRUE(account["deposits"].toArray().isEmpty());
    EXPECT_EQ(account["hours"]["minutes"], 0);
    EXPECT_EQ(account["waits_for_answers"], 1);
}

} // namespace
} // namespace rodway::tests
