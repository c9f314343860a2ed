#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include "app/first_run/new_build.h"
#include "app/valvetrain/hot_panel.h"
#include "app/valvetrain/motion_panel.h"
#include "app/valvetrain/stated_dialog.h"
#include "app/widgets/typed_form.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "app/words/spring_words.h"
#include "core/units/force.h"
#include "tests/app/program.h"
#include "tests/app/valvetrain/valvetrain_test.h"

// In motion, and Hot and cold: figures of the commands, said of the set-up in hand.

namespace rodway {
namespace {

class EstimatePanelsTest : public ValvetrainTest {
  protected:
    template <typename Panel>
    Panel& worked_out(const char* name) {
        open_panel(name);
        auto& panel = *page().findChild<Panel*>();
        EXPECT_TRUE(QTest::qWaitFor([&] { return !model().busy() && !panel.busy(); }, patience_ms));
        return panel;
    }
    QTableWidget& motion() { return child<QTableWidget>("motion"); }
    QTableWidget& hot() { return child<QTableWidget>("hot"); }
    QJsonObject command(const QString& name) {
        const auto ran = tests::run({name, folder_.filePath("shop.rodway"), "1", "--json"});
        EXPECT_EQ(ran.exit_code, 0) << ran.complaints.toStdString();
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    /// The set-up without what is stated under these sections, as another set-up of the build.
    void leave_out(const std::vector<std::string>& sections) {
        SetUpFields fields = set_up().fields;
        std::erase_if(fields, [&](const auto& field) {
            return std::any_of(sections.begin(), sections.end(), [&](const std::string& section) {
                return field.first.rfind(section, 0) == 0;
            });
        });
        ASSERT_TRUE(add_set_up(session(), 1, "less stated", fields).ok());
        ASSERT_TRUE(QTest::qWaitFor([&] { return !model().busy(); }, patience_ms));
    }
    /// With RODWAY_SHOTS=folder, a dialog as it is.
    static void keep_dialog(StatedDialog& dialog, const QString& name) {
        const QString folder = qEnvironmentVariable("RODWAY_SHOTS");
        if (!folder.isEmpty()) {
            QTest::qWait(100);
            dialog.grab().save(QDir(folder).filePath(name + ".png"));
        }
    }
    void wait_for_rows(QTableWidget& table, int rows) {
        ASSERT_TRUE(QTest::qWaitFor([&] { return table.rowCount() == rows; }, patience_ms));
    }
    static QString thou(const QJsonValue& in) {
        return words::inches(in.toDouble() * 25.4).remove(" in");
    }
    static QString range(const QJsonValue& in) {
        const QString low = thou(in.toArray()[0]);
        const QString high = thou(in.toArray()[1]);
        return low == high ? low : low + " to " + high;
    }
};

TEST_F(EstimatePanelsTest, EveryRodsFiguresInMotionAreTheCommands) {
    worked_out<MotionPanel>("In motion");
    const QJsonArray valves = command("in-motion")["valves"].toArray();
    ASSERT_EQ(valves.size(), 16);
    ASSERT_EQ(motion().rowCount(), 16);
    for (int row = 0; row < 16; ++row) {
        const QJsonObject valve = valves[row].toObject();
        EXPECT_EQ(valve["status"].toString(), "answered");
        EXPECT_EQ(cell(motion(), row, 0), valve["valve"].toString());
        EXPECT_EQ(cell(motion(), row, 1),
                  words::inches(
                      model().lines()[static_cast<std::size_t>(row)].found.minimum->clearance_mm)
                      .remove(" in"));
        const double load_N = Force::lbf(valve["greatest_load_lbf"].toDouble()).in_N();
        EXPECT_EQ(cell(motion(), row, 2), words::spring_load(load_N));
        EXPECT_EQ(cell(motion(), row, 3), thou(valve["bow_most_in"]));
        const double left =
            std::min(valve["open"]["left_in"].toDouble(), valve["shut"]["left_in"].toDouble());
        EXPECT_EQ(cell(motion(), row, 4), thou(left));
        EXPECT_GT(valve["bow_most_in"].toDouble(), valve["bow_at_rest_in"].toDouble());
        EXPECT_NEAR(valve["bow_at_rest_in"].toDouble(), 0.0015, 1e-12); // half of .003
    }
    EXPECT_TRUE(text("motion_about").contains("5500 rpm"));
    EXPECT_TRUE(text("motion_about").contains("estimate"));
    click_valve({3, ValveKind::intake, 1});
    EXPECT_TRUE(text("motion_of_valve").startsWith("3I: "));
    click_valve({2, ValveKind::exhaust, 1});
    EXPECT_TRUE(text("motion_of_valve").startsWith("2E: "));
    keep_picture("motion");
}

TEST_F(EstimatePanelsTest, LashAndClearanceHotAreTheCommands) {
    worked_out<HotPanel>("Hot and cold");
    const QJsonObject answer = command("hot-and-cold");
    const QJsonArray valves = answer["valves"].toArray();
    ASSERT_EQ(valves.size(), 16);
    ASSERT_EQ(hot().rowCount(), 16);
    EXPECT_EQ(answer["parts"].toArray().size(), 11);
    EXPECT_EQ(answer["cold_degC"].toDouble(), 20.0);
    int changed = 0;
    for (int row = 0; row < 16; ++row) {
        const QJsonObject valve = valves[row].toObject();
        EXPECT_EQ(valve["status"].toString(), "answered");
        EXPECT_EQ(cell(hot(), row, 0), valve["valve"].toString());
        EXPECT_EQ(cell(hot(), row, 1), thou(valve["cold_lash_in"]));
        EXPECT_EQ(cell(hot(), row, 2), range(valve["hot_lash_in"]));
        EXPECT_EQ(cell(hot(), row, 3), thou(valve["cold_in"]));
        EXPECT_EQ(cell(hot(), row, 4), range(valve["hot_range_in"]));
        changed += cell(hot(), row, 3) != cell(hot(), row, 4) ? 1 : 0;
    }
    EXPECT_GT(changed, 4);
    EXPECT_TRUE(text("hot_about").contains("estimate"));
    click_valve({3, ValveKind::intake, 1});
    EXPECT_TRUE(text("hot_of_valve").startsWith("3I: Lash set to 0.018 in cold becomes "));
    keep_picture("hot");
}

// What nobody stated is asked for by name, typed into boxes, kept as one act in the units in which
// it was typed, and taken back by one Undo.
TEST_F(EstimatePanelsTest, WhatIsMissingIsNamedStatedAndTakenBack) {
    leave_out({"running/"});
    auto& panel = worked_out<MotionPanel>("In motion");
    EXPECT_TRUE(text("motion_about").startsWith("To be stated first: "));
    EXPECT_TRUE(text("motion_about").contains("wall of the rods (intake, exhaust)"));
    EXPECT_TRUE(text("motion_about").contains("modulus of the rods' metal (intake, exhaust)"));
    EXPECT_EQ(cell(motion(), 0, 4), QString::fromUtf8("–"));
    keep_picture("motion_nothing_stated");
    const SetUpFields before = set_up().fields;
    auto& button = child<QPushButton>("motion_state");
    in_dialog<StatedDialog>([&] { QTest::mouseClick(&button, Qt::LeftButton); },
                            [](StatedDialog& dialog) {
                                keep_dialog(dialog, "motion_dialog");
                                for (const char* kind : {"intake", "exhaust"}) {
                                    const std::string rods = std::string("running/rods/") + kind;
                                    type(dialog, (rods + "/wall").c_str(), ".080");
                                    type(dialog, (rods + "/runout").c_str(), ".003");
                                    type(dialog, (rods + "/modulus").c_str(), "30 lb");
                                }
                                dialog.accept();
                                ASSERT_TRUE(dialog.isVisible());
                                EXPECT_TRUE(dialog.form().trouble().contains("GPa, Mpsi"));
                                EXPECT_EQ(dialog.form().text("running/rods/exhaust/wall"), ".080");
                                for (const char* kind : {"intake", "exhaust"}) {
                                    const std::string rods = std::string("running/rods/") + kind;
                                    type(dialog, (rods + "/modulus").c_str(), "30 Msi");
                                }
                                type(dialog, "running/rods/exhaust/wall", ".5");
                                dialog.accept();
                                ASSERT_TRUE(dialog.isVisible())
                                    << "a wall of more than half the rod";
                                keep_dialog(dialog, "motion_dialog_trouble");
                                type(dialog, "running/rods/exhaust/wall", ".080");
                                dialog.accept();
                                EXPECT_FALSE(dialog.isVisible());
                            });
    EXPECT_EQ(set_up().fields.at("running/rods/intake/modulus"), (TypedValue{"30", "Mpsi"}));
    EXPECT_EQ(set_up().fields.at("running/rods/intake/runout"), (TypedValue{".003", "in"}));
    EXPECT_EQ(set_up().fields.size(), before.size() + 6);
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return !model().busy() && !panel.busy() && !panel.valves().empty() &&
                   panel.valves()[0].least() != nullptr;
        },
        patience_ms));
    EXPECT_TRUE(text("motion_about").contains("Inertia is left out")) << "no masses are stated";
    undo();
    EXPECT_EQ(set_up().fields, before) << "one act";
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return !model().busy() && !panel.busy() &&
                   text("motion_about").startsWith("To be stated first: ");
        },
        patience_ms));
}

