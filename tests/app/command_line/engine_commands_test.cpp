#include <gtest/gtest.h>

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <cmath>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

constexpr const char* v8 = "Halden V8";

/// The commands that answer from an engine's trains, on the demo shop.
class EngineCommandsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    [[nodiscard]] QJsonObject answer(const QString& command, const QStringList& more = {}) const {
        const Ran ran = run(QStringList{command, shop_, v8, "--json"} + more);
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(EngineCommandsTest, TrainsGiveNetLiftAsRatioTimesLobeLessLash) {
    const QJsonArray valves = answer("trains")["valves"].toArray();
    ASSERT_EQ(valves.size(), 16);
    for (const QJsonValue& value : valves) {
        const QJsonObject valve = value.toObject();
        const double gross = valve["gross_lift_in"].toDouble();
        EXPECT_NEAR(valve["net_lift_in"].toDouble(), gross - valve["lash_in"].toDouble(), 1e-9);
        // The ratio hardly changes on the way: its mean times the lobe's lift is the gross lift.
        const double mean =
            (valve["ratio_on_heel"].toDouble() + 4.0 * valve["ratio_half_lift"].toDouble() +
             valve["ratio_full_lift"].toDouble()) /
            6.0;
        EXPECT_NEAR(mean * valve["lobe_lift_in"].toDouble(), gross, 0.001);
        EXPECT_GT(valve["sweep_width_in"].toDouble(), 0.0);
        EXPECT_TRUE(valve["cup_room_deg"].isNull()) << "no limit was given";
    }
}

TEST_F(EngineCommandsTest, TurningAScrewInTakesLashAway) {
    const double quarter = answer("turn-adjuster", {"1I", "--turns", "1/4"})["lash_in"].toDouble();
    const double out = answer("turn-adjuster", {"1I", "--turns", "-1/4"})["lash_in"].toDouble();
    // .0125 of screw, about 1.7 times that at the valve.
    EXPECT_NEAR(quarter, 0.018 - 0.0125 * 1.69, 0.001);
    EXPECT_NEAR(out, 0.018 + 0.0125 * 1.69, 0.001);
    EXPECT_EQ(run({"turn-adjuster", shop_, v8, "1I", "--turns", "some"}).exit_code, 3);
    EXPECT_EQ(run({"turn-adjuster", shop_, v8, "9I", "--turns", "1"}).exit_code, 3);
    EXPECT_EQ(run({"turn-adjuster", shop_, v8, "1I", "--turns", "9"}).exit_code, 5)
        << "off its thread";
}

TEST_F(EngineCommandsTest, RodLengthsServeEveryValveFromStock) {
    const QJsonObject found = answer("rod-lengths", {"--stocked-step", ".050"});
    ASSERT_EQ(found["valves"].toArray().size(), 16);
    ASSERT_EQ(found["from_stock"].toArray().size(), 16);
    for (const QJsonValue& value : found["from_stock"].toArray()) {
        const double length = value.toObject()["length_in"].toDouble();
        EXPECT_NEAR(length / 0.05, std::round(length / 0.05), 1e-6);
        EXPECT_GE(value.toObject()["shorter_left_in"].toDouble(), -1e-9);
        EXPECT_GE(value.toObject()["longer_left_in"].toDouble(), -1e-9);
    }
    EXPECT_EQ(run({"rod-lengths", shop_, v8, "--stocked-step", "many"}).exit_code, 3);
}

} // namespace
} // namespace rodway::tests
