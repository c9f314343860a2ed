#include "core/clearance/cure_size.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/clearance/causes.h"
#include "core/clearance/survey.h"
#include "core/clearance/variant.h"
#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

const ValvePosition tight{3, ValveKind::intake, 1};

/// Least clearance of a valve by the whole engine's survey, which knows nothing of cures.
double least_mm(const Engine& engine, const ValvePosition& valve) {
    const auto lines = survey(engine);
    for (const ValveClearance& line : *lines) {
        if (line.position == valve) {
            return line.found.minimum->clearance_mm;
        }
    }
    ADD_FAILURE();
    return 0.0;
}

// Every parameter of the demo's tight rod: the change found is enough, a little less isn't, and its
// sign is that of the rate where it begins.
TEST(CureSize, ReachesWhatIsWantedByTheSmallestChange) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto causes = causes_of(engine, *engine.train(tight));
    const double wanted_mm = Length::thou(13.0).in_mm();
    int reached = 0;
    int other_way = 0;
    for (const Cause& cause : (*causes)->causes) {
        const auto cure =
            cure_size(engine, tight, cause.parameter, Held::adjuster_reset, wanted_mm);
        if (!cause.adjuster_reset || std::abs(cause.adjuster_reset->size()) < 0.01) {
            continue;
        }
        ASSERT_TRUE(cure.has_value()) << parameter_name(cause.parameter.kind);
        if (!cure->reaches) {
            EXPECT_LT(cure->clearance_mm, wanted_mm);
            continue;
        }
        ++reached;
        const double found = least_mm(*with_change(engine, cause.parameter, cure->change), tight);
        EXPECT_NEAR(found, cure->clearance_mm, 1e-6) << parameter_name(cause.parameter.kind);
        EXPECT_GE(found, wanted_mm);
        const double less =
            least_mm(*with_change(engine, cause.parameter, 0.97 * cure->change), tight);
        EXPECT_LT(less, wanted_mm) << parameter_name(cause.parameter.kind);
        const double gain =
            cause.adjuster_reset->when_more.per_unit * (cure->change > 0.0 ? 1.0 : -1.0);
        other_way += gain > 0.0 ? 0 : 1;
        EXPECT_GT(gain, 0.0) << parameter_name(cause.parameter.kind);
    }
    EXPECT_GT(reached, 8);
    EXPECT_EQ(other_way, 0);
}

TEST(CureSize, WithTheAdjusterUnmovedTheRodIsChosenAgain) {
    const Engine engine = demo_engine("v8-port-tubes");
    const EngineParameter lifter{.kind = ParameterKind::lifter_height, .valve = tight};
    const double wanted_mm = Length::thou(8.0).in_mm();
    const auto reset = cure_size(engine, tight, lifter, Held::adjuster_reset, wanted_mm);
    const auto chosen = cure_size(engine, tight, lifter, Held::rod_rechosen, wanted_mm);
    ASSERT_TRUE(reset && chosen);
    ASSERT_TRUE(chosen->reaches);
    // A builder's way to the same: another lifter, and the adjuster put back where it stood.
    Engine by_hand = *with_change(engine, lifter, chosen->change);
    for (Train& train : by_hand.trains) {
        if (train.position == tight) {
            const double stood = Linkage::close(*engine.train(tight)).linkage->adjuster_in_mm();
            double low = train.rod.length_mm - 10.0;
            double high = train.rod.length_mm + 10.0;
            for (int half = 0; half < 60; ++half) { // a longer rod turns the adjuster out
                train.rod.length_mm = (low + high) / 2.0;
                const auto closed = Linkage::close(train).linkage;
                const bool longer = closed
                                        ? closed->adjuster_in_mm() > stood
                                        : train.rod.length_mm < engine.train(tight)->rod.length_mm;
                (longer ? low : high) = train.rod.length_mm;
            }
        }
    }
    EXPECT_NEAR(least_mm(by_hand, tight), chosen->clearance_mm, 1e-5);
    EXPECT_NE(reset->change, chosen->change);
}

TEST(CureSize, NothingToCureIsNothing) {
    const Engine engine = demo_engine("v8-port-tubes");
    const EngineParameter lifter{.kind = ParameterKind::lifter_height, .valve = tight};
    EXPECT_FALSE(cure_size(engine, tight, lifter, Held::adjuster_reset, 0.0).has_value());
    EXPECT_FALSE(cure_size(engine, {12, ValveKind::intake, 1}, lifter, Held::adjuster_reset, 1.0));
    const EngineParameter nowhere{
        .kind = ParameterKind::passage_bore, .valve = tight, .bank = 0, .thing = "no such tube"};
    EXPECT_FALSE(cure_size(engine, tight, nowhere, Held::adjuster_reset, 1.0).has_value());
}

// A thicker rod only loses, and a thinner one gains until something else is nearest: half a
// diameter for each thou, exactly.
TEST(CureSize, ARodsDiameterCountsHalf) {
    const Engine engine = demo_engine("v8-port-tubes");
    const EngineParameter rod{.kind = ParameterKind::rod_diameter, .valve = tight};
    const double stands = least_mm(engine, tight);
    const auto cure = cure_size(engine, tight, rod, Held::adjuster_reset, stands + 0.2);
    ASSERT_TRUE(cure && cure->reaches);
    EXPECT_NEAR(cure->change, -0.4, 2.1e-3); // to 0.001 mm of clearance
}

} // namespace
} // namespace rodway
