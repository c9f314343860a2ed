#include <gtest/gtest.h>

#include <string>
#include <thread>
#include <vector>

#include "core/barring/open_valves.h"
#include "core/clearance/survey.h"
#include "core/valvetrain/train_motion.h"
#include "tests/core/demo_set_ups.h"

// A computation takes a const snapshot and runs on any thread. Here many run at once on one engine;
// the thread sanitizer would see them write to anything they share.

namespace rodway {
namespace {

/// Figures of everything a page asks of an engine.
std::vector<double> figures(const Engine& engine) {
    std::vector<double> found;
    const auto lines = survey(engine);
    EXPECT_TRUE(lines.ok());
    for (const ValveClearance& line : *lines) {
        EXPECT_TRUE(line.found.minimum) << position_name(line.position);
        found.push_back(line.found.minimum ? line.found.minimum->clearance_mm : -1.0);
    }
    for (const Train& train : engine.trains) {
        const auto motion = train_motion(train, engine.lobes(train.position).lobe.full_lift_mm());
        EXPECT_TRUE(motion.full_lift);
        found.push_back(motion.full_lift ? motion.full_lift->net_lift_mm : -1.0);
        for (double crank = 0.0; crank < 720.0; crank += 30.0) {
            found.push_back(engine.lobe_lift_mm(train.position, CrankAngle::deg(crank)));
        }
    }
    return found;
}

TEST(SharedEngine, GivesEveryThreadTheFiguresThatOneAloneGets) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        const std::vector<double> alone = figures(engine);
        std::vector<std::vector<double>> found(4);
        {
            std::vector<std::jthread> threads;
            for (auto& result : found) {
                threads.emplace_back([&] { result = figures(engine); });
            }
        }
        for (const auto& result : found) {
            EXPECT_EQ(result, alone) << name;
        }
    }
}

TEST(SharedEngine, IsMadeOnSeveralThreadsFromOneSetOfFields) {
    const SetUpFields fields = demo_fields("v8-port-tubes");
    std::vector<std::vector<double>> found(3);
    {
        std::vector<std::jthread> threads;
        for (auto& result : found) {
            threads.emplace_back([&] {
                const auto engine = make_engine(fields);
                ASSERT_TRUE(engine.ok());
                result = figures(*engine);
            });
        }
    }
    EXPECT_EQ(found[0], figures(demo_engine("v8-port-tubes")));
    EXPECT_EQ(found[1], found[0]);
    EXPECT_EQ(found[2], found[0]);
}

} // namespace
} // namespace rodway
