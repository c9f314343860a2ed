#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

/// A folder with a demo shop and an empty one in it.
class BuildFolderCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = path("shop.rodway");
        other_ = path("other.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
        ASSERT_EQ(run({"demo", other_}).exit_code, 0);
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    [[nodiscard]] QStringList names() const {
        return QDir(folder_.path())
            .entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot, QDir::Name);
    }
    [[nodiscard]] static QByteArray bytes(const QString& name) {
        QFile file(name);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << name.toStdString();
        return file.readAll();
    }
    static QJsonObject answer(const QStringList& arguments) {
        const Ran ran = run(arguments + QStringList{"--json"});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }

    QTemporaryDir folder_;
    QString shop_;
    QString other_;
};

TEST_F(BuildFolderCommandsTest, ABuildGoesToAFolderIntoAnotherShopAndOutAgainAlike) {
    const QJsonObject out = answer({"export-build", shop_, "1", path("a build")});
    EXPECT_EQ(out["format"], "rodway-export-build");
    EXPECT_EQ(out["folder"], path("a build"));
    EXPECT_GT(out["acts"].toInt(), 0);
    EXPECT_GT(out["records"].toInt(), 1);
    const QJsonObject in = answer({"import-build", other_, path("a build"), "--by", "Kim"});
    EXPECT_EQ(in["format"], "rodway-import-build");
    const QString number = QString::number(in["build_number"].toInt());
    EXPECT_GT(in["build_number"].toInt(), 1);
    answer({"export-build", other_, number, path("again")});
    EXPECT_EQ(bytes(path("again/build.json")), bytes(path("a build/build.json")));
    EXPECT_EQ(bytes(path("again/readings.csv")), bytes(path("a build/readings.csv")));
    EXPECT_EQ(run({"check", other_}).exit_code, 0);
    const Ran builds = run({"builds", other_});
    EXPECT_EQ(builds.exit_code, 0);
}

TEST_F(BuildFolderCommandsTest, WhatStandsThereIsLeftAlone) {
    ASSERT_TRUE(QDir(folder_.path()).mkdir("mine"));
    const QStringList before = names();
    const Ran ran = run({"export-build", shop_, "1", path("mine")});
    EXPECT_EQ(ran.exit_code, 6);
    EXPECT_TRUE(ran.complaints.contains("left alone")) << ran.complaints.toStdString();
    EXPECT_EQ(run({"export-build", shop_, "1", path("none/inside")}).exit_code, 6);
    EXPECT_EQ(run({"export-build", shop_, "No such build", path("new")}).exit_code, 3);
    EXPECT_EQ(names(), before);
    EXPECT_TRUE(QDir(path("mine")).isEmpty());

    QFile notes(path("notes.csv"));
    ASSERT_TRUE(notes.open(QIODevice::WriteOnly));
    notes.write("mine");
    notes.close();
    EXPECT_EQ(run({"export-readings", shop_, "1", path("notes.csv")}).exit_code, 6);
    EXPECT_EQ(bytes(path("notes.csv")), "mine");
    EXPECT_EQ(run({"export-readings", shop_, "1", path("notes.csv"), "--replace"}).exit_code, 0);
    EXPECT_TRUE(bytes(path("notes.csv"))
                    .startsWith("\xEF\xBB\xBF"
                                "build,sheet,quantity,"));
}

TEST_F(BuildFolderCommandsTest, AFolderThatIsOffIsRefusedWithItsFieldAndTheShopStays) {
    answer({"export-build", shop_, "1", path("folder")});
    const QByteArray shop = run({"builds", other_, "--json"}).output.toUtf8();
    const QByteArray sound = bytes(path("folder/build.json"));
    const auto refused = [&](const QByteArray& json) {
        QFile file(path("folder/build.json"));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(json);
        file.close();
        return run({"import-build", other_, path("folder")});
    };
    QByteArray newer = sound;
    newer.replace("\"version\": 1", "\"version\": 2");
    EXPECT_EQ(refused(newer).exit_code, 4);
    QByteArray named = sound;
    named.replace("\"field\": \"name\"", "\"field\": \"nam\"");
    const Ran ran = refused(named);
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_TRUE(ran.complaints.contains("nam")) << ran.complaints.toStdString();
    EXPECT_EQ(refused(sound.left(sound.size() / 2)).exit_code, 3);
    ASSERT_TRUE(QFile::remove(path("folder/build.json")));
    EXPECT_EQ(run({"import-build", other_, path("folder")}).exit_code, 6);
    EXPECT_EQ(run({"builds", other_, "--json"}).output.toUtf8(), shop);
}

} // namespace
} // namespace rodway::tests
