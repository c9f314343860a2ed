#include "app/valvetrain/readings_panel.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QPlainTextEdit>

#include "app/words/lengths.h"
#include "core/clearance/gap_at.h"
#include "core/clearance/passage_pose.h"
#include "core/clearance/train_surroundings.h"
#include "tests/app/program.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

/// Somebody at the bench feels the gaps of a tube that stands elsewhere than its set-up says.
class ReadingsPanelTest : public ValvetrainTest {
  protected:
    const ValvePosition valve_{5, ValveKind::exhaust, 1};

    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Readings and fit");
        click_valve(valve_);
    }
    ReadingsPanel& panel() { return *page().findChild<ReadingsPanel*>(); }
    QTableWidget& table() { return child<QTableWidget>("gap_readings"); }
    QString outcome() { return child<QPlainTextEdit>("fit_outcome").toPlainText(); }
    void wait() {
        ASSERT_TRUE(QTest::qWaitFor([&] { return !panel().busy(); }, patience_ms));
    }
    /// Types one reading as a person does: place, clock, Enter, what was felt, Enter.
    void feel(int turn, int end, const QString& clock, const QString& felt) {
        child<QComboBox>("gap_turn").setCurrentIndex(turn);
        child<QComboBox>("gap_end").setCurrentIndex(end);
        type(panel(), "gap_clock", clock);
        QTest::keyClick(&child<QLineEdit>("gap_clock"), Qt::Key_Return);
        type(panel(), "gap_felt", felt);
        QTest::keyClick(&child<QLineEdit>("gap_felt"), Qt::Key_Return);
    }
    /// The gap that a gauge finds there, in thousandths, with the tube at a pose.
    [[nodiscard]] double gap_thou(const PassagePose& pose, bool full, BoreEnd end, double clock) {
        const Engine engine = engine_of_shop();
        const Train& train = *engine.train(valve_);
        const auto linkage = Linkage::close(train).linkage;
        const double lobe = full ? engine.lobes(valve_).lobe.full_lift_mm() : 0.0;
        const auto stands = linkage->at(lobe);
        const Bore bore = at_pose(*engine.tube_in_place(train), pose);
        const RodPlace rod{stands->lower_ball_K, stands->upper_ball_K, train.rod.diameter_mm / 2.0};
        return *gap_at(bore, rod, end, clock) / 0.0254;
    }
    /// Feels it with gauges a thousandth apart, at both ends, on the heel and at full lift.
    void feel_all_round(const PassagePose& pose) {
        for (const bool full : {false, true}) {
            for (const int end : {0, 1}) {
                for (const int clock : {12, 3, 6, 9}) {
                    const double thou =
                        gap_thou(pose, full, end == 0 ? BoreEnd::top : BoreEnd::bottom, clock);
                    const int goes = static_cast<int>(std::floor(thou));
                    feel(full ? 1 : 0, end, QString::number(clock),
                         QString(".%1 goes .%2 no")
                             .arg(goes, 3, 10, QChar('0'))
                             .arg(goes + 1, 3, 10, QChar('0')));
                }
            }
        }
        wait();
    }
};

TEST_F(ReadingsPanelTest, ReadingsAreKeptAsTypedAndTheFitIsTheCommands) {
    const PassagePose moved{0.35, -0.25, 0.002, 0.003};
    const std::size_t before = all<Reading>().size();
    feel_all_round(moved);
    ASSERT_EQ(all<Reading>().size(), before + 16);
    EXPECT_EQ(all<Reading>().back().position, "5E/tube/lifter/9/full_lift");
    EXPECT_EQ(all<Reading>().back().set_up_id, set_up().id);
    ASSERT_TRUE(panel().answer().has_value());
    const ReadingFit& fit = panel().answer()->fit;
    ASSERT_EQ(fit.outcome, FitOutcome::fitted);
    // Gauges a thou apart: the place is known to about that.
    EXPECT_NEAR(fit.poses.front().pose.towards_12_mm, moved.towards_12_mm, 0.02);
    EXPECT_NEAR(fit.poses.front().pose.towards_3_mm, moved.towards_3_mm, 0.02);
    EXPECT_EQ(table().rowCount(), 16);

    keep_picture("fit of readings");

    const auto ran = tests::run({"fit", folder_.filePath("shop.rodway"), "1", "5E", "--json"});
    const QJsonObject command = QJsonDocument::fromJson(ran.output.toUtf8()).object();
    const QJsonObject pose = command["poses"].toArray()[0].toObject();
    EXPECT_EQ(command["used"].toArray().size(), 16);
    const QString least = words::inches(pose["minimum_in"].toDouble() * 25.4);
    EXPECT_TRUE(outcome().contains("Least clearance over the turn: " + least))
        << outcome().toStdString();
    EXPECT_TRUE(outcome().contains("Next")) << "which reading would help most";
    for (int row = 0; row < table().rowCount(); ++row) {
        EXPECT_EQ(cell(table(), row, 3), "agrees");
    }
}

