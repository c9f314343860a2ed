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

// builder-needs F1 row 3, a public forum page: 20-60/60-20 is 260 degrees; 5 advanced 25-55/65-15.
TEST_F(EngineCommandsTest, ReadsACardAndMovesIt) {
    const Ran ran = run({"read-card", "20-60/60-20", "--advance", "5", "--json"});
    ASSERT_EQ(ran.exit_code, 0);
    const QJsonObject answer = QJsonDocument::fromJson(ran.output.toUtf8()).object();
    EXPECT_DOUBLE_EQ(answer["card"].toObject()["intake_duration_crank_deg"].toDouble(), 260.0);
    const QJsonObject moved = answer["moved"].toObject();
    EXPECT_DOUBLE_EQ(moved["intake_opens_btdc_crank_deg"].toDouble(), 25.0);
    EXPECT_DOUBLE_EQ(moved["intake_closes_abdc_crank_deg"].toDouble(), 55.0);
    EXPECT_DOUBLE_EQ(moved["exhaust_opens_bbdc_crank_deg"].toDouble(), 65.0);
    EXPECT_DOUBLE_EQ(moved["exhaust_closes_atdc_crank_deg"].toDouble(), 15.0);
    EXPECT_EQ(run({"read-card", "20-60/60"}).exit_code, 3);
}

// The stop's marks are builder-needs F1 row 5's, a magazine's page: the wheel is 1.25 degrees off.
TEST_F(EngineCommandsTest, DegreeingTakesTheWheelsErrorOff) {
    const QJsonObject answer = this->answer(
        "degree-in", {"--stop", "19.5 ATDC", "--stop", "22 BTDC", "--reading",
                      "1I=22.2 BTDC,54.2 ABDC", "--reading", "1E=61.6 BBDC,22.1 ATDC"});
    EXPECT_NEAR(answer["true_top_dead_centre_mark_deg"].toDouble(), -1.25, 1e-12);
    // The marks are the set-up's own events to a tenth: all that is off is the wheel.
    for (const QJsonValue& value : answer["valves"].toArray()) {
        EXPECT_NEAR(value.toObject()["advance_crank_deg"].toDouble(), -1.25, 0.1);
    }
    EXPECT_EQ(run({"degree-in", shop_, v8, "--stop", "19.5 ATDC", "--stop", "22 BTDC", "--reading",
                   "1I=here,there"})
                  .exit_code,
              3);
}

TEST_F(EngineCommandsTest, TimingAnswersAsTheTradeWritesIt) {
    const QJsonObject answer = this->answer("timing", {"--at", ".050"});
    EXPECT_TRUE(answer["all_alike"].toBool());
    for (const QJsonValue& value : answer["cylinders"].toArray()) {
        const QJsonObject intake = value.toObject()["intake"].toObject();
        // Intake duration is opening + 180 + closing: the notation's own arithmetic.
        EXPECT_NEAR(intake["duration_crank_deg"].toDouble(),
                    intake["opens_before_dead_centre_crank_deg"].toDouble() + 180.0 +
                        intake["closes_after_dead_centre_crank_deg"].toDouble(),
                    1e-9);
    }
    EXPECT_EQ(run({"timing", shop_, v8, "--at", "much"}).exit_code, 3);
    EXPECT_EQ(run({"timing", shop_, v8, "--at", ".390"}).exit_code, 5) << "above the lobe";
}

TEST_F(EngineCommandsTest, AdvancingTheCamTakesFromTheIntakesRoomAndGivesToTheExhausts) {
    const QJsonArray valves = answer("piston-to-valve", {"--advance", "4"})["valves"].toArray();
    ASSERT_EQ(valves.size(), 2);
    for (const QJsonValue& value : valves) {
        const QJsonObject valve = value.toObject();
        const double gained = valve["moved"].toObject()["least_in"].toDouble() -
                              valve["present"].toObject()["least_in"].toDouble();
        EXPECT_GT(valve["valve"] == "1I" ? -gained : gained, 0.010);
    }
}

TEST_F(EngineCommandsTest, EveryValveIsSetOnceAtTheStops) {
    for (const auto& [command, list] :
         {std::pair{"lash-stops", "stops"}, std::pair{"lash-walk", "steps"}}) {
        QStringList set;
        double turned = 0.0;
        for (const QJsonValue& value : answer(command)[list].toArray()) {
            turned += value.toObject()["turn_deg"].toDouble();
            for (const QJsonValue& valve : value.toObject()["set"].toArray()) {
                set << valve.toString();
            }
        }
        EXPECT_EQ(set.size(), 16) << command;
        set.removeDuplicates();
        EXPECT_EQ(set.size(), 16) << command;
        EXPECT_LT(turned, 720.0) << command;
    }
    EXPECT_EQ(run({"lash-now", shop_, v8, "nan"}).exit_code, 2);
}

TEST_F(EngineCommandsTest, ShaftWindowsKnowTheSpringsAndFullLiftNamesEveryValve) {
    const QJsonArray shafts = answer("shaft-windows")["shafts"].toArray();
    ASSERT_EQ(shafts.size(), 2);
    for (const QJsonValue& shaft : shafts) {
        const QJsonObject best = shaft.toObject()["windows"].toArray().first().toObject();
        EXPECT_GT(best["load_at_best_lbf"].toDouble(), 0.0);
        EXPECT_LE(best["load_at_best_lbf"].toDouble(), best["peak_load_lbf"].toDouble());
    }
    int valves = 0;
    for (const QJsonValue& stop : answer("full-lift-order")["stops"].toArray()) {
        valves += static_cast<int>(stop.toObject()["valves"].toArray().size());
    }
    EXPECT_EQ(valves, 16);
}

} // namespace
} // namespace rodway::tests
