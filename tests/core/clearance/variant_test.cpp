#include "core/clearance/variant.h"

#include <gtest/gtest.h>

#include "core/clearance/survey.h"
#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

TEST(Variant, ChangesEveryTrainByWhatIsSaid) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto varied = with_variant(engine, {1.5, 0.75, {0.5, -0.25}});
    ASSERT_TRUE(varied.ok());
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& before = engine.trains[at];
        const Train& after = varied->trains[at];
        EXPECT_NEAR(after.lifter.seat_height_mm, before.lifter.seat_height_mm + 1.5, 1e-12);
        EXPECT_NEAR(after.rod.diameter_mm, before.rod.diameter_mm + 0.75, 1e-12);
        EXPECT_EQ(after.rod.length_mm,
                  before.rod.length_mm); // the adjuster is re-set, the rod stays
    }
    EXPECT_NEAR(varied->flanges[0]->gasket_mm, engine.flanges[0]->gasket_mm + 0.5, 1e-12);
    EXPECT_NEAR(varied->flanges[1]->gasket_mm, engine.flanges[1]->gasket_mm - 0.25, 1e-12);
    // Only bank 0 thicker: the intake moves, so tubes on both banks do.
    const auto moved = with_variant(engine, {0.0, 0.0, {1.0}});
    for (const std::size_t at : {std::size_t{0}, std::size_t{2}}) {
        const Vec3 before = engine.tube_in_place(engine.trains[at])->centre_K;
        EXPECT_GT((moved->tube_in_place(moved->trains[at])->centre_K - before).norm(), 0.5);
    }
}

TEST(Variant, AThickerRodLosesHalfItsDiameterEverywhere) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto before = survey(engine);
    const auto after = survey(*with_variant(engine, {0.0, 0.5, {}}));
    for (std::size_t at = 0; at < before->size(); ++at) {
        EXPECT_NEAR((*after)[at].found.minimum->clearance_mm,
                    (*before)[at].found.minimum->clearance_mm - 0.25, 1e-6);
    }
}

TEST(Variant, NothingChangedIsTheSameEngine) {
    EXPECT_TRUE(Variant{}.changes_nothing());
    EXPECT_TRUE((Variant{0.0, 0.0, {0.0, 0.0}}).changes_nothing());
    EXPECT_FALSE((Variant{0.1, 0.0, {}}).changes_nothing());
    EXPECT_FALSE((Variant{0.0, 0.1, {}}).changes_nothing());
    EXPECT_FALSE((Variant{0.0, 0.0, {0.0, 0.1}}).changes_nothing());
    const Engine engine = demo_engine("flat-four");
    const auto same = survey(*with_variant(engine, {}));
    const auto before = survey(engine);
    for (std::size_t at = 0; at < before->size(); ++at) {
        EXPECT_EQ((*same)[at].found.minimum->clearance_mm,
                  (*before)[at].found.minimum->clearance_mm);
    }
}

TEST(Variant, RefusesWhatASetUpMayNotHold) {
    const Engine engine = demo_engine("v8-port-tubes");
    const auto taller = with_variant(engine, {200.0, 0.0, {}});
    ASSERT_FALSE(taller.ok());
    EXPECT_EQ(taller.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(taller.error().field, "trains/1I/lifter/seat_height");
    EXPECT_EQ(taller.error().limits->unit, "in");
    EXPECT_NEAR(taller.error().limits->high, 150.0 / 25.4, 1e-6); // rounded for reading
    const auto thicker = with_variant(engine, {0.0, 0.25 * 25.4, {}});
    ASSERT_FALSE(thicker.ok());
    EXPECT_EQ(thicker.error().code, ErrorCode::bore_smaller_than_rod);
    EXPECT_EQ(thicker.error().field, "trains/1I/tube/bore");
    const auto thinner = with_variant(engine, {0.0, -5.0, {}});
    ASSERT_FALSE(thinner.ok());
    EXPECT_EQ(thinner.error().field, "trains/1I/rod/diameter");
    const auto no_gasket = with_variant(engine, {0.0, 0.0, {0.0, -2.0}});
    ASSERT_FALSE(no_gasket.ok());
    EXPECT_EQ(no_gasket.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(no_gasket.error().field, "banks/right/flange/gasket");
    EXPECT_EQ(no_gasket.error().limits->low, 0.0);
}

} // namespace
} // namespace rodway
