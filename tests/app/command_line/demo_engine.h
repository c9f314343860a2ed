#pragma once

#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>

#include "tests/app/program.h"

namespace rodway::tests {

/// The demo shop, and the commands that answer from its V8.
class DemoEngine : public ::testing::Test {
  protected:
    static constexpr const char* v8 = "Halden V8";

    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] Ran command(const QString& name, const QStringList& more = {}) const {
        return run(QStringList{name, shop_, v8} + more);
    }
    [[nodiscard]] QJsonObject answer(const QString& name, const QStringList& more = {},
                                     int exit_code = 0) const {
        const Ran ran = command(name, QStringList{"--json"} + more);
        EXPECT_EQ(ran.exit_code, exit_code) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    /// The object of a list that stands for this valve.
    [[nodiscard]] static QJsonObject valve(const QJsonObject& answer, const QString& name) {
        for (const QJsonValue& value : answer["valves"].toArray()) {
            if (value.toObject()["valve"] == name) {
                return value.toObject();
            }
        }
        ADD_FAILURE() << "no valve " << name.toStdString();
        return {};
    }
    [[nodiscard]] QJsonObject set_up() const {
        const QString file = folder_.filePath("out.json");
        EXPECT_EQ(command("export-set-up", {file, "--replace"}).exit_code, 0);
        QFile opened(file);
        EXPECT_TRUE(opened.open(QIODevice::ReadOnly));
        return QJsonDocument::fromJson(opened.readAll()).object();
    }
    void take_in(const QJsonObject& set_up) const {
        const QString file = folder_.filePath("in.json");
        QFile opened(file);
        ASSERT_TRUE(opened.open(QIODevice::WriteOnly));
        opened.write(QJsonDocument(set_up).toJson());
        opened.close();
        const Ran ran = command("import-set-up", {file});
        ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    }

    QTemporaryDir folder_;
    QString shop_;
};

} // namespace rodway::tests
