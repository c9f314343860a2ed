#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRegularExpression>
#include <QTemporaryDir>

#include "tests/app/demo_plan.h"
#include "tests/app/program.h"

namespace rodway::tests {
namespace {

class PlanCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] QString path(const QString& name) const { return folder_.filePath(name); }
    [[nodiscard]] static QJsonObject answer(const QStringList& arguments) {
        const Ran ran = run(arguments + QStringList{"--json"});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    [[nodiscard]] bool own(const QString& word) const {
        for (const QJsonValue& plan : answer({"plans", shop_})["plans"].toArray()) {
            if (plan["word"] == word) {
                return plan["own"].toBool();
            }
        }
        ADD_FAILURE() << "no plan " << word.toStdString();
        return false;
    }
    static QString contents(const QString& file) {
        QFile read(file);
        EXPECT_TRUE(read.open(QIODevice::ReadOnly));
        return QString::fromUtf8(read.readAll());
    }
    static void write(const QString& file, const QString& text) {
        QFile written(file);
        EXPECT_TRUE(written.open(QIODevice::WriteOnly));
        written.write(text.toUtf8());
    }
    /// A plan's file with one text in the place of another.
    [[nodiscard]] QString edited(const QString& plan, const QString& what, const QString& by) {
        EXPECT_EQ(run({"export-plan", shop_, plan, path("plan.json"), "--replace"}).exit_code, 0);
        QString text = contents(path("plan.json"));
        EXPECT_EQ(text.count(what), 1) << what.toStdString();
        write(path("plan.json"), text.replace(what, by));
        return path("plan.json");
    }

    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(PlanCommandsTest, PlansAreListedAndExportedAsTheyStand) {
    const QJsonArray plans = answer({"plans", shop_})["plans"].toArray();
    ASSERT_EQ(plans.size(), 5);
    EXPECT_EQ(plans[0]["word"], "complete_build");
    EXPECT_EQ(plans[4]["word"], "marine_pair");
    EXPECT_FALSE(plans[0]["own"].toBool());
    EXPECT_TRUE(run({"plans", shop_}).output.contains("valvetrain_mock_up"));
    ASSERT_EQ(run({"export-plan", shop_, "refresh", path("out.json")}).exit_code, 0);
    EXPECT_EQ(contents(path("out.json")), contents(RODWAY_RESOURCES "/stage_plans/refresh.json"));
    // Nothing is written over by oversight.
    EXPECT_NE(run({"export-plan", shop_, "head_work", path("out.json")}).exit_code, 0);
    EXPECT_EQ(run({"export-plan", shop_, "nothing", path("no.json")}).exit_code, 3);
    EXPECT_FALSE(QFile::exists(path("no.json")));
}

TEST_F(PlanCommandsTest, ABuildBeginsWithThePlanThatIsNamed) {
    const auto add = [&](const QString& name, const QStringList& more) {
        return run(
            QStringList{"add-build", shop_, name, "--customer", "O. Lund", "--engine", "Brae 30"} +
            more);
    };
    ASSERT_EQ(add("Heads", {"--plan", "head_work"}).exit_code, 0);
    const QJsonArray builds = answer({"builds", shop_})["builds"].toArray();
    EXPECT_EQ(builds[3]["steps"].toInt(), steps_before("head_work", "closed_up") + 1);
    const Ran wrong = add("None", {"--plan", "headwork"});
    EXPECT_EQ(wrong.exit_code, 3);
    EXPECT_TRUE(wrong.complaints.contains("head_work")) << wrong.complaints.toStdString();
    EXPECT_EQ(answer({"builds", shop_})["builds"].toArray().size(), 4);
}

TEST_F(PlanCommandsTest, AnEditedPlanIsTheShopsOwnAndABadOneIsRefusedWithItsLine) {
    const QString file = edited("refresh", "\"title\": \"Refresh\"", "\"title\": \"Our refresh\"");
    EXPECT_EQ(answer({"import-plan", shop_, file})["word"], "refresh");
    EXPECT_TRUE(own("refresh"));
    EXPECT_TRUE(run({"plans", shop_}).output.contains("Our refresh"));

    const QString bad = edited("refresh", "\"id\": \"bent_rods\"", "\"id\": \"filter_cut\"");
    const Ran refused = run({"import-plan", shop_, bad});
    EXPECT_EQ(refused.exit_code, 3);
    const QStringList lines = contents(bad).split('\n');
    const auto line = lines.lastIndexOf(QRegularExpression(".*\"id\": \"filter_cut\",?")) + 1;
    EXPECT_TRUE(refused.complaints.contains(QString("line %1,").arg(line)))
        << refused.complaints.toStdString();

    EXPECT_EQ(run({"drop-plan", shop_, "refresh"}).exit_code, 0);
    EXPECT_FALSE(own("refresh"));
    EXPECT_EQ(run({"drop-plan", shop_, "refresh"}).exit_code, 3);
}

TEST_F(PlanCommandsTest, ChangesOfAPlanAreShownAndTakenOverOnPurpose) {
    EXPECT_TRUE(answer({"plan-changes", shop_, "Halden V8"})["changes"].toArray().isEmpty());
    const QString file = edited("complete_build", "\"title\": \"Valley leak test\"",
                                "\"title\": \"Valley leak test, twice\"");
    ASSERT_EQ(run({"import-plan", shop_, file}).exit_code, 0);
    const QJsonObject told = answer({"plan-changes", shop_, "Halden V8"});
    ASSERT_EQ(told["changes"].toArray().size(), 1);
    const QJsonObject change = told["changes"].toArray()[0].toObject();
    EXPECT_EQ(change["change"], "changed");
    EXPECT_EQ(change["item"], "step");
    EXPECT_EQ(change["id"], "valley_leak");
    EXPECT_EQ(change["stage"], "final_top_end");
    EXPECT_EQ(change["fields"][0]["before"], "Valley leak test");
    EXPECT_EQ(change["fields"][0]["now"], "Valley leak test, twice");
    EXPECT_FALSE(told["taken"].toBool());
    EXPECT_TRUE(run({"plan-changes", shop_, "1"}).output.contains("Nothing was taken over"));

    EXPECT_EQ(run({"plan-changes", shop_, "1", "--take", "valley"}).exit_code, 3);
    ASSERT_EQ(run({"plan-changes", shop_, "1", "--take", "valley_leak"}).exit_code, 0);
    EXPECT_TRUE(answer({"plan-changes", shop_, "1"})["changes"].toArray().isEmpty());
    EXPECT_TRUE(run({"plan-changes", shop_, "1"}).output.contains("as it is now"));
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
}

} // namespace
} // namespace rodway::tests
