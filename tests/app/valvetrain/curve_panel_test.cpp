#include "app/valvetrain/curve_panel.h"

#include <cmath>

#include "app/valvetrain/survey_pictures.h"
#include "core/clearance/train_surroundings.h"
#include "core/units/length.h"
#include "render/plots/clearance_curve.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class CurvePanelTest : public ValvetrainTest {
  protected:
    void SetUp() override {
        ValvetrainTest::SetUp();
        open_panel("Curve");
    }
    CurvePanel& panel() { return *page().findChild<CurvePanel*>(); }
    std::string drawn() {
        std::string names;
        for (const ValvePosition& valve : panel().valves()) {
            names += position_name(valve) + " ";
        }
        return names;
    }
};

TEST_F(CurvePanelTest, OneValveItsCylinderItsBankSomeOrAll) {
    auto& which = child<QComboBox>("curve_which");
    click_valve({3, ValveKind::intake, 1});
    EXPECT_EQ(drawn(), "3I ");
    which.setCurrentText("Its cylinder");
    EXPECT_EQ(drawn(), "3I 3E ");
    which.setCurrentText("Its bank");
    EXPECT_EQ(drawn(), "1I 1E 3I 3E 5I 5E 7I 7E ");
    which.setCurrentText("All valves");
    EXPECT_EQ(panel().valves().size(), 16U);
    which.setCurrentText("Chosen valves");
    EXPECT_EQ(drawn(), "3I ");
    for (QToolButton* button : panel().findChildren<QToolButton*>()) {
        if (button->text() == "8E") {
            button->setFocus();
            QTest::keyClick(button, Qt::Key_Space);
        }
    }
    EXPECT_EQ(drawn(), "3I 8E ");
    click_valve({2, ValveKind::exhaust, 1});
    EXPECT_EQ(drawn(), "3I 8E ") << "chosen once, they stay";
    which.setCurrentText("This valve");
    EXPECT_EQ(drawn(), "2E ");
}

// Every valve's curve against the core's clearance and lift at the same crank angle.
TEST_F(CurvePanelTest, CurvesAreTheCoresClearances) {
    const Engine engine = engine_of_shop();
    std::vector<ValvePosition> valves;
    for (const Train& train : engine.trains) {
        valves.push_back(train.position);
    }
    const ClearanceCurveContent content = survey_curves(engine, model().lines(), valves);
    ASSERT_EQ(content.clearance.size(), valves.size());
    for (std::size_t at = 0; at < valves.size(); ++at) {
        const auto closed = train_surroundings(engine, engine.trains[at]);
        double least = 1e9;
        for (std::size_t point = 0; point < content.clearance[at].crank_deg.size(); point += 20) {
            const double deg = content.clearance[at].crank_deg[point];
            const double lobe = engine.lobe_lift_mm(valves[at], CrankAngle::deg(deg));
            const auto here = least_clearance_at(*closed->surroundings, lobe);
            EXPECT_DOUBLE_EQ(content.clearance[at].value[point],
                             Length::mm(here->clearance_mm).in_inches());
        }
        for (const double value : content.clearance[at].value) {
            least = std::min(least, value);
        }
        // Drawn every two degrees: no drawn point is below the certified minimum, and one is within
        // a tenth of a thou of it.
        EXPECT_GE(least, content.marks[at].value - 1e-9);
        EXPECT_LE(least, content.marks[at].value + 1e-4);
        EXPECT_DOUBLE_EQ(*content.marks[at].doubt,
                         Length::mm(*model().lines()[at].doubt_mm).in_inches());
    }
    ASSERT_EQ(content.limits.size(), 2U);
    EXPECT_NEAR(content.limits[0].value, 0.010, 1e-12);
    EXPECT_FALSE(content.limits[0].wish);
    EXPECT_NEAR(content.limits[1].value, 0.030, 1e-12);
    EXPECT_TRUE(content.limits[1].wish);
}

TEST_F(CurvePanelTest, AClickOrDragInItTurnsTheCrank) {
    auto& curve = child<ClearanceCurve>("curve");
    QWidget* plot = curve.findChildren<QWidget*>().first();
    const QPoint left(plot->width() / 3, plot->height() / 3);
    const QPoint right(2 * plot->width() / 3, plot->height() / 3);
    QTest::mouseClick(plot, Qt::LeftButton, Qt::NoModifier, left);
    const double at_left = model().crank().in_deg();
    QTest::mousePress(plot, Qt::LeftButton, Qt::NoModifier, left);
    QTest::mouseMove(plot, right);
    const double at_right = model().crank().in_deg();
    QTest::mouseRelease(plot, Qt::LeftButton, Qt::NoModifier, right);
    EXPECT_GT(at_left, 60.0);
    // A third of the plot's width, margins and all: about 280 of 720 degrees.
    EXPECT_NEAR(at_right - at_left, 280.0, 60.0);
    curve.setFocus();
    QTest::keyClick(&curve, Qt::Key_Right);
    EXPECT_NEAR(model().crank().in_deg(), at_right + 1.0, 1e-9);
}

} // namespace
} // namespace rodway
