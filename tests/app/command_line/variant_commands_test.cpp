#include <cmath>

#include "tests/app/command_line/demo_engine.h"

namespace rodway::tests {
namespace {

// Two searches' bounds, each at most 0.001 mm.
constexpr double bounds_in = 0.002 / 25.4;
// Rounding of doubles alone.
constexpr double rounding = 1e-12;

class VariantCommandsTest : public DemoEngine {
  protected:
    [[nodiscard]] QJsonObject compare(const QStringList& variants, int exit_code = 0) const {
        QStringList more;
        for (const QString& variant : variants) {
            more << "--variant" << variant;
        }
        return answer("compare", more, exit_code);
    }
    /// One valve by one variant.
    [[nodiscard]] static QJsonObject cell(const QJsonObject& compared, const QString& valve_name,
                                          const QString& variant) {
        for (const QJsonValue& value : valve(compared, valve_name)["by_variant"].toArray()) {
            if (value.toObject()["name"] == variant) {
                return value.toObject();
            }
        }
        ADD_FAILURE() << "no variant " << variant.toStdString();
        return {};
    }
    [[nodiscard]] static QJsonObject what_if(const QJsonObject& compared, int variant = 0) {
        return compared["variants"].toArray()[variant].toObject()["what_if"].toObject();
    }
    void expect_refused(const QString& variant, const QString& word) const {
        const Ran ran = command("compare", {"--variant", variant});
        EXPECT_EQ(ran.exit_code, 3) << variant.toStdString();
        EXPECT_TRUE(ran.complaints.contains(word))
            << word.toStdString() << " not in: " << ran.complaints.toStdString();
        EXPECT_TRUE(ran.output.isEmpty()) << ran.output.toStdString();
    }
};

// The same question asked of `clearance`, one variant at a time.
TEST_F(VariantCommandsTest, EachVariantIsTheWhatIfThatClearanceAnswers) {
    const QJsonObject compared =
        compare({"thin: gasket=-.015", "tall, thick: lifter=+.020, rod-diameter=+.010"});
    EXPECT_EQ(compared["format"], "rodway-compare");
    EXPECT_DOUBLE_EQ(compared["limit_in"].toDouble(), 0.010);
    const QJsonObject stands = answer("clearance");
    const QJsonObject thin = answer("clearance", {"--gasket-thicker", "-.015"});
    const QJsonObject tall =
        answer("clearance", {"--lifter-taller", ".020", "--rod-thicker", ".010"});
    ASSERT_EQ(compared["valves"].toArray().size(), 16);
    for (const QJsonValue& value : compared["valves"].toArray()) {
        const QString name = value.toObject()["valve"].toString();
        const QJsonObject as_it_stands = value.toObject()["as_it_stands"].toObject();
        const QJsonObject by_thin = cell(compared, name, "thin");
        const QJsonObject by_tall = cell(compared, name, "tall, thick");
        for (const char* key : {"status", "minimum_in", "doubt_in", "lobe_lift_in", "feature",
                                "wall", "end", "verdict"}) {
            EXPECT_EQ(as_it_stands[key], valve(stands, name)[key]) << key << name.toStdString();
            EXPECT_EQ(by_thin[key], valve(thin, name)[key]) << key << name.toStdString();
            EXPECT_EQ(by_tall[key], valve(tall, name)[key]) << key << name.toStdString();
        }
        EXPECT_NEAR(by_thin["change_in"].toDouble(),
                    by_thin["minimum_in"].toDouble() - as_it_stands["minimum_in"].toDouble(),
                    rounding);
    }
}

// The intake's tubes sink: what is near their outboard wall gains, near their inboard wall loses.
TEST_F(VariantCommandsTest, AThinnerGasketHelpsOneWallAndHurtsTheOther) {
    const QJsonObject compared = compare({"thin: gasket=-.015"});
    EXPECT_EQ(valve(compared, "3I")["as_it_stands"].toObject()["wall"], "inboard");
    EXPECT_LT(cell(compared, "3I", "thin")["change_in"].toDouble(), -0.010);
    EXPECT_EQ(valve(compared, "4I")["as_it_stands"].toObject()["wall"], "outboard");
    EXPECT_GT(cell(compared, "4I", "thin")["change_in"].toDouble(), 0.010);
    EXPECT_EQ(cell(compared, "4E", "thin")["change_in"].toDouble(), 0.0); // in the head
}

TEST_F(VariantCommandsTest, ASizeWithASignIsAChangeAndOneWithoutIsTheNewSize) {
    // The demo's gaskets are .060, its rods 5/16, its lifters 1.750 to the seat, its rods 8.97.
    const QJsonObject compared =
        compare({"changes: gasket=-.015, rod-diameter=+.0625, lifter=-.010",
                 "sizes: gasket=.045, rod-diameter=3/8, lifter=1.740",
                 "metric: gasket=-0,381 mm, rod-diameter=+1,5875 mm; lifter=-0,254 mm"});
    for (int variant = 0; variant < 3; ++variant) {
        const QJsonObject tried = what_if(compared, variant);
        EXPECT_NEAR(tried["rod_thicker_in"].toDouble(), 0.0625, rounding) << variant;
        EXPECT_NEAR(tried["lifter_taller_in"].toDouble(), -0.010, rounding) << variant;
        for (const char* bank : {"left", "right"}) {
            EXPECT_NEAR(tried["gasket_thicker_in"].toObject()[bank].toDouble(), -0.015, rounding)
                << bank << variant;
        }
    }
    const QJsonObject thick = compare({"3/8: rod-diameter=3/8"});
    for (const QJsonValue& value : thick["valves"].toArray()) {
        const QString name = value.toObject()["valve"].toString();
        EXPECT_NEAR(cell(thick, name, "3/8")["change_in"].toDouble(), -0.03125, bounds_in);
    }
}

TEST_F(VariantCommandsTest, EveryWordChangesItsOwnSize) {
    const QStringList words{"rod-length=+.010", "ball-arm=-.020", "lash=+.004",
                            "lobe-lift=+.015",  "ratio=+.03",     "adjuster=+.040"};
    const QStringList keys{"rod_longer_in",     "ball_arm_longer_in", "lash_more_in",
                           "lobe_lift_more_in", "ratio_more",         "adjuster_in_more_in"};
    const QList<double> sizes{0.010, -0.020, 0.004, 0.015, 0.03, 0.040};
    const QJsonObject compared = compare(words);
    for (int at = 0; at < words.size(); ++at) {
        // Without a name a variant is called by its own text.
        EXPECT_EQ(compared["variants"].toArray()[at].toObject()["name"], words[at]);
        for (int key = 0; key < keys.size(); ++key) {
            EXPECT_NEAR(what_if(compared, at)[keys[key]].toDouble(), key == at ? sizes[at] : 0.0,
                        rounding)
                << words[at].toStdString() << keys[key].toStdString();
        }
        double most = 0.0;
        for (const QJsonValue& value : compared["valves"].toArray()) {
            const QString name = value.toObject()["valve"].toString();
            most =
                std::max(most, std::abs(cell(compared, name, words[at])["change_in"].toDouble()));
        }
        EXPECT_GT(most, 1e-5) << words[at].toStdString();
    }
}

TEST_F(VariantCommandsTest, ABanksOwnGasketRulesOverThatOfAll) {
    const QJsonObject compared =
        compare({"a: left-gasket=+.010, gasket=+.005", "b: gasket=+.005; LEFT-gasket=+.010",
                 "c: right-head-gasket=-.006", "d: head-gasket=+.006"});
    for (int variant = 0; variant < 2; ++variant) {
        const QJsonObject gaskets = what_if(compared, variant)["gasket_thicker_in"].toObject();
        EXPECT_NEAR(gaskets["left"].toDouble(), 0.010, rounding);
        EXPECT_NEAR(gaskets["right"].toDouble(), 0.005, rounding);
    }
    const QJsonObject one = what_if(compared, 2)["head_gasket_thicker_in"].toObject();
    EXPECT_EQ(one["left"].toDouble(1.0), 0.0);
    EXPECT_NEAR(one["right"].toDouble(), -0.006, rounding);
    const QJsonObject both = what_if(compared, 3)["head_gasket_thicker_in"].toObject();
    EXPECT_NEAR(both["left"].toDouble(), 0.006, rounding);
    EXPECT_NEAR(both["right"].toDouble(), 0.006, rounding);
}

TEST_F(VariantCommandsTest, SaysWhichValvesFallUnderTheLimit) {
    const QJsonObject compared = compare({"3/8: rod-diameter=3/8", "arm: ball-arm=-.020"});
    EXPECT_EQ(compared["as_it_stands"].toObject()["below_limit"].toArray(), QJsonArray{"3I"});
    EXPECT_EQ(compared["as_it_stands"].toObject()["tightest"], "3I");
    // The shorter arm cures 3I, and nothing else comes under.
    const QJsonObject arm = compared["variants"].toArray()[1].toObject();
    EXPECT_TRUE(arm["below_limit"].toArray().isEmpty());
    EXPECT_EQ(cell(compared, "3I", "arm")["falls_below_limit"].toBool(true), false);
    // On the six it is the other way round.
    const Ran ran =
        run({"compare", shop_, "Merrow six", "--json", "--variant", "arm: ball-arm=-.020"});
    ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    const QJsonObject six = QJsonDocument::fromJson(ran.output.toUtf8()).object();
    const QJsonObject fallen = six["variants"].toArray()[0].toObject();
    EXPECT_EQ(fallen["falls_below_limit"].toArray(), QJsonArray{"4E"});
    EXPECT_EQ(fallen["tightest"], "4E");
    EXPECT_TRUE(cell(six, "4E", "arm")["falls_below_limit"].toBool());
}

TEST_F(VariantCommandsTest, TheTableNamesEveryVariantBesideEveryValve) {
    const Ran ran = command("compare", {"--variant", "slim: gasket=-.015", "--variant",
                                        "50 %1 thick: left-gasket=+.015"});
    ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    // Once where it is said what is tried, once for each valve, once in what it comes to.
    EXPECT_EQ(ran.output.count("slim"), 1 + 16 + 1) << ran.output.toStdString();
    EXPECT_EQ(ran.output.count("50 %1 thick"), 1 + 16 + 1);
    EXPECT_EQ(ran.output.count("as it stands "), 16);
    EXPECT_TRUE(ran.output.contains("left intake gasket -0.015 in, right intake gasket -0.015 in"));
    EXPECT_TRUE(ran.output.contains("50 %1 thick: left intake gasket +0.015 in."));
    EXPECT_TRUE(ran.output.contains("Under the limit of 0.010 in: 3I."));
    EXPECT_TRUE(ran.output.contains("Tightest: 3I"));
    EXPECT_TRUE(ran.output.contains("WHAT IF"));
}

TEST_F(VariantCommandsTest, AValveWithoutAnAnswerSaysSo) {
    const QJsonObject compared = compare({"far: gasket=+.700"}, 5);
    const QJsonObject lost = cell(compared, "7I", "far");
    EXPECT_EQ(lost["status"], "does_not_go_through");
    for (const char* key : {"minimum_in", "change_in", "wall", "end", "feature", "verdict"}) {
        EXPECT_TRUE(lost.contains(key)) << key;
        EXPECT_TRUE(lost[key].isNull()) << key;
    }
    EXPECT_TRUE(compared["variants"].toArray()[0].toObject()["without_answer"].toArray().contains(
        QJsonValue("7I")));
    EXPECT_FALSE(cell(compared, "7E", "far")["minimum_in"].isNull());
    EXPECT_TRUE(
        command("compare", {"--variant", "far: gasket=+.700"}).output.contains("No answer:"));
}

TEST_F(VariantCommandsTest, AWrongWordNamesTheWordsThereAre) {
    for (const char* wrong : {"x: liftr=+.050", "x: lifter +.050", "x: lifter=+.050, rubbish",
                              "x: middle-gasket=+.010", "x: =+.050", "x: lifter=+0, 25 mm"}) {
        expect_refused(wrong, "lifter=");
        expect_refused(wrong, "left-head-gasket=");
    }
    // An engine whose tubes are in its heads has no intake gasket to try.
    const Ran flat = run({"compare", shop_, "Corran flat four", "--variant", "x: gasket=+.010"});
    EXPECT_EQ(flat.exit_code, 3);
    EXPECT_TRUE(flat.complaints.contains("right-head-gasket=")) << flat.complaints.toStdString();
    EXPECT_FALSE(flat.complaints.contains(" gasket="));
}

TEST_F(VariantCommandsTest, WrongSizesAreRefusedWithTheVariantsName) {
    expect_refused("tall: lifter=10", "tall: lifter");
    expect_refused("tall: lifter=+7.0", "tall: trains/1I/lifter/seat_height");
    expect_refused("tall: lifter=", "tall: lifter");
    expect_refused("tall: lifter=.010-.020", "not a range");
    expect_refused("tall: lifter=~+.020", "not a range");
    expect_refused("tall:", "tall");
    expect_refused("twice: lifter=+.010, lifter=+.020", "twice: lifter");
    // Of what isn't of one size, or isn't in the set-up, only a change can be meant.
    expect_refused("open: lash=.020", "sign");
    expect_refused("milled: head-gasket=.040", "sign");
    expect_refused("thick: rod-diameter=+.300", "bore");
    const Ran same =
        command("compare", {"--variant", "a: lifter=+.010", "--variant", "a: lifter=+.020"});
    EXPECT_EQ(same.exit_code, 3);
    EXPECT_EQ(command("compare").exit_code, 2);
    // Each option takes one variant, so that the shop may stand behind it.
    EXPECT_EQ(run({"compare", "--variant", "a: lifter=+.010", shop_, v8}).exit_code, 0);
}

TEST_F(VariantCommandsTest, ClearancesOwnWhatIfIsReadTheSameWay) {
    EXPECT_EQ(command("clearance", {"--lifter-taller", ".010-.020"}).exit_code, 3);
    EXPECT_TRUE(
        command("clearance", {"--rod-thicker", "some"}).complaints.contains("--rod-thicker"));
    const QJsonObject left = answer("clearance", {"--gasket-thicker", ".005", "--gasket-thicker",
                                                  "left=.010"})["what_if"]
                                 .toObject()["gasket_thicker_in"]
                                 .toObject();
    EXPECT_NEAR(left["left"].toDouble(), 0.010, rounding);
    EXPECT_NEAR(left["right"].toDouble(), 0.005, rounding);
    const Ran flat = run({"clearance", shop_, "Corran flat four", "--gasket-thicker", ".010"});
    EXPECT_EQ(flat.exit_code, 3) << "it has no intake gasket";
    EXPECT_TRUE(flat.complaints.contains("flange/gasket")) << flat.complaints.toStdString();
}

} // namespace
} // namespace rodway::tests
