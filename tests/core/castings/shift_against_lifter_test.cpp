#include "core/castings/shift_against_lifter.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;
const ValvePosition exhaust_1{1, ValveKind::exhaust, 1}; // left bank, leans to -y
const ValvePosition exhaust_2{2, ValveKind::exhaust, 1}; // right bank, leans to +y
const ValvePosition intake_2{2, ValveKind::intake, 1};   // tube in the intake

/// Head milled .030 and a gasket .015 thinner on both banks.
Engine lowered_vee(const char* intake_gasket = ".060") {
    SetUpFields fields = castings_set_up();
    for (const std::string bank : {"left", "right"}) {
        std::erase_if(fields, [&](const auto& field) {
            return field.first.rfind("banks/" + bank, 0) == 0 &&
                   field.first.find("/flange/normal") == std::string::npos &&
                   field.first.find("/lean") == std::string::npos;
        });
        put(fields, "banks/" + bank + "/head/deck_face_milled", ".030");
        put(fields, "banks/" + bank + "/head/gasket", ".024");
        put(fields, "banks/" + bank + "/head/gasket_when_located", ".039");
        put(fields, "banks/" + bank + "/flange/gasket", intake_gasket);
        put(fields, "banks/" + bank + "/flange/gasket_when_located", ".060");
    }
    return *make_engine(fields);
}

ShiftsAgainstLifter shifts(const Engine& engine, const Train& train) {
    const auto answer = shifts_against_lifter(engine, train);
    EXPECT_TRUE(answer.ok());
    return *answer;
}

// Worked by hand, arithmetic of this project. Lifters that rise straight along the bank: hole and
// seat come down .045 along them and don't go sideways. On the rod, which leans by its own figures,
// it is the height over the length.
TEST(ShiftAgainstLifter, StraightLiftersSeeHoleAndSeatComeDown) {
    const Engine engine = lowered_vee();
    const Train& train = *engine.train(exhaust_2);
    const ShiftsAgainstLifter found = shifts(engine, train);
    ASSERT_EQ(found.passages.size(), 1u);
    EXPECT_EQ(found.passages[0].passage, "tube");
    // The rod from its file, the rocker's height .045 less than there.
    const Vec3 rod = in * Vec3(2.33, -1.25, 14.75 - 0.045) + in * Vec3(0.0, -0.8836, -0.05) -
                     in * Vec3(2.58, -3.535, 4.096 + 1.75);
    for (const ShiftAgainstLifter& shift : {found.passages[0].shift, found.ball_seat}) {
        EXPECT_NEAR(shift.along_lifter_mm, -0.045 * in, 1e-12);
        EXPECT_NEAR(shift.across_lifter_mm(), 0.0, 1e-12);
        EXPECT_NEAR(shift.along_rod_mm, -0.045 * in * rod.z() / rod.norm(), 1e-9);
        EXPECT_NEAR(shift.across_rod_mm, 0.045 * in * std::hypot(rod.x(), rod.y()) / rod.norm(),
                    1e-9);
    }
}

// Lifters that lean by the 3-4-5 triangle: of .045 down they see .036 along and .027 across.
TEST(ShiftAgainstLifter, LeaningLiftersSeeThemGoSidewaysToo) {
    const Engine engine = lowered_vee();
    struct Case {
        Vec3 axis_K;
        double rearward_in;
        double right_outboard_in; ///< on the bank that leans to +y; the other way on the other
    };
    for (const Case& each :
         {Case{Vec3(0.0, 0.6, 0.8), 0.0, 0.027}, Case{Vec3(0.0, -0.6, 0.8), 0.0, -0.027},
          Case{Vec3(0.6, 0.0, 0.8), 0.027, 0.0}, Case{Vec3(-0.6, 0.0, 0.8), -0.027, 0.0}}) {
        for (const ValvePosition& valve : {exhaust_1, exhaust_2}) {
            Train train = *engine.train(valve);
            train.lifter.axis_K = each.axis_K;
            const ShiftAgainstLifter seat = shifts(engine, train).ball_seat;
            const double side = valve == exhaust_2 ? 1.0 : -1.0;
            EXPECT_NEAR(seat.along_lifter_mm, -0.036 * in, 1e-12);
            EXPECT_NEAR(seat.rearward_mm, each.rearward_in * in, 1e-12);
            EXPECT_NEAR(seat.outboard_mm, side * each.right_outboard_in * in, 1e-12);
            EXPECT_NEAR(seat.across_lifter_mm(), 0.027 * in, 1e-12);
        }
    }
}

// A tube in the intake goes with the intake: .030 more on both faces lifts it .030·√2, which is
// .030 up along the bank and .030 inboard; the seat is the head's.
TEST(ShiftAgainstLifter, EachPassageGoesWithItsCasting) {
    const Engine engine = lowered_vee(".090");
    const ShiftsAgainstLifter found = shifts(engine, *engine.train(intake_2));
    EXPECT_NEAR(found.passages[0].shift.along_lifter_mm, 0.030 * in, 1e-12);
    EXPECT_NEAR(found.passages[0].shift.outboard_mm, -0.030 * in, 1e-12);
    EXPECT_NEAR(found.ball_seat.along_lifter_mm, -0.045 * in, 1e-12);
    // The exhaust of cylinder 1 goes through a passage in each casting.
    const ShiftsAgainstLifter many = shifts(engine, *engine.train(exhaust_1));
    const std::vector<std::pair<std::string, double>> expected{{"tube", -0.045},
                                                               {"guide plate", -0.045},
                                                               {"lower tube", -0.045},
                                                               {"upper tube", 0.030},
                                                               {"valley hole", 0.0}};
    ASSERT_EQ(many.passages.size(), expected.size());
    for (std::size_t at = 0; at < expected.size(); ++at) {
        EXPECT_EQ(many.passages[at].passage, expected[at].first);
        EXPECT_NEAR(many.passages[at].shift.along_lifter_mm, expected[at].second * in, 1e-12);
    }
}

TEST(ShiftAgainstLifter, NothingChangedMovesNothing) {
    const Engine engine = *make_engine(demo_with_card_lobes());
    for (const Train& train : engine.trains) {
        const ShiftsAgainstLifter found = shifts(engine, train);
        EXPECT_EQ(found.ball_seat.moved_K, Vec3(Vec3::Zero()));
        EXPECT_EQ(found.passages[0].shift.across_rod_mm, 0.0);
    }
}

} // namespace
} // namespace rodway
