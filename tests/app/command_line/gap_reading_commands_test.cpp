#include <QRegularExpression>
#include <algorithm>
#include <cmath>

#include "core/clearance/certified_minimum.h"
#include "core/clearance/gap_at.h"
#include "core/clearance/passage_pose.h"
#include "db/history.h"
#include "tests/app/command_line/demo_engine.h"
#include "tests/core/demo_set_ups.h"

namespace rodway::tests {
namespace {

constexpr double thou = 0.0254;
constexpr double inch = 25.4;

QJsonObject row(const QJsonArray& rows, int at) {
    EXPECT_LT(at, rows.size());
    return rows[at].toObject();
}

/// The demo's V8 with the port tube of 3I really elsewhere than its set-up says, and gauges from
/// thousandth to thousandth tried in it.
class GapReadingCommandsTest : public DemoEngine {
  protected:
    [[nodiscard]] Ran add(const QString& valve, const QString& text, const QString& end,
                          const QString& clock, const QString& at,
                          const QStringList& more = {}) const {
        return command("add-gap-reading",
                       QStringList{valve, text, "--end", end, "--clock", clock, "--at", at} + more);
    }
    void added(const QString& valve, const QString& text, const QString& end, const QString& clock,
               const QString& at, const QStringList& more = {}) const {
        const Ran ran = add(valve, text, end, clock, at, more);
        ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    }
    [[nodiscard]] QJsonArray kept(const QStringList& more = {}) const {
        return answer("gap-readings", more)["readings"].toArray();
    }
    /// The gauge that goes and the next that doesn't, at the tube's true place.
    [[nodiscard]] QString felt(const QString& end, const QString& clock, const QString& at) const {
        const auto pose = rod_.linkage.at(at == "heel" ? 0.0 : rod_.full_lift_mm);
        const RodPlace rod{pose->lower_ball_K, pose->upper_ball_K, rod_.rod_radius_mm};
        const BoreEnd mouth = end == "rocker" ? BoreEnd::top : BoreEnd::bottom;
        const double gap_mm = clock == "tightest" ? tightest_gap(truth_, rod, mouth)->gap_mm
                                                  : *gap_at(truth_, rod, mouth, clock.toDouble());
        const int step = static_cast<int>(std::floor(gap_mm / thou));
        return QString("%1 thou goes %2 thou no").arg(step).arg(step + 1);
    }
    void add_felt(const QString& end, const QString& clock, const QString& at) const {
        added("3I", felt(end, clock, at), end, clock, at);
    }
    /// Both mouths, on the heel and at full lift: 4 readings for each clock direction.
    void add_everywhere(const QStringList& clocks) const {
        for (const char* at : {"heel", "full"}) {
            for (const char* end : {"rocker", "lifter"}) {
                for (const QString& clock : clocks) {
                    add_felt(end, clock, at);
                }
            }
        }
    }
    [[nodiscard]] double true_minimum_mm() const {
        RodInTube moved = rod_;
        moved.tube = truth_;
        return certified_minimum(moved).minimum->clearance_mm;
    }

