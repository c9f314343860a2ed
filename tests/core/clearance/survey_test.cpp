#include "core/clearance/survey.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

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

/// A place 0.2 mm off the rod's surface, halfway along it on the heel, and the way there.
struct BesideRod {
    Vec3 touch_K;
    Vec3 out_K;
};
BesideRod beside_rod(const Engine& engine, const Train& train) {
    const auto closed = rod_in_tube(engine, train);
    const Pose pose = *closed->rod->linkage.at(0.0);
    const Vec3 along = (pose.upper_ball_K - pose.lower_ball_K).normalized();
    const Vec3 out = along.unitOrthogonal();
    return {
        (pose.upper_ball_K + pose.lower_ball_K) / 2.0 + (train.rod.diameter_mm / 2.0 + 0.2) * out,
        out};
}

TEST(Survey, LinesCarryEveryPassageAndObstacleAndDecideByTheLeast) {
    Engine engine = demo_engine("v8-port-tubes");
    Train& train = engine.trains[5];
    const BesideRod near = beside_rod(engine, train);
    Passage hole = train.tube;
    hole.name = "head hole";
    hole.bore.bore_radius_mm += 3.0;
    train.further_passages.push_back(hole);
    train.rocker.body_K = Capsule{Vec3(0, 0, 100), Vec3(0, 0, 120), 2.0};
    train.lifter.body_diameter_mm = 21.0;
    train.lifter.body_length_mm = 40.0;
    const std::size_t other_bank = 1 - train.bank;
    const auto to_other = [&](const Vec3& vector_K) -> Vec3 {
        return engine.layout.banks[other_bank].frame.from_block(
            engine.layout.banks[train.bank].frame.to_block(vector_K));
    };
    engine.obstacles.push_back({"far", ObstacleKind::box, Casting::block, 0, Cuboid{}});
    // Given in the other bank's frame: it has to be brought into this train's.
    engine.obstacles.push_back(
        {"intake bolt", ObstacleKind::bolt_end, Casting::block, other_bank,
         RoundBar{to_other(near.touch_K), to_other(near.touch_K + 20.0 * near.out_K), 3.0}});
    const auto lines = survey(engine);
    ASSERT_TRUE(lines.ok());
    const ValveClearance& line = (*lines)[5];
    const std::vector<std::string> names{"tube",   "head hole", "far",        "intake bolt",
                                         "rocker", "far",       "intake bolt"};
    ASSERT_EQ(line.all.size(), names.size());
    double least = 1e9;
    for (std::size_t at = 0; at < names.size(); ++at) {
        EXPECT_EQ(line.all[at].feature, names[at]);
        EXPECT_EQ(line.all[at].part, at < 5 ? MovedPart::rod : MovedPart::lifter_body);
        ASSERT_EQ(line.all[at].status, TrainStatus::answered) << names[at];
        least = std::min(least, line.all[at].minimum->clearance_mm);
    }
    EXPECT_EQ(line.found.feature, "intake bolt");
    EXPECT_EQ(line.found.kind, FeatureKind::obstacle);
    EXPECT_EQ(line.found.minimum->clearance_mm, least);
    // 0.2 on the heel, by how it was placed; 1e-9 mm: rounding of two turned frames.
    EXPECT_NEAR(line.all[3].on_heel->clearance_mm, 0.2, 1e-9);
    EXPECT_LE(line.found.minimum->clearance_mm, 0.2 + 1e-9);
    // The valve's other neighbours keep what they had.
    const auto plain = survey(demo_engine("v8-port-tubes"));
    EXPECT_EQ((*lines)[5].all[0].minimum->clearance_mm, (*plain)[5].found.minimum->clearance_mm);
}

TEST(Survey, AnIntakeObstacleMovesWithTheGasket) {
    Engine engine = demo_engine("v8-port-tubes");
    const Train& train = engine.trains[0];
    const BesideRod near = beside_rod(engine, train);
    engine.obstacles.push_back({"bolt", ObstacleKind::plane, Casting::intake, train.bank,
                                HalfSpace{near.touch_K, -near.out_K}});
    const double before = (*survey(engine))[0].all[1].on_heel->clearance_mm;
    const Vec3 stood = *engine.intake_movement_K(train.bank);
    engine.flanges[train.bank]->gasket_mm += 1.0;
    const Vec3 moved = *engine.intake_movement_K(train.bank) - stood;
    const double after = (*survey(engine))[0].all[1].on_heel->clearance_mm;
    EXPECT_GT(moved.norm(), 0.5);
    EXPECT_NEAR(after - before, near.out_K.dot(moved), 1e-9); // a plane moved along its normal
}

TEST(Survey, WithoutAStatedDoubtNothingPasses) {
    Engine engine = demo_engine("v8-port-tubes");
    engine.assumed_doubt_mm.reset();
    engine.doubt = {};
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