TEST_F(EstimatePanelsTest, MetalsAreChosenAndEmptiedBoxesTakeAway) {
    auto& panel = worked_out<HotPanel>("Hot and cold");
    auto& button = child<QPushButton>("hot_state");
    in_dialog<StatedDialog>([&] { QTest::mouseClick(&button, Qt::LeftButton); },
                            [](StatedDialog& dialog) {
                                keep_dialog(dialog, "hot_dialog");
                                auto* rod = dialog.findChild<QComboBox*>("hot/parts/rod/metal");
                                ASSERT_NE(rod, nullptr);
                                EXPECT_EQ(rod->currentText(), "alloy steel");
                                EXPECT_EQ(rod->accessibleName(), "Made of: Pushrod");
                                rod->setCurrentText("titanium alloy");
                                EXPECT_EQ(dialog.form().text("hot/parts/block/temperature"),
                                          "85 °C");
                                type(dialog, "hot/parts/block/temperature", "185 F");
                                dialog.accept();
                                EXPECT_FALSE(dialog.isVisible());
                            });
    EXPECT_EQ(set_up().fields.at("hot/parts/rod/metal").text, "titanium_alloy");
    EXPECT_EQ(set_up().fields.at("hot/parts/block/temperature"), (TypedValue{"185", "degF"}));
    EXPECT_EQ(set_up().fields.at("hot/parts/head/temperature"), (TypedValue{"95", "degC"}))
        << "what wasn't touched stays as it was typed";
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return !model().busy() && !panel.busy() && panel.found() &&
                   panel.found()->parts[7].metal == Metal::titanium_alloy;
        },
        patience_ms));
    in_dialog<StatedDialog>([&] { QTest::mouseClick(&button, Qt::LeftButton); },
                            [](StatedDialog& dialog) {
                                dialog.form().set_text("hot/parts/block/temperature", "");
                                dialog.accept();
                            });
    EXPECT_FALSE(set_up().fields.contains("hot/parts/block/temperature"));
    ASSERT_TRUE(QTest::qWaitFor(
        [&] {
            return !model().busy() && !panel.busy() &&
                   text("hot_about") == "To be stated first: running temperature (block).";
        },
        patience_ms));
    EXPECT_EQ(hot().rowCount(), 0);
    keep_picture("hot_something_missing");
}

