#include "core/clearance/survey.h"

#include <gtest/gtest.h>

#include <cmath>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

TEST(Survey, HasALineForEveryValveInThePlansOrder) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        const auto lines = survey(engine);
        ASSERT_TRUE(lines.ok());
        ASSERT_EQ(lines->size(), engine.trains.size());
        for (std::size_t at = 0; at < lines->size(); ++at) {
            const ValveClearance& line = (*lines)[at];
            EXPECT_EQ(line.position, engine.trains[at].position);
            ASSERT_EQ(line.found.status, TrainStatus::answered)
                << name << ' ' << position_name(line.position);
            EXPECT_TRUE(line.verdict.has_value());
            EXPECT_EQ(line.opening.has_value(), line.found.minimum->lobe_lift_mm > 0.0);
        }
    }
}

// Second method: a walk of the crank, every half degree, through the lobe.
TEST(Survey, NoCrankAngleHasLessClearanceAndTheAnglesGivenHaveIt) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto lines = survey(engine);
    ASSERT_TRUE(lines.ok());
    int mid_turn = 0;
    for (const ValveClearance& line : *lines) {
        const auto closed = rod_in_tube(engine, *engine.train(line.position));
        ASSERT_TRUE(closed.ok() && closed->rod);
        double least = 1e9;
        for (double crank = 0.0; crank < 720.0; crank += 0.5) {
            const auto clearance =
                clearance_at(engine, *closed->rod, line.position, CrankAngle::deg(crank));
            ASSERT_TRUE(clearance.has_value());
            least = std::min(least, *clearance);
        }
        const double minimum = line.found.minimum->clearance_mm;
        EXPECT_GE(least, minimum - line.found.bound_mm - 1e-9);
        EXPECT_LE(least, minimum + 0.01); // half a degree of crank either side of the minimum
        if (line.opening) {
            ++mid_turn;
            for (const CrankAngle angle : {*line.opening, *line.closing}) {
                EXPECT_GE(angle.in_deg(), 0.0);
                EXPECT_LT(angle.in_deg(), 720.0);
                EXPECT_NEAR(*clearance_at(engine, *closed->rod, line.position, angle), minimum,
                            1e-7);
            }
            // The lifter goes up through the first angle and down through the second.
            const auto lift = [&](CrankAngle angle) {
                return engine.lobe_lift_mm(line.position, angle);
            };
            const CrankAngle half = CrankAngle::deg(0.5);
            if (line.found.minimum->lobe_lift_mm < 0.99 * closed->rod->full_lift_mm) {
                EXPECT_GT(lift(*line.opening + half), lift(*line.opening - half));
                EXPECT_LT(lift(*line.closing + half), lift(*line.closing - half));
            }
        }
    }
    EXPECT_GT(mid_turn, 0);
}

TEST(Survey, WithoutAStatedDoubtNothingPasses) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.assumed_doubt_mm.reset();
    const auto lines = survey(engine);
    ASSERT_EQ(lines->size(), 16u);
    for (const ValveClearance& line : *lines) {
        EXPECT_FALSE(is_pass(*line.verdict));
    }
}

TEST(Survey, ATrainThatDoesNotCloseHasAStatusAndNoVerdict) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.trains[0].rod.length_mm += 20.0;
    engine.trains[1].tube.bore.centre_K.y() += 40.0;
    const auto lines = survey(engine);
    ASSERT_TRUE(lines.ok());
    EXPECT_EQ((*lines)[0].found.status, TrainStatus::adjuster_out_of_thread);
    ASSERT_TRUE((*lines)[0].adjuster_needed_mm.has_value());
    EXPECT_NEAR(*(*lines)[0].adjuster_needed_mm, -20.0, 1.0);
    EXPECT_EQ((*lines)[1].found.status, TrainStatus::does_not_go_through);
    for (std::size_t at : {0u, 1u}) {
        EXPECT_FALSE((*lines)[at].verdict || (*lines)[at].found.minimum || (*lines)[at].opening);
    }
    EXPECT_EQ((*lines)[2].found.status, TrainStatus::answered);
}

TEST(Survey, StopsWhenAsked) {
    std::stop_source source;
    source.request_stop();
    EXPECT_TRUE(survey(demo_engine("v8-port-tubes"), source.get_token())->empty());
}

TEST(Survey, FlangesThatDoNotFixTheIntakeAreAnError) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.flanges[0]->normal_K = engine.layout.banks[0].frame.from_block(Vec3::UnitZ());
    engine.flanges[1]->normal_K = engine.layout.banks[1].frame.from_block(Vec3::UnitZ());
    const auto lines = survey(engine);
    ASSERT_FALSE(lines.ok());
    EXPECT_EQ(lines.error().code, ErrorCode::banks_parallel);
}

} // namespace
} // namespace rodway
