#include "app/valvetrain/crank_bar.h"

#include <QDoubleSpinBox>
#include <QPushButton>
#include <QSlider>
#include <algorithm>
#include <cmath>
#include <set>

#include "app/valvetrain/survey_pictures.h"
#include "core/barring/full_lift_order.h"
#include "tests/app/valvetrain/valvetrain_test.h"

namespace rodway {
namespace {

class CrankBarTest : public ValvetrainTest {
  protected:
    double crank() { return model().crank().in_deg(); }
    void press(Qt::Key key, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
        QTest::keyClick(&child<QSlider>("crank"), key, modifiers);
    }
};

TEST_F(CrankBarTest, KeysTurnByADegreeOrTenAndRoundTheEndOfTheCycle) {
    model().set_crank(CrankAngle::deg(100.0));
    child<QSlider>("crank").setFocus();
    press(Qt::Key_Right);
    EXPECT_EQ(crank(), 101.0);
    press(Qt::Key_PageUp);
    EXPECT_EQ(crank(), 111.0);
    press(Qt::Key_Left);
    EXPECT_EQ(crank(), 110.0);
    // From anywhere in the page, a box being typed into too.
    auto& box = child<QLineEdit>("what_if_rod");
    box.setFocus();
    QTest::keyClick(&box, Qt::Key_Right, Qt::AltModifier | Qt::ShiftModifier);
    EXPECT_EQ(crank(), 120.0);
    QTest::keyClick(&box, Qt::Key_Left, Qt::AltModifier);
    EXPECT_EQ(crank(), 119.0);
    model().set_crank(CrankAngle::deg(0.5));
    QTest::keyClick(&box, Qt::Key_Left, Qt::AltModifier);
    EXPECT_NEAR(crank(), 719.5, 1e-9);
    EXPECT_NEAR(child<QDoubleSpinBox>("crank_angle").value(), 719.5, 0.051); // its last digit
}

TEST_F(CrankBarTest, AnAngleTypedIsWhereTheCrankStands) {
    auto& angle = child<QDoubleSpinBox>("crank_angle");
    angle.setFocus();
    angle.selectAll();
    QTest::keyClicks(&angle, "431.5");
    QTest::keyClick(&angle, Qt::Key_Return);
    EXPECT_EQ(crank(), 431.5);
}

// Each valve of the engine once, in the order in which it comes to full lift.
TEST_F(CrankBarTest, NextFullLiftWalksTheWholeEngineInItsOrder) {
    const Engine engine = engine_of_shop();
    model().set_crank(CrankAngle::deg(3.0));
    const auto order = full_lift_order(engine, CrankAngle::deg(3.0));
    ASSERT_TRUE(order.ok());
    std::set<ValvePosition> seen;
    for (const FullLiftStop& stop : *order) {
        QTest::mouseClick(&child<QPushButton>("crank_next_full_lift"), Qt::LeftButton);
        EXPECT_NEAR(crank(), stop.at.in_deg(), 1e-9);
        EXPECT_NE(std::find(stop.valves.begin(), stop.valves.end(), *model().selected()),
                  stop.valves.end());
        seen.insert(stop.valves.begin(), stop.valves.end());
    }
    EXPECT_EQ(seen.size(), engine.trains.size());
    press(Qt::Key_F7, Qt::ShiftModifier);
    EXPECT_NEAR(crank(), (*order)[order->size() - 2].at.in_deg(), 1e-9);
}

TEST_F(CrankBarTest, NextLeastComesToEveryRodOnceAndBackAgain) {
    model().set_crank(CrankAngle::deg(1.0));
    std::vector<ValvePosition> walked;
    double turned = 0.0;
    double before = crank();
    for (std::size_t at = 0; at < model().lines().size(); ++at) {
        press(Qt::Key_F8);
        const double turn = std::fmod(crank() - before + 720.0, 720.0);
        turned += turn > 719.9 ? 0.0 : turn; // rods that are tightest together
        before = crank();
        const ValveClearance& line = *model().selected_line();
        EXPECT_NEAR(crank(), angle_of_minimum(*model().engine(), line).in_deg(), 1e-9);
        walked.push_back(line.position);
    }
    EXPECT_EQ(std::set<ValvePosition>(walked.begin(), walked.end()).size(), walked.size());
    EXPECT_LT(turned, 720.0) << "no stop was passed by";
    for (std::size_t at = walked.size() - 1; at-- > 0;) {
        press(Qt::Key_F8, Qt::ShiftModifier);
        EXPECT_EQ(*model().selected(), walked[at]);
    }
}

TEST_F(CrankBarTest, ItTurnsAtTheChosenSpeedUntilStoppedOrOutOfSight) {
    auto& speed = child<QComboBox>("crank_speed");
    const auto turned_in = [&](int deg, int ms) {
        speed.setCurrentIndex(speed.findData(deg));
        model().set_crank(CrankAngle::deg(0.0));
        QElapsedTimer clock;
        press(Qt::Key_F9);
        clock.start();
        QTest::qWait(ms);
        press(Qt::Key_F9);
        const double seconds = static_cast<double>(clock.elapsed()) / 1000.0;
        return crank() / (deg * seconds);
    };
    // Frames are 33 ms: in 600 ms one of them may be missing at either end. A loaded machine draws
    // fewer frames, but each turns as far as the time since the last.
    EXPECT_NEAR(turned_in(30, 600), 1.0, 0.35);
    EXPECT_NEAR(turned_in(360, 600), 1.0, 0.35);
    const double stands = crank();
    QTest::qWait(120);
    EXPECT_EQ(crank(), stands);
    press(Qt::Key_F9);
    go_to("Bench");
    const double hidden = crank();
    QTest::qWait(120);
    EXPECT_EQ(crank(), hidden);
}

} // namespace
} // namespace rodway