TEST_F(ReadingsPanelTest, AWrongReadingIsNamed) {
    feel_all_round({0.2, 0.1, 0.0, 0.0});
    // Taken again with a gauge that is misread by ten thousandths: the later counts.
    const double thou = gap_thou({0.2, 0.1, 0.0, 0.0}, true, BoreEnd::top, 3.0);
    feel(1, 0, "3", QString(".%1").arg(static_cast<int>(thou) + 10, 3, 10, QChar('0')));
    wait();
    const QString said = outcome();
    EXPECT_TRUE(said.contains("isagree") || said.contains("Misses")) << said.toStdString();
    EXPECT_TRUE(said.contains("3 o'clock, at full lift"));
    int off = 0;
    for (int row = 0; row < table().rowCount(); ++row) {
        off += cell(table(), row, 3).startsWith('+') || cell(table(), row, 3).startsWith('-');
    }
    EXPECT_GE(off, 1);
    keep_picture("a wrong reading");
}

TEST_F(ReadingsPanelTest, WhatCantBeReadStaysAsTyped) {
    const std::size_t before = all<Reading>().size();
    for (const auto& [clock, felt] : {std::pair("13:99", ".008"), std::pair("3", "snug"),
                                      std::pair("3", ""), std::pair("", ".008")}) {
        feel(0, 0, clock, felt);
        EXPECT_EQ(child<QLineEdit>("gap_clock").text(), clock);
        EXPECT_EQ(child<QLineEdit>("gap_felt").text(), felt);
        EXPECT_FALSE(panel().findChild<QLabel*>("trouble")->isHidden()) << clock << felt;
    }
    EXPECT_EQ(all<Reading>().size(), before);
}

TEST_F(ReadingsPanelTest, AcceptedTheTubeStandsThereInANewSetUp) {
    const PassagePose moved{0.30, 0.20, 0.0, 0.0};
    feel_all_round(moved);
    const SetUpRecord before = set_up();
    const Bore bore_before = *engine_of_shop().tube_in_place(*engine_of_shop().train(valve_));
    QTest::mouseClick(&child<QPushButton>("fit_accept"), Qt::LeftButton);
    ASSERT_GT(set_up().id, before.id);
    const Engine engine = engine_of_shop();
    const Bore wanted = at_pose(bore_before, moved);
    const Bore found = *engine.tube_in_place(*engine.train(valve_));
    EXPECT_LT((found.centre_K - wanted.centre_K).norm(), 0.03);
    EXPECT_GT((found.centre_K - bore_before.centre_K).norm(), 0.3);
    undo();
    EXPECT_EQ(set_up().id, before.id);
}

TEST_F(ReadingsPanelTest, NothingFeltSaysWhatToDo) {
    EXPECT_TRUE(outcome().contains("feeler or pin gauge"));
    EXPECT_FALSE(child<QPushButton>("fit_accept").isEnabled());
}

// What is felt is of the engine, not of what is being tried on paper.
TEST_F(ReadingsPanelTest, WhileSomethingIsTriedNothingFeltIsKept) {
    try_in("what_if_lifter", "+.050");
    const std::size_t before = all<Reading>().size();
    feel(0, 0, "3", ".020");
    EXPECT_EQ(all<Reading>().size(), before);
    EXPECT_EQ(child<QLineEdit>("gap_felt").text(), ".020");
}

} // namespace
} // namespace rodway
