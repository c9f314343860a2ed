#include "app/valvetrain/spread_panel.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QSpinBox>

#include "app/first_run/new_build.h"
#include "app/words/lengths.h"
#include "app/words/spread_words.h"
#include "tests/app/program.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class SpreadPanelTest : public ValvetrainTest {
  protected:
    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Spread");
    }
    SpreadPanel& panel() { return *page().findChild<SpreadPanel*>(); }
    QTableWidget& table() { return child<QTableWidget>("spread"); }
    /// The set-up in hand with these inputs and no others.
    void state_inputs(bool any = true) {
        SetUpFields fields = set_up().fields;
        std::erase_if(fields,
                      [](const auto& field) { return field.first.rfind("doubt/inputs/", 0) == 0; });
        if (any) {
            state(fields);
        }
        ASSERT_TRUE(add_set_up(session(), 1, "other doubts", fields).ok());
        ASSERT_TRUE(QTest::qWaitFor(
            [&] {
                return !model().busy() && model().engine()->doubt.inputs.size() == (any ? 2 : 0);
            },
            patience_ms));
    }
    static void state(SetUpFields& fields) {
        fields["doubt/inputs/passage_outboard/size"] = {"0.004", "in"};
        fields["doubt/inputs/passage_outboard/source"] = {"measured", ""};
        fields["doubt/inputs/intake_gasket/size"] = {"0.003", "in"};
        fields["doubt/inputs/intake_gasket/source"] = {"assumed", ""};
    }
    void draw() { QTest::mouseClick(&child<QPushButton>("spread_draw"), Qt::LeftButton); }
};

TEST_F(SpreadPanelTest, WithoutStatedInputsItSaysWhatIsMissing) {
    EXPECT_TRUE(child<QPushButton>("spread_draw").isEnabled()) << "the demo states some";
    state_inputs(false);
    EXPECT_FALSE(child<QPushButton>("spread_draw").isEnabled());
    EXPECT_TRUE(text("spread_about").contains("doubt/inputs"));
    EXPECT_EQ(table().rowCount(), 0);
}

TEST_F(SpreadPanelTest, EveryValvesSpreadIsTheCommands) {
    state_inputs();
    child<QSpinBox>("spread_builds").setValue(300);
    child<QSpinBox>("spread_seed").setValue(11);
    draw();
    ASSERT_TRUE(QTest::qWaitFor([&] { return panel().spread().has_value(); }, patience_ms));
    const auto ran = tests::run({"spread", folder_.filePath("shop.rodway"), "1", "--builds", "300",
                                 "--seed", "11", "--json"});
    const QJsonObject command = QJsonDocument::fromJson(ran.output.toUtf8()).object();
    const QJsonArray valves = command["valves"].toArray();
    ASSERT_EQ(valves.size(), 16);
    ASSERT_EQ(table().rowCount(), 16);
    const auto thou = [](const QJsonValue& in) {
        return words::inches(in.toDouble() * 25.4).remove(" in");
    };
    for (int row = 0; row < 16; ++row) {
        const QJsonObject valve = valves[row].toObject();
        EXPECT_EQ(cell(table(), row, 0), valve["valve"].toString());
        EXPECT_EQ(cell(table(), row, 2), thou(valve["middle_in"]));
        EXPECT_EQ(cell(table(), row, 3),
                  thou(valve["low_in"]) + " to " + thou(valve["high_in"]) + " in");
        EXPECT_EQ(cell(table(), row, 4), words::share(valve["below_limit"].toDouble()));
        EXPECT_LT(valve["low_in"].toDouble(), valve["high_in"].toDouble());
    }
    EXPECT_TRUE(text("spread_about").startsWith("300 builds drawn (seed 11)"));
    keep_picture("spread");
    // What is tried makes other builds: the old ones are gone, not shown as its own.
    try_in("what_if_lifter", "+.020");
    EXPECT_FALSE(panel().spread().has_value());
    EXPECT_EQ(table().rowCount(), 0);
}

// 100,000 builds take minutes: the window is answered meanwhile, sees it go on, and what is done
// when it is stopped is an answer of so many builds.
TEST_F(SpreadPanelTest, LongWorkShowsHowFarItIsAndIsStoppedWithWhatIsDone) {
    state_inputs();
    child<QSpinBox>("spread_builds").setValue(100000);
    draw();
    auto* bar = panel().findChild<QWidget*>("work_bar");
    ASSERT_TRUE(QTest::qWaitFor([&] { return bar->isVisible(); }, patience_ms));
    model().set_crank(CrankAngle::deg(123.0));
    EXPECT_EQ(model().crank().in_deg(), 123.0);
    QTest::qWait(400);
    QTest::mouseClick(bar->findChild<QPushButton*>("stop_work"), Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([&] { return panel().spread().has_value(); }, patience_ms));
    EXPECT_GT(panel().spread()->builds, 0);
    EXPECT_LT(panel().spread()->builds, 100000);
    EXPECT_FALSE(bar->isVisible());
}

} // namespace
} // namespace rodway