    const Engine engine_ = demo_engine("v8-port-tubes");
    const Train& train_ = *engine_.train({3, ValveKind::intake, 1});
    const RodInTube rod_ = *rod_in_tube(engine_, train_)->rod;
    /// Half a millimetre up the bank's +y at the rocker end, and less at the other.
    const PassagePose planted_{0.2, 0.3, 0.002, 0.003};
    const Bore truth_ = at_pose(rod_.tube, planted_);
};

TEST_F(GapReadingCommandsTest, AReadingIsKeptAsTypedInOneActAndTiedToTheSetUpInHand) {
    added("#3 intake", ".008 goes .010 no", "rocker", "3:30", "full", {"--by", "TK"});
    const QJsonArray readings = kept();
    ASSERT_EQ(readings.size(), 1);
    const QJsonObject reading = readings[0].toObject();
    EXPECT_EQ(reading["position"], "3I/tube/rocker/3:30/full_lift");
    EXPECT_EQ(reading["text"], ".008 goes .010 no");
    EXPECT_EQ(reading["unit"], "in");
    EXPECT_EQ(reading["taken_by"], "TK");
    EXPECT_EQ(reading["valve"], "3I");
    EXPECT_EQ(reading["passage"], "tube");
    EXPECT_EQ(reading["end"], "top");
    EXPECT_EQ(reading["clock_hours"].toDouble(), 3.5);
    EXPECT_EQ(reading["at"], "full_lift");
    EXPECT_TRUE(reading["crank_deg"].isNull());
    EXPECT_NEAR(reading["low_in"].toDouble(), 0.008, 1e-12);
    EXPECT_NEAR(reading["high_in"].toDouble(), 0.010, 1e-12);
    EXPECT_EQ(reading["set_up"], "As first mocked up");
    EXPECT_EQ(reading["standing"], "holds");

    auto shop = ShopFile::open(shop_.toStdString());
    ASSERT_TRUE(shop.ok());
    ShopFile file = std::move(shop).value();
    const auto act = load_act(file, *last_act(file));
    ASSERT_TRUE(act.ok());
    EXPECT_EQ(act->who, "TK");
    const RecordRef record{RecordKind::reading, reading["reading"].toInteger()};
    std::vector<std::string> fields;
    for (const Edit& edit : act->edits) {
        EXPECT_EQ(edit.record, record);
        EXPECT_EQ(edit.before, std::nullopt);
        fields.push_back(edit.field);
        if (edit.field == "quantity") {
            EXPECT_EQ(edit.after, "rod_gap");
        }
    }
    EXPECT_EQ(std::count(fields.begin(), fields.end(), "set_up_id"), 1);
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
}

TEST_F(GapReadingCommandsTest, WhatBuildersSayOfAGaugeIsTaken) {
    added("3I", "touch", "lifter", "tightest", "heel");
    added("3I", "tape .006 survived", "lifter", "12", "120.5");
    added("3E", "0,3 goes", "rocker", "6", "840", {"--mm"});
    const QJsonArray all = kept();
    ASSERT_EQ(all.size(), 3);
    EXPECT_EQ(row(all, 0)["low_in"].toDouble(-1.0), 0.0);
    EXPECT_EQ(row(all, 0)["high_in"].toDouble(-1.0), 0.0);
    EXPECT_TRUE(row(all, 0)["clock_hours"].isNull());
    EXPECT_TRUE(row(all, 1)["high_in"].isNull());
    EXPECT_EQ(row(all, 1)["crank_deg"].toDouble(), 120.5);
    EXPECT_EQ(row(all, 2)["unit"], "mm");
    EXPECT_NEAR(row(all, 2)["low_in"].toDouble(), 0.3 / inch, 1e-12);
    EXPECT_EQ(row(all, 2)["crank_deg"].toDouble(), 120.0);
    ASSERT_EQ(kept({"3E"}).size(), 1);
    EXPECT_EQ(row(kept({"3E"}), 0)["valve"], "3E");
    EXPECT_TRUE(kept({"1E"}).isEmpty());
    const Ran shown = command("gap-readings");
    for (const char* words : {"lifter end, tightest place, on the heel: touch (touching)",
                              "lifter end, 12 o'clock, at 120.5° of crank", "holds"}) {
        EXPECT_TRUE(shown.output.contains(words)) << words << "\n" << shown.output.toStdString();
    }
}

TEST_F(GapReadingCommandsTest, WhatCannotBeReadIsRefusedAndNotKept) {
    struct Bad {
        const char *valve, *text, *end, *clock, *at;
        int exit_code;
        const char* word;
    };
    for (const Bad& bad : {Bad{"9I", ".008", "rocker", "3", "heel", 3, "9I"},
                           {"top", ".008", "rocker", "3", "heel", 3, "valve"},
                           {"3I", "snug", "rocker", "3", "heel", 3, "Reading"},
                           {"3I", "", "rocker", "3", "heel", 3, "Reading"},
                           {"3I", "12", "rocker", "3", "heel", 3, "Reading"},
                           {"3I", "2.5", "rocker", "3", "heel", 3, "Reading"},
                           {"3I", ".010 goes .008 no", "rocker", "3", "heel", 3, "Reading"},
                           {"3I", ".008", "upper", "3", "heel", 2, "end"},
                           {"3I", ".008", "rocker", "13", "heel", 3, "3:30"},
                           {"3I", ".008", "rocker", "nan", "heel", 3, "3:30"},
                           {"3I", ".008", "rocker", "3", "half", 3, "crank angle"},
                           {"3I", ".008", "rocker", "3", "nan", 3, "--at"},
                           {"3I", ".008", "rocker", "3", "1e9", 3, "7200"}}) {
        const Ran ran = add(bad.valve, bad.text, bad.end, bad.clock, bad.at);
        EXPECT_EQ(ran.exit_code, bad.exit_code) << bad.text << ran.complaints.toStdString();
        EXPECT_TRUE((ran.complaints + ran.output).contains(bad.word))
            << bad.word << " not in: " << ran.complaints.toStdString();
    }
    const Ran nowhere = add("3I", ".008", "rocker", "3", "heel", {"--passage", "plate"});
    EXPECT_EQ(nowhere.exit_code, 3);
    EXPECT_TRUE(nowhere.complaints.contains("tube")) << "it should say which there are";
    EXPECT_EQ(add("3I", ".008", "rocker", "3", "heel", {"--by", ""}).exit_code, 3);
    EXPECT_EQ(command("add-gap-reading", {"3I", ".008", "--end", "rocker"}).exit_code, 2);
    EXPECT_TRUE(kept().isEmpty());
    EXPECT_EQ(command("gap-readings", {"nobody"}).exit_code, 3);
}

TEST_F(GapReadingCommandsTest, AChangedGasketMakesThemStaleByNameAndOtherSpringsDoNot) {
    added("3I", ".034-.036", "rocker", "3", "heel");
    added("3E", ".020-.022", "rocker", "3", "heel");
    QJsonObject changed = set_up();
    QJsonObject springs = changed["springs"].toObject();
    ASSERT_FALSE(springs.isEmpty());
    QJsonObject intake = springs["intake"].toObject();
    intake["installed_height_in"] = intake["installed_height_in"].toDouble() - 0.010;
    springs["intake"] = intake;
    changed["springs"] = springs;
    take_in(changed);
    EXPECT_EQ(row(kept(), 0)["standing"], "holds");
    // Of the earlier set-up, but as good as taken in the one in hand.
    const QJsonArray used = answer("fit", {"3I"})["used"].toArray();
    ASSERT_EQ(used.size(), 1);
    EXPECT_TRUE(row(used, 0)["of_earlier_set_up"].toBool());

    QJsonObject banks = changed["banks"].toObject();
    QJsonObject bank = banks["left"].toObject();
    QJsonObject flange = bank["flange"].toObject();
    flange["gasket_in"] = flange["gasket_in"].toDouble() + 0.015;
    bank["flange"] = flange;
    banks["left"] = bank;
    changed["banks"] = banks;
    take_in(changed);
    const QJsonArray readings = kept();
    EXPECT_EQ(row(readings, 0)["standing"], "stale");
    EXPECT_EQ(row(readings, 0)["stale_fields"].toArray(), QJsonArray{"banks/left/flange/gasket"});
    EXPECT_EQ(row(readings, 1)["standing"], "holds") << "a tube in the head";
    const QJsonObject fit = answer("fit", {"3I"});
    EXPECT_EQ(fit["outcome"], "no_readings");
    ASSERT_EQ(fit["left_out"].toArray().size(), 1);
    EXPECT_EQ(row(fit["left_out"].toArray(), 0)["standing"], "stale");
    EXPECT_TRUE(command("gap-readings").output.contains("banks/left/flange/gasket"));
}

// No gap is less than the clearance: one felt under the limit settles it, however little it says of
// where the tube stands.
TEST_F(GapReadingCommandsTest, AGapFeltUnderTheLimitFailsWhateverIsLeftOpen) {
    added("3I", ".004 goes .005 no", "lifter", "tightest", "full");
    const QJsonObject fit = answer("fit", {"3I"});
    const QJsonObject pose = fit["poses"].toArray()[0].toObject();
    EXPECT_NEAR(pose["felt_at_most_in"].toDouble(), 0.006, 1e-9); // .005 and twice .0005
    EXPECT_GT(pose["minimum_in"].toDouble() + pose["doubt_in"].toDouble(), 0.010);
    EXPECT_EQ(pose["verdict"].toString(), "fail");
    EXPECT_TRUE(command("fit", {"3I"}).output.contains("no more than 0.006 in"));
    // One that only says that a gauge goes settles nothing.
    added("1I", ".004 goes", "lifter", "tightest", "full");
    const QJsonObject other = answer("fit", {"1I"})["poses"].toArray()[0].toObject();
    EXPECT_TRUE(other["felt_at_most_in"].isNull());
    EXPECT_NE(other["verdict"].toString(), "fail");
}

TEST_F(GapReadingCommandsTest, ALaterReadingAtTheSamePlaceCountsAndSaysSo) {
    added("3I", ".030 goes", "rocker", "3", "heel");
    const Ran again = add("3I", ".040 no", "rocker", "3:00", "heel");
    EXPECT_EQ(again.exit_code, 0);
    EXPECT_TRUE(again.output.contains("in place of reading")) << again.output.toStdString();
    const QJsonArray readings = kept();
    EXPECT_EQ(row(readings, 0)["standing"], "taken_again");
    EXPECT_EQ(row(readings, 0)["taken_again_in"], row(readings, 1)["reading"]);
    EXPECT_EQ(row(readings, 1)["standing"], "holds");
    const QJsonArray used = answer("fit", {"3I"})["used"].toArray();
    ASSERT_EQ(used.size(), 1);
    EXPECT_EQ(row(used, 0)["reading"], row(readings, 1)["reading"]);
}

// Gaps all round from gauges a thousandth apart: the place is found to that step, and the predicted
// minimum within its own doubt of the true one.
TEST_F(GapReadingCommandsTest, TheFitFindsThePlantedPlaceAndKeepsItWhenAsked) {
    const double stated_minimum_in = valve(answer("clearance"), "3I")["minimum_in"].toDouble();
    add_everywhere({"3", "6", "9", "12"});
    const QJsonObject before = set_up();
    const QJsonObject fit = answer("fit", {"3I"});
    EXPECT_EQ(fit["outcome"], "fitted");
    EXPECT_EQ(fit["used"].toArray().size(), 16);
    ASSERT_EQ(fit["poses"].toArray().size(), 1);
    const QJsonObject pose = fit["poses"].toArray()[0].toObject();
    const double half_mm = rod_.tube.length_mm / 2.0;
    const double outboard = engine_.outboard_y_sign(train_);
    const struct {
        const char* key;
        double mm;
    } mouths[] = {
        {"top_forward_in", planted_.towards_12_mm + half_mm * planted_.lean_12_rad},
        {"top_outboard_in", outboard * (planted_.towards_3_mm + half_mm * planted_.lean_3_rad)},
        {"bottom_forward_in", planted_.towards_12_mm - half_mm * planted_.lean_12_rad},
        {"bottom_outboard_in", outboard * (planted_.towards_3_mm - half_mm * planted_.lean_3_rad)}};
    for (const auto& mouth : mouths) {
        EXPECT_NEAR(pose[mouth.key].toDouble(), mouth.mm / inch, 0.001) << mouth.key;
    }
    const double minimum_in = pose["minimum_in"].toDouble();
    EXPECT_NEAR(minimum_in, true_minimum_mm() / inch, pose["place_doubt_in"].toDouble());
    EXPECT_LT(pose["place_doubt_in"].toDouble(), 0.001);
    EXPECT_GT(std::abs(minimum_in - stated_minimum_in), 0.005) << "it should have learnt";
    // The engine's own ± 0.003 is part of the doubt: 0.011 doesn't clear 0.010 for certain.
    EXPECT_GT(pose["doubt_in"].toDouble(), 0.003);
    EXPECT_EQ(pose["verdict"], "too_close_to_call");
    EXPECT_FALSE(fit["next_reading"].isNull());
    // Not written unless asked for.
    EXPECT_TRUE(fit["kept_as"].isNull());
    EXPECT_EQ(set_up(), before);

    const Ran said = command("fit", {"3I", "--keep"});
    EXPECT_EQ(said.exit_code, 0);
    // +y is inboard on 3I's bank; both mouths moved that way and to the front.
    EXPECT_TRUE(said.output.contains(
        QRegularExpression("Place 1: rocker end 0\\.01\\d in inboard, 0\\.01\\d in to the front;")))
        << said.output.toStdString();
    EXPECT_TRUE(said.output.contains("is now the set-up in hand"));
    QJsonObject after = set_up();
    EXPECT_NE(after, before);
    EXPECT_NEAR(valve(answer("clearance"), "3I")["minimum_in"].toDouble(), minimum_in, 0.00005);
    // What the readings leave open goes with it: the clearance is no surer than the fit was.
    const QJsonObject stands = valve(answer("clearance"), "3I");
    EXPECT_NEAR(stands["doubt_in"].toDouble(), pose["doubt_in"].toDouble(), 0.0001);
    EXPECT_EQ(stands["verdict"], pose["verdict"]);
    // Nothing but the tube's centre and axis, and that.
    QJsonObject trains = after["trains"].toObject();
    QJsonObject train = trains["3I"].toObject();
    QJsonObject tube = train["tube"].toObject();
    const QJsonObject old = before["trains"].toObject()["3I"].toObject()["tube"].toObject();
    for (const char* key : {"centre_in", "axis"}) {
        EXPECT_NE(tube[key], old[key]);
        tube[key] = old[key];
    }
    EXPECT_FALSE(tube.take("fitted_doubt_mm").isUndefined());
    train["tube"] = tube;
    trains["3I"] = train;
    after["trains"] = trains;
    EXPECT_EQ(after, before);
    // The readings have had their say: they must not count a second time.
    for (const QJsonValue& reading : kept()) {
        EXPECT_EQ(reading.toObject()["standing"], "stale");
        for (const QJsonValue& field : reading.toObject()["stale_fields"].toArray()) {
            EXPECT_TRUE(field.toString().startsWith("trains/3I/tube/"));
        }
    }
    const QJsonObject again = answer("fit", {"3I"});
    EXPECT_EQ(again["outcome"], "no_readings");
    EXPECT_NEAR(row(again["poses"].toArray(), 0)["minimum_in"].toDouble(), minimum_in, 0.00005);
    EXPECT_EQ(command("fit", {"3I", "--keep"}).exit_code, 5) << "nothing to keep";
    EXPECT_EQ(run({"check", shop_}).exit_code, 0);
}

// Tightest gaps alone don't say on which side of the rod the tube stands: both places are told, and
// which gap decides; felt there, one is left.
TEST_F(GapReadingCommandsTest, MirroredPlacesAreBothToldAndTheDecidingGapDecides) {
    const QStringList wide{"3I", "--stated-sideways", ".200", "--stated-lean", "2.3"};
    add_everywhere({"tightest"});
    const QJsonObject fit = answer("fit", wide);
    EXPECT_EQ(fit["outcome"], "several_fit");
    EXPECT_FALSE(fit["told_apart_by_readings"].toBool());
    EXPECT_NEAR(fit["stated_sideways_in"].toDouble(), 0.200, 1e-12);
    EXPECT_NEAR(fit["stated_lean_deg"].toDouble(), 2.3, 1e-12);
    ASSERT_EQ(fit["poses"].toArray().size(), 2);
    for (const QJsonValue& pose : fit["poses"].toArray()) {
        EXPECT_EQ(pose.toObject()["gaps"].toArray().size(), 4);
    }
    const QJsonObject next = fit["next_reading"].toObject();
    EXPECT_TRUE(next["decides"].toBool());
    ASSERT_EQ(next["expected_in"].toArray().size(), 2);
    const Ran said = command("fit", wide);
    EXPECT_TRUE(said.output.contains("Next: try a gauge at the")) << said.output.toStdString();
    EXPECT_TRUE(said.output.contains("by place 2"));

    const QString end = next["end"] == "top" ? "rocker" : "lifter";
    const QString clock = QString::number(next["clock_hours"].toInt());
    add_felt(end, clock, next["at"] == "heel" ? "heel" : "full");
    const QJsonObject decided = answer("fit", wide);
    EXPECT_EQ(decided["outcome"], "fitted");
    // The tube's true place at the rocker end; a gauge's step, and what is still weak.
    ASSERT_EQ(decided["poses"].toArray().size(), 1);
    EXPECT_NEAR(row(decided["poses"].toArray(), 0)["minimum_in"].toDouble(),
                true_minimum_mm() / inch, 0.002);
}

TEST_F(GapReadingCommandsTest, AWrongReadingIsNamedAndNothingIsKept) {
    add_everywhere({"3", "6", "9", "12"});
    const double true_in =
        (felt("lifter", "9", "heel").section(' ', 0, 0).toDouble() + 0.5) / 1000.0;
    const int wrong_thou = static_cast<int>(true_in * 1000.0) - 40;
    added("3I", QString("%1 thou goes %2 thou no").arg(wrong_thou).arg(wrong_thou + 1), "lifter",
          "9", "heel");
    const qint64 wrong = row(kept(), 16)["reading"].toInteger();
    const QJsonObject before = set_up();
    const QJsonObject fit = answer("fit", {"3I", "--keep"}, 5);
    EXPECT_EQ(fit["outcome"], "contradicting");
    EXPECT_TRUE(fit["poses"].toArray().isEmpty());
    EXPECT_FALSE(fit["nearest"].isNull());
    EXPECT_TRUE(fit["nearest"].toObject()["verdict"].isNull()) << "no verdict on what doesn't fit";
    ASSERT_FALSE(fit["disagreeing"].toArray().isEmpty());
    const QJsonObject culprit = fit["disagreeing"].toArray()[0].toObject();
    EXPECT_EQ(culprit["reading"].toInteger(), wrong);
    EXPECT_TRUE(culprit["rest_agrees"].toBool());
    EXPECT_NEAR(culprit["expected_in"].toDouble(), true_in, 0.001); // half a step, and the fit's
    EXPECT_NEAR(culprit["off_in"].toDouble(), 0.040, 0.0015);
    EXPECT_TRUE(fit["kept_as"].isNull());
    EXPECT_EQ(set_up(), before);
    const Ran said = command("fit", {"3I"});
    EXPECT_EQ(said.exit_code, 5);
    EXPECT_TRUE(said.output.contains(QString("Disagrees: reading %1").arg(wrong)))
        << said.output.toStdString();
}

TEST_F(GapReadingCommandsTest, ATouchIsContactWhateverIsComputed) {
    added("3I", "touch", "lifter", "3", "full");
    EXPECT_EQ(row(answer("fit", {"3I"})["poses"].toArray(), 0)["verdict"], "contact");
}

TEST_F(GapReadingCommandsTest, WhatTheFitIsToldIsChecked) {
    for (const QStringList& more : {QStringList{"9I"},
                                    {"3I", "--passage", "plate"},
                                    {"3I", "--stated-sideways", "much"},
                                    {"3I", "--stated-sideways", "9.0"},
                                    {"3I", "--stated-sideways", ".010-.020"},
                                    {"3I", "--stated-lean", "nan"},
                                    {"3I", "--stated-lean", "-1"},
                                    {"3I", "--stated-lean", "45"}}) {
        const Ran ran = command("fit", more);
        EXPECT_EQ(ran.exit_code, 3) << more.join(' ').toStdString();
        EXPECT_FALSE(ran.complaints.isEmpty());
    }
}

} // namespace
} // namespace rodway::tests
