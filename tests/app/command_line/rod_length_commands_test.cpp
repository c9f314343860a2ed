#include <gtest/gtest.h>

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QTemporaryDir>
#include <cmath>

#include "tests/app/program.h"

namespace rodway::tests {
namespace {

constexpr const char* v8 = "Halden V8";

/// Rounding of inches to mm and back, and of a JSON number.
constexpr double rounding_in = 1e-9;

QJsonObject json_of(const Ran& ran) {
    EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    return QJsonDocument::fromJson(ran.output.toUtf8()).object();
}

QJsonObject converted(const QStringList& options) {
    return json_of(run(QStringList{"convert-rod-length", "--json"} + options));
}

QJsonObject by(const QJsonObject& answer, const QString& measured) {
    for (const QJsonValue& value : answer["lengths"].toArray()) {
        if (value.toObject()["measured"] == measured) {
            return value.toObject();
        }
    }
    ADD_FAILURE() << measured.toStdString();
    return {};
}

double length_in(const QJsonObject& answer, const QString& measured) {
    return by(answer, measured)["length_in"].toDouble();
}

// Worked by hand: 5/16 balls, tips .15625 beyond their centres; a hole of .140 seats
// √(.15625² - .07²) = .1396927 beyond them. Steps of .050.
TEST(ConvertRodLength, ARodWithTwoBallsByEveryDefinition) {
    const QJsonObject answer =
        converted({"--length", "8.950", "--measured", "overall", "--lower-ball", "5/16",
                   "--upper-ball", "5/16", "--gauge-hole", ".140"});
    EXPECT_EQ(answer["measured"], "overall");
    EXPECT_EQ(answer["lengths"].toArray().size(), 4);
    EXPECT_NEAR(length_in(answer, "overall"), 8.950, rounding_in);
    EXPECT_NEAR(length_in(answer, "centres"), 8.6375, rounding_in);
    EXPECT_NEAR(length_in(answer, "effective"), 8.950, rounding_in);
    EXPECT_NEAR(length_in(answer, "gauge"), 8.6375 + 2.0 * 0.1396927, 1e-7); // its last digit
    const QJsonObject overall = by(answer, "overall");
    EXPECT_NEAR(overall["stocked_shorter_in"].toDouble(), 8.950, rounding_in);
    EXPECT_NEAR(overall["stocked_longer_in"].toDouble(), 8.950, rounding_in);
    const QJsonObject centres = by(answer, "centres");
    EXPECT_NEAR(centres["stocked_shorter_in"].toDouble(), 8.600, rounding_in);
    EXPECT_NEAR(centres["stocked_longer_in"].toDouble(), 8.650, rounding_in);
    EXPECT_NEAR(centres["stocked_nearest_in"].toDouble(), 8.650, rounding_in);
    EXPECT_NEAR(centres["nearest_longer_by_in"].toDouble(), 0.0125, rounding_in);
    EXPECT_TRUE(centres["wants"].isNull());
}

// A 3/8 ball in a cup .150 deep: its bottom lies .1875 below the ball's centre.
TEST(ConvertRodLength, ACupEndsAtItsLipOrItsBottomAndTakesNoGauge) {
    const QJsonObject answer = converted(
        {"--length", "8.000", "--measured", "centres", "--lower-ball", "5/16", "--upper-ball",
         "3/8", "--top-end", "cup", "--cup-depth", ".150", "--gauge-hole", ".140"});
    EXPECT_NEAR(length_in(answer, "overall"), 8.0 + 0.15625 + 0.150 - 0.1875, rounding_in);
    EXPECT_NEAR(length_in(answer, "effective"), 8.0 + 0.15625 - 0.1875, rounding_in);
    EXPECT_TRUE(by(answer, "gauge")["length_in"].isNull());
    EXPECT_EQ(by(answer, "gauge")["wants"], "--top-end");
}

TEST(ConvertRodLength, WhatIsMissingIsNamed) {
    const QJsonObject answer = converted({"--length", "8.000", "--measured", "centres",
                                          "--lower-ball", "5/16", "--upper-ball", "5/16"});
    EXPECT_EQ(by(answer, "gauge")["wants"], "--gauge-hole");
    EXPECT_TRUE(by(answer, "gauge")["stocked_nearest_in"].isNull());
    const Ran ran = run({"convert-rod-length", "--length", "8.950", "--measured", "overall"});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_TRUE(ran.complaints.contains("--lower-ball")) << ran.complaints.toStdString();
}

TEST(ConvertRodLength, WhatIsNoLengthIsRefusedByItsOption) {
    struct Case {
        QStringList changed;
        int exit_code;
        QString named;
    };
    const QStringList good{"--length",     "8.950", "--measured",   "overall",
                           "--lower-ball", "5/16",  "--upper-ball", "5/16"};
    const Case cases[] = {
        {{"--length", "long"}, 3, "--length"},
        {{"--length", "8.9-9.1"}, 3, "--length"},
        {{"--length", "1e400"}, 3, "--length"},
        {{"--length", "nan"}, 3, "--length"},
        {{"--length", ".250"}, 3, "--length"}, // shorter than its two balls
        {{"--length", "90.0"}, 3, "--length"},
        {{"--lower-ball", "5"}, 3, "--lower-ball"}, // inches, thousandths or millimetres?
        {{"--lower-ball", "5.5"}, 3, "--lower-ball"},
        {{"--upper-ball", "0 mm"}, 3, "--upper-ball"},
        {{"--stocked-step", "0.0"}, 3, "--stocked-step"},
        {{"--stocked-step", "many"}, 3, "--stocked-step"},
        {{"--cup-depth", ".150"}, 3, "--cup-depth"}, // of a ball
        {{"--gauge-hole", ".400"}, 3, "--gauge-hole"},
        {{"--measured", "long"}, 2, "--measured"},
        {{"--top-end", "flat"}, 2, "--top-end"},
    };
    for (const Case& known : cases) {
        QStringList options = good;
        const auto at = options.indexOf(known.changed.front());
        if (at >= 0) {
            options[at + 1] = known.changed.back();
        } else {
            options += known.changed;
        }
        const Ran ran = run(QStringList{"convert-rod-length"} + options);
        EXPECT_EQ(ran.exit_code, known.exit_code) << known.changed.join(' ').toStdString();
        EXPECT_TRUE(ran.complaints.contains(known.named)) << ran.complaints.toStdString();
        EXPECT_TRUE(ran.output.isEmpty()) << ran.output.toStdString();
    }
}

TEST(ConvertRodLength, SaysItInBothUnits) {
    const Ran ran = run({"convert-rod-length", "--length", "227.33 mm", "--measured", "overall",
                         "--lower-ball", "5/16", "--upper-ball", "5/16"});
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_TRUE(ran.output.contains("8.950 in (227.33 mm)")) << ran.output.toStdString();
    EXPECT_TRUE(ran.output.contains("8.638 in (219.39 mm)")) << ran.output.toStdString();
    EXPECT_TRUE(ran.output.contains("--gauge-hole")) << ran.output.toStdString();
}

/// A demo shop whose V8 tells its rods' ends.
class RodLengthsTest : public ::testing::Test {
  protected:
    void SetUp() override {
        ASSERT_TRUE(folder_.isValid());
        shop_ = folder_.filePath("shop.rodway");
        ASSERT_EQ(run({"demo", shop_}).exit_code, 0);
    }
    /// Puts these fields into the rods of the V8, those of intake and exhaust alike.
    void give(const QJsonObject& sizes, const QString& only = {}) const {
        const QString file = folder_.filePath("set-up.json");
        ASSERT_EQ(run({"export-set-up", shop_, v8, file, "--replace"}).exit_code, 0);
        QFile opened(file);
        ASSERT_TRUE(opened.open(QIODevice::ReadWrite));
        QJsonObject set_up = QJsonDocument::fromJson(opened.readAll()).object();
        QJsonObject trains = set_up["trains"].toObject();
        for (const QString& name : trains.keys()) {
            if (!only.isEmpty() && name != only) {
                continue;
            }
            QJsonObject train = trains[name].toObject();
            QJsonObject rod = train["rod"].toObject();
            for (const QString& key : sizes.keys()) {
                rod[key] = sizes[key];
                if (key.contains("_length")) {
                    rod.remove("length_in");
                }
            }
            train["rod"] = rod;
            trains[name] = train;
        }
        set_up["trains"] = trains;
        opened.resize(0);
        opened.write(QJsonDocument(set_up).toJson());
        opened.close();
        const Ran ran = run({"import-set-up", shop_, v8, file});
        ASSERT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
    }
    [[nodiscard]] QJsonObject answer(const QStringList& more = {}) const {
        return json_of(run(QStringList{"rod-lengths", shop_, v8, "--json"} + more));
    }
    const QJsonObject two_balls_{{"lower_ball_in", 0.3125}, {"upper_ball_in", 0.3125}};
    QTemporaryDir folder_;
    QString shop_;
};

TEST_F(RodLengthsTest, WithoutTheEndsOnlyCentresAreKnown) {
    const QJsonObject answer = this->answer();
    EXPECT_EQ(answer["measured"], "centres");
    for (const QJsonValue& value : answer["valves"].toArray()) {
        EXPECT_GT(value.toObject()["wanted_in"].toDouble(), 8.0);
        EXPECT_TRUE(value.toObject()["wanted_overall_in"].isNull());
        EXPECT_TRUE(value.toObject()["wanted_gauge_in"].isNull());
    }
    const Ran ran = run({"rod-lengths", shop_, v8, "--measured", "overall"});
    EXPECT_EQ(ran.exit_code, 3);
    EXPECT_TRUE(ran.complaints.contains("trains/1I/rod/lower_ball"))
        << ran.complaints.toStdString();
    EXPECT_EQ(run({"rod-lengths", shop_, v8, "--measured", "long"}).exit_code, 2);
    // On paper the others stand empty, and why is said.
    const Ran paper = run({"rod-lengths", shop_, v8});
    EXPECT_EQ(paper.exit_code, 0);
    EXPECT_TRUE(paper.output.contains("trains/1I/rod/lower_ball")) << paper.output.toStdString();
}

TEST_F(RodLengthsTest, OrdersInTheStockedStepOfTheDefinitionAsked) {
    give(two_balls_);
    const QJsonObject answer = this->answer({"--measured", "overall"});
    EXPECT_EQ(answer["measured"], "overall");
    EXPECT_FALSE(answer["ends_differ"].toBool());
    for (const QJsonValue& value : answer["valves"].toArray()) {
        const QJsonObject valve = value.toObject();
        // Two tips, .15625 each.
        EXPECT_NEAR(valve["wanted_overall_in"].toDouble(), valve["wanted_in"].toDouble() + 0.3125,
                    rounding_in);
        EXPECT_TRUE(valve["wanted_gauge_in"].isNull());
    }
    ASSERT_EQ(answer["from_stock"].toArray().size(), 16);
    for (const QJsonValue& value : answer["from_stock"].toArray()) {
        const QJsonObject order = value.toObject();
        const double length = order["length_in"].toDouble();
        EXPECT_NEAR(length / 0.05, std::round(length / 0.05), 1e-6);
        EXPECT_NEAR(order["centres_in"].toDouble(), length - 0.3125, rounding_in);
        EXPECT_GE(order["shorter_left_in"].toDouble(), -rounding_in);
        EXPECT_GE(order["longer_left_in"].toDouble(), -rounding_in);
    }
    // Between centres the same rods are stocked in other lengths.
    const QJsonObject centres = this->answer();
    EXPECT_NEAR(answer["best_single_in"].toDouble() - centres["best_single_in"].toDouble(), 0.3125,
                rounding_in);
    EXPECT_NEAR(answer["spread_in"].toDouble(), centres["spread_in"].toDouble(), rounding_in);
    const double stocked =
        centres["from_stock"].toArray().first().toObject()["length_in"].toDouble();
    EXPECT_NEAR(stocked / 0.05, std::round(stocked / 0.05), 1e-6);
    EXPECT_TRUE(
        run({"rod-lengths", shop_, v8, "--measured", "overall"}).output.contains("overall"));
}

TEST_F(RodLengthsTest, ARodGivenOverallRunsAsTheSameRodGivenBetweenCentres) {
    const QJsonArray before = json_of(run({"trains", shop_, v8, "--json"}))["valves"].toArray();
    give(two_balls_);
    // The intake of cylinder 1 is 8.97 between centres in the demo.
    give({{"overall_length_in", 9.2825}}, "1I");
    const QJsonArray after = json_of(run({"trains", shop_, v8, "--json"}))["valves"].toArray();
    ASSERT_EQ(before.size(), after.size());
    for (qsizetype at = 0; at < before.size(); ++at) {
        for (const char* key : {"gross_lift_in", "adjuster_in_in", "sweep_width_in"}) {
            EXPECT_NEAR(after[at].toObject()[key].toDouble(), before[at].toObject()[key].toDouble(),
                        rounding_in)
                << key;
        }
    }
}

TEST_F(RodLengthsTest, UnlikeEndsAreSaid) {
    give(two_balls_);
    give({{"upper_ball_in", 0.375}}, "3E");
    const QJsonObject answer = this->answer({"--measured", "overall"});
    EXPECT_TRUE(answer["ends_differ"].toBool());
    for (const QJsonValue& value : answer["from_stock"].toArray()) {
        const QJsonObject order = value.toObject();
        const double beyond = order["valve"] == "3E" ? 0.34375 : 0.3125;
        EXPECT_NEAR(order["length_in"].toDouble() - order["centres_in"].toDouble(), beyond,
                    rounding_in);
    }
}

} // namespace
} // namespace rodway::tests