// Titanium rods grow less: the lash opens further. What is tried counts too.
TEST_F(EstimatePanelsTest, WhatIsTriedIsWorkedOutAnew) {
    auto& panel = worked_out<MotionPanel>("In motion");
    const double stands_N = *panel.valves()[0].greatest_N;
    const double stands_left = panel.valves()[0].least()->left.clearance_mm;
    try_in("what_if_rod", "+1/16");
    ASSERT_TRUE(QTest::qWaitFor(
        [&] { return !model().busy() && !panel.busy() && !panel.valves().empty(); }, patience_ms));
    EXPECT_EQ(*panel.valves()[0].greatest_N, stands_N);
    EXPECT_LT(panel.valves()[0].least()->left.clearance_mm, stands_left - 0.6);
    EXPECT_GT(*panel.valves()[0].critical_N, 0.0);
}

TEST_F(EstimatePanelsTest, OtherEnginesSayWhatTheyLack) {
    window_->open_build(2);
    go_to("Valvetrain");
    ASSERT_TRUE(
        QTest::qWaitFor([&] { return !model().busy() && model().selected_line(); }, patience_ms));
    worked_out<HotPanel>("Hot and cold");
    EXPECT_TRUE(
        text("hot_about").startsWith("To be stated first: metal (block, head, head gasket, "));
    EXPECT_TRUE(text("hot_about").contains("crank's axis to the deck (row)"));
    EXPECT_EQ(hot().rowCount(), 0);
    EXPECT_TRUE(child<QPushButton>("hot_state").isEnabled());
    worked_out<MotionPanel>("In motion");
    EXPECT_TRUE(text("motion_about").startsWith("To be stated first: "));
    wait_for_rows(motion(), 12);
}

} // namespace
} // namespace rodway
