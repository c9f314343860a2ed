#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/plain_user.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

constexpr const char* v8 = "Halden V8";

/// A demo shop that somebody who may not write it uses from a terminal.
class LookOnlyCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        ASSERT_TRUE(mine_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
        set_mode(shop_, 0444);
        set_mode(folder_.path(), 0555);
        set_mode(mine_.path(), 0777);
        before_ = bytes();
    }
    void TearDown() override {
        EXPECT_EQ(bytes(), before_);
        EXPECT_EQ(
            QDir(folder_.path()).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot),
            QStringList("shop.rodway"));
        set_mode(folder_.path(), 0755);
    }
    QByteArray bytes() const {
        QFile file(shop_);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    }

    QTemporaryDir folder_;
    QTemporaryDir mine_;
    QString shop_;
    QByteArray before_;
};

TEST_F(LookOnlyCommandsTest, AnswersAreWhatTheOwnerGetsToo) {
    const QString set_up = mine_.filePath("set-up.json");
    const QString sheet = mine_.filePath("sheet.pdf");
    for (const QStringList& words :
         {QStringList{"builds", shop_, "--json"}, QStringList{"find", shop_, "port", "--json"},
          QStringList{"check", shop_, "--json"}, QStringList{"clearance", shop_, v8, "--json"},
          QStringList{"history", shop_, v8, "--json"}, QStringList{"sheets", shop_, v8, "--json"},
          QStringList{"customers", shop_, "--json"},
          QStringList{"gap-readings", shop_, v8, "--json"},
          QStringList{"export-set-up", shop_, v8, set_up, "--replace"}}) {
        SCOPED_TRACE(words.first().toStdString());
        // Who owns the file may write it where the permissions of his own don't keep him from it.
        set_mode(folder_.path(), 0755);
        set_mode(shop_, 0644);
        const Ran owner = run(words);
        QFile::remove(set_up);
        set_mode(shop_, 0444);
        set_mode(folder_.path(), 0555);
        const PlainUser user;
        const Ran looker = run(words);
        EXPECT_EQ(owner.exit_code, 0) << owner.complaints.toStdString();
        EXPECT_EQ(looker.exit_code, 0) << looker.complaints.toStdString();
        EXPECT_EQ(looker.output.toStdString(), owner.output.toStdString());
        EXPECT_FALSE(looker.output.isEmpty() && !QFile::exists(set_up));
        QFile::remove(set_up);
    }
}

TEST_F(LookOnlyCommandsTest, WhatWouldChangeItIsRefusedAndSaysWhy) {
    const QString set_up = mine_.filePath("set-up.json");
    const PlainUser user;
    ASSERT_EQ(run({"export-set-up", shop_, v8, set_up}).exit_code, 0);
    for (const QStringList& words :
         {QStringList{"add-build", shop_, "Late pickup", "--customer", "R. Marsh", "--engine",
                      "inline six"},
          QStringList{"import-set-up", shop_, v8, set_up}, QStringList{"find", shop_, "--rebuild"},
          QStringList{"add-customer", shop_, "R. Marsh"}}) {
        SCOPED_TRACE(words.first().toStdString());
        const Ran ran = run(words);
        EXPECT_EQ(ran.exit_code, 6) << ran.complaints.toStdString();
        EXPECT_TRUE(ran.complaints.contains("written")) << ran.complaints.toStdString();
    }
}

} // namespace
} // namespace rodway::tests
