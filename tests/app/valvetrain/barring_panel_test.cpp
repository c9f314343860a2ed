#include "app/valvetrain/barring_panel.h"

#include <QDoubleSpinBox>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

#include "app/words/barring_words.h"
#include "app/words/clearance_words.h"
#include "app/words/lengths.h"
#include "tests/app/program.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

/// The panel beside the command line's own answers from the same shop file.
class BarringPanelTest : public ValvetrainTest {
  protected:
    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Barring over");
    }
    QTableWidget& table() { return child<QTableWidget>("barring"); }
    void task(const QString& name) { child<QComboBox>("barring_task").setCurrentText(name); }
    [[nodiscard]] QJsonObject command(const QString& name, const QStringList& more = {}) {
        const auto ran =
            tests::run(QStringList{name, folder_.filePath("shop.rodway"), "1", "--json"} + more);
        return QJsonDocument::fromJson(ran.output.toUtf8()).object();
    }
    static QString valves(const QJsonValue& names) {
        QStringList list;
        for (const QJsonValue& name : names.toArray()) {
            list << name.toString();
        }
        return list.join(", ");
    }
    /// The rows' crank angles are those of the stops, and the way there is what turns to them.
    void expect_stops(const QJsonArray& stops, const char* crank_key) {
        ASSERT_EQ(table().rowCount(), stops.size());
        const int crank = table().columnCount() - 2;
        for (int row = 0; row < stops.size(); ++row) {
            const double at = stops[row].toObject()[crank_key].toDouble();
            EXPECT_EQ(cell(table(), row, crank), words::crank_degrees(at));
            double turn = at - model().crank().in_deg();
            turn += turn < -0.05 ? 720.0 : 0.0;
            EXPECT_EQ(cell(table(), row, crank + 1),
                      turn < 0.05 ? QString("here") : words::crank_degrees(turn));
        }
    }
    void stand_at(double deg) {
        model().set_crank(CrankAngle::deg(deg));
        QTest::mouseClick(&child<QPushButton>("barring_start"), Qt::LeftButton);
    }
};

TEST_F(BarringPanelTest, FullLiftOrderIsTheCommandsAndEnterTurnsThere) {
    task("Order of full lift");
    stand_at(100.0);
    const QJsonArray stops = command("full-lift-order", {"--from", "100"})["stops"].toArray();
    ASSERT_GT(stops.size(), 7);
    expect_stops(stops, "crank_deg");
    for (int row = 0; row < stops.size(); ++row) {
        EXPECT_EQ(cell(table(), row, 0), valves(stops[row].toObject()["valves"]));
    }
    table().setFocus();
    table().setCurrentCell(3, 0);
    EXPECT_TRUE(text("barring_turn").contains("clockwise seen from the front"));
    QTest::keyClick(&table(), Qt::Key_Return);
    EXPECT_NEAR(model().crank().in_deg(), stops[3].toObject()["crank_deg"].toDouble(), 1e-9);
    const QString valve = valves(stops[3].toObject()["valves"]).section(", ", 0, 0);
    EXPECT_EQ(position_name(*model().selected()), valve.toStdString());
    EXPECT_EQ(cell(table(), 3, table().columnCount() - 1), "here") << "the list stays as it was";
    EXPECT_TRUE(table().item(3, 0)->font().bold());
    EXPECT_FALSE(table().item(2, 0)->font().bold());
}

TEST_F(BarringPanelTest, LashByBothWaysIsTheCommands) {
    task("Lash: EO/IC");
    stand_at(37.0);
    const QJsonArray steps = command("lash-walk", {"--from", "37"})["steps"].toArray();
    ASSERT_GT(steps.size(), 7);
    expect_stops(steps, "crank_deg");
    for (int row = 0; row < steps.size(); ++row) {
        const QJsonObject step = steps[row].toObject();
        EXPECT_TRUE(cell(table(), row, 0).startsWith(step["seen"].toString()));
        EXPECT_EQ(cell(table(), row, 1), valves(step["set"]));
    }
    task("Lash: fewest stops");
    stand_at(37.0);
    const QJsonArray stops = command("lash-stops", {"--from", "37"})["stops"].toArray();
    ASSERT_GE(stops.size(), 2);
    expect_stops(stops, "crank_deg");
    for (int row = 0; row < stops.size(); ++row) {
        EXPECT_EQ(cell(table(), row, 0), valves(stops[row].toObject()["set"]));
    }
    // A wider margin takes more stops, or other ones.
    child<QDoubleSpinBox>("barring_margin").setValue(60.0);
    expect_stops(command("lash-stops", {"--from", "37", "--margin", "60"})["stops"].toArray(),
                 "crank_deg");
}

TEST_F(BarringPanelTest, ShaftsAreLoosenedWhereTheCommandSays) {
    task("Loosen a rocker shaft");
    const QJsonArray shafts = command("shaft-windows")["shafts"].toArray();
    ASSERT_EQ(shafts.size(), 2);
    int row = 0;
    for (const QJsonValue& shaft : shafts) {
        const QJsonArray windows = shaft.toObject()["windows"].toArray();
        for (int at = 0; at < std::min(3, static_cast<int>(windows.size())); ++at, ++row) {
            const QJsonObject window = windows[at].toObject();
            EXPECT_TRUE(cell(table(), row, 0).contains(shaft.toObject()["bank"].toString()));
            EXPECT_EQ(cell(table(), row, 3),
                      words::crank_degrees(window["best_crank_deg"].toDouble()));
            EXPECT_TRUE(cell(table(), row, 2)
                            .contains(QString("piston %1 ").arg(window["nearest_piston"].toInt())));
            EXPECT_EQ(cell(table(), row, 2).contains("NOT OUT OF THE WAY"),
                      !window["pistons_clear"].toBool());
            const QString load =
                QString::number(std::round(window["load_at_best_lbf"].toDouble()), 'f', 0);
            EXPECT_TRUE(cell(table(), row, 2).contains(load + " lbf")) << row;
        }
    }
    EXPECT_EQ(table().rowCount(), row);
}

// At four angles: open, shut and which lash may be set, all as the commands say.
TEST_F(BarringPanelTest, OpenNowFollowsTheCrank) {
    task("Open now");
    for (const int deg : {0, 90, 250, 500}) {
        model().set_crank(CrankAngle::deg(deg));
        const QJsonArray open = command("open-valves", {QString::number(deg)})["valves"].toArray();
        const QJsonArray lash = command("lash-now", {QString::number(deg)})["valves"].toArray();
        ASSERT_EQ(table().rowCount(), lash.size());
        for (int row = 0; row < table().rowCount(); ++row) {
            const QJsonObject set = lash[row].toObject();
            ASSERT_EQ(cell(table(), row, 0), set["valve"].toString());
            for (const QJsonValue& each : open) {
                if (each.toObject()["valve"] == set["valve"]) {
                    const double lift = each.toObject()["valve_lift_in"].toDouble() * 25.4;
                    EXPECT_EQ(cell(table(), row, 1).contains("OPEN " + words::inches(lift)),
                              each.toObject()["open"].toBool())
                        << deg << cell(table(), row, 0).toStdString();
                }
            }
            EXPECT_EQ(cell(table(), row, 2).startsWith("now"), set["may_set_now"].toBool());
        }
    }
}

} // namespace
} // namespace rodway
