#include "core/bottom_end/turning_torque.h"

#include <gtest/gtest.h>

#include "core/units/torque.h"

namespace rodway {
namespace {

using After = AfterFitting;

Interval in_lb(double value, double step = 1.0) {
    return Interval::around(Torque::lbf_in(value).in_Nm(), Torque::lbf_in(step).in_Nm());
}
double inch_pounds(double Nm) {
    return Torque::Nm(Nm).in_lbf_in();
}

/// Invented, in-lb: mains 40, then pistons in this order.
std::vector<TurningReading> assembly(const std::vector<double>& after_pistons) {
    std::vector<TurningReading> readings{{After::mains, {}, in_lb(40)}};
    int cylinder = 1;
    for (const double torque : after_pistons) {
        readings.push_back({After::piston, cylinder++, in_lb(torque)});
    }
    return readings;
}

// By hand: the pistons add 20 21 19 20 45 20 21 20.
TEST(TurningTorque, SaysWhatEachStepAddedAndWhichPistonIsOdd) {
    auto readings = assembly({60, 81, 100, 120, 165, 185, 206, 226});
    readings.push_back({After::cam, {}, in_lb(234)});
    readings.push_back({After::front_cover, {}, in_lb(239)});
    const auto torque = turning_torque(readings);
    ASSERT_TRUE(torque.ok());
    EXPECT_FALSE(torque->steps[0].added_Nm.has_value());
    EXPECT_NEAR(inch_pounds(torque->steps[1].added_Nm->middle()), 20.0, 1e-9);
    EXPECT_NEAR(inch_pounds(torque->steps[1].added_Nm->width()), 2.0, 1e-9);
    EXPECT_NEAR(inch_pounds(torque->steps[5].added_Nm->middle()), 45.0, 1e-9);
    EXPECT_NEAR(inch_pounds(torque->steps[9].added_Nm->middle()), 8.0, 1e-9);
    EXPECT_NEAR(inch_pounds(torque->steps[10].added_Nm->middle()), 5.0, 1e-9);
    for (std::size_t at = 0; at < torque->steps.size(); ++at) {
        EXPECT_EQ(torque->steps[at].odd, at == 5) << at; // cylinder 5, and neither cam nor cover
        EXPECT_FALSE(torque->steps[at].eased);
    }
    EXPECT_EQ(torque->pistons->count, 8u);
    EXPECT_EQ(torque->piston_steps.front(), 1u);
    EXPECT_EQ(*torque->steps[5].cylinder, 5);
}

TEST(TurningTorque, AMissedReadingIsNotLaidAtOnePiston) {
    auto readings = assembly({60, 81, 100, 120, 140, 160});
    readings[3].torque_Nm.reset(); // cylinder 3
    const auto torque = *turning_torque(readings);
    EXPECT_FALSE(torque.steps[3].added_Nm.has_value());
    EXPECT_NEAR(inch_pounds(torque.steps[4].added_Nm->middle()), 39.0, 1e-9);
    EXPECT_EQ(torque.steps[4].things_added, 2);
    EXPECT_FALSE(torque.steps[4].odd);
    EXPECT_EQ(torque.pistons->count, 4u); // 1, 2, 5, 6
    EXPECT_EQ(torque.piston_steps, (std::vector<std::size_t>{1, 2, 5, 6}));
}

TEST(TurningTorque, EasingIsMarkedOnlyBeyondTheWrenchsSteps) {
    const auto torque = *turning_torque(assembly({60, 59, 55}));
    EXPECT_FALSE(torque.steps[2].eased); // a step of the wrench
    EXPECT_TRUE(torque.steps[3].eased);
    EXPECT_EQ(torque.pistons->rule, OddOneOutRule::too_few);
    EXPECT_FALSE(turning_torque({{After::mains, {}, in_lb(40)}})->pistons.has_value());
    EXPECT_FALSE(turning_torque({{After::mains, {}, {}}})->steps[0].added_Nm.has_value());
}

TEST(TurningTorque, NamesWhatIsWrong) {
    EXPECT_EQ(turning_torque({}).error().code, ErrorCode::too_few_rows);
    auto readings = assembly({60});
    readings[1].torque_Nm = Interval{600.0, 600.0};
    EXPECT_EQ(turning_torque(readings).error().field, "torque");
    EXPECT_EQ(turning_torque(readings).error().line, 2);
}

} // namespace
} // namespace rodway
