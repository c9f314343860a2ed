#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <cmath>
#include <numbers>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

class MotionCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] QJsonObject answer(const QString& command, const QString& build) const {
        const Ran ran = run({command, shop_, build, "--json"});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    void change(const QStringList& fields) const {
        const Ran ran = run(QStringList{"change-set-up", shop_, "Halden V8"} + fields +
                            QStringList{"--by", "MK", "--name", "tried"});
        ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    }
    QTemporaryDir folder_;
    QString shop_;
};

// Euler in pounds and inches for the demo's rods, 5/16 by .080, and the lengths their set-up has.
TEST_F(MotionCommandsTest, TheCriticalLoadIsEulersOfTheRodInHand) {
    const Ran exported =
        run({"export-set-up", shop_, "Halden V8", folder_.filePath("set-up.json")});
    ASSERT_EQ(exported.exit_code, 0);
    QFile file(folder_.filePath("set-up.json"));
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const QJsonObject trains =
        QJsonDocument::fromJson(file.readAll()).object()["trains"].toObject();
    const QJsonObject found = answer("in-motion", "Halden V8");
    EXPECT_EQ(found["crank_rpm"].toDouble(), 5500.0);
    constexpr double pi = std::numbers::pi;
    const double E_psi = 207e9 / 6894.757293168361;
    const double I = pi / 64.0 * (std::pow(0.3125, 4) - std::pow(0.3125 - 0.16, 4));
    for (const QJsonValue& each : found["valves"].toArray()) {
        const QJsonObject valve = each.toObject();
        const double length = trains[valve["valve"].toString()]["rod"]["length_in"].toDouble();
        const double critical = valve["critical_load_lbf"].toDouble();
        EXPECT_NEAR(critical, pi * pi * E_psi * I / (length * length), 1e-6 * critical);
        const double q = valve["greatest_load_lbf"].toDouble() / critical;
        EXPECT_NEAR(valve["bow_most_in"].toDouble(), 0.0015 / (1.0 - q), 1e-9);
    }
}

TEST_F(MotionCommandsTest, AtASpeedTheSpringsCantHoldEveryValveSaysSo) {
    change({"running/speed=15000 rpm", "running/rods/intake/wall=.15 in"});
    for (const QJsonValue& valve : answer("in-motion", "Halden V8")["valves"].toArray()) {
        const QString status = valve["status"].toString();
        EXPECT_TRUE(status == "lifts_off" || status == "buckles") << status.toStdString();
        EXPECT_TRUE(valve["verdict"].isNull() && valve["open"].isNull());
    }
    const Ran said = run({"in-motion", shop_, "Halden V8"});
    EXPECT_EQ(said.exit_code, 0);
    EXPECT_TRUE(said.output.contains("15000 rpm"));
}

TEST_F(MotionCommandsTest, AnEngineOfWhichNothingIsStatedGetsNoFigures) {
    const QJsonObject motion = answer("in-motion", "Merrow six");
    EXPECT_TRUE(motion["crank_rpm"].isNull());
    for (const QJsonValue& valve : motion["valves"].toArray()) {
        EXPECT_EQ(valve["status"].toString(), "not_stated");
        EXPECT_TRUE(valve["greatest_load_lbf"].isNull());
        EXPECT_GE(valve["missing"].toArray().size(), 3);
    }
    const QJsonObject hot = answer("hot-and-cold", "Merrow six");
    EXPECT_TRUE(hot["valves"].toArray().isEmpty());
    EXPECT_TRUE(hot["missing"].toArray().contains("hot/parts/block/metal"));
    const Ran said = run({"hot-and-cold", shop_, "Merrow six"});
    EXPECT_EQ(said.exit_code, 0);
    EXPECT_TRUE(said.output.contains("To be stated first: metal (block, head, head gasket, "));
}

// Everything as warm as when it was measured: hot is cold.
TEST_F(MotionCommandsTest, AnEngineThatDoesntWarmStaysAsItIs) {
    QStringList fields;
    for (const char* part : {"block", "head", "head_gasket", "intake", "intake_gasket", "camshaft",
                             "lifter", "rod", "rocker", "intake_valve", "exhaust_valve"}) {
        fields << QString("hot/parts/%1/temperature=68 degF").arg(part);
    }
    change(fields);
    for (const QJsonValue& each : answer("hot-and-cold", "Halden V8")["valves"].toArray()) {
        const QJsonObject valve = each.toObject();
        EXPECT_NEAR(valve["hot_in"].toDouble(), valve["cold_in"].toDouble(), 1e-9);
        EXPECT_NEAR(valve["hot_lash_in"][0].toDouble(), valve["cold_lash_in"].toDouble(), 1e-9);
        EXPECT_NEAR(valve["hot_lash_in"][1].toDouble(), valve["cold_lash_in"].toDouble(), 1e-9);
    }
}

} // namespace
} // namespace rodway::tests
