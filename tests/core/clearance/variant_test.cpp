#include "core/clearance/variant.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "core/clearance/survey.h"
#include "core/units/length.h"
#include "core/units/typed_text.h"
#include "core/valvetrain/train_motion.h"
#include "tests/core/engine/castings_set_up.h"

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
    EXPECT_FALSE(Variant{.rod_longer_mm = 0.1}.changes_nothing());
    EXPECT_FALSE(Variant{.ball_arm_longer_mm = 0.1}.changes_nothing());
    EXPECT_FALSE((Variant{.head_gasket_thicker_mm = {0.0, 0.1}}).changes_nothing());
    EXPECT_FALSE(Variant{.lash_more_mm = 0.1}.changes_nothing());
    EXPECT_FALSE(Variant{.lobe_lift_more_mm = 0.1}.changes_nothing());
    EXPECT_FALSE(Variant{.ratio_more = 0.1}.changes_nothing());
    EXPECT_FALSE(Variant{.adjuster_in_more_mm = 0.1}.changes_nothing());
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

// What a builder would do instead: type the new sizes into the set-up. Nothing of that road knows
// of variants.
class TypedInstead {
  public:
    /// Adds inches to a number of the set-up.
    void add_in(const std::string& path, double more_in) {
        TypedValue& value = fields_.at(path);
        ASSERT_EQ(value.unit, "in") << path;
        value.text = exact_text(std::stod(value.text) + more_in);
    }
    /// The same of every train; `of_name` says how much.
    template <typename More>
    void add_to_trains_in(const std::string& leaf, const More& of_name) {
        for (const Train& train : engine_.trains) {
            const std::string name = position_name(train.position);
            add_in("trains/" + name + "/" + leaf, of_name(name));
        }
    }
    [[nodiscard]] SetUpFields& fields() { return fields_; }
    [[nodiscard]] const Engine& as_it_stands() const { return engine_; }
    [[nodiscard]] Engine engine() const { return *make_engine(fields_); }

  private:
    SetUpFields fields_ = demo_with_card_lobes();
    Engine engine_ = *make_engine(fields_);
};

/// The two roads lead to the same clearances, and those aren't the ones as it stands.
void expect_same_clearances(const TypedInstead& typed, const Variant& variant) {
    const auto varied = with_variant(typed.as_it_stands(), variant);
    ASSERT_TRUE(varied.ok()) << varied.error().field;
    const auto by_variant = survey(*varied);
    const auto by_typing = survey(typed.engine());
    const auto before = survey(typed.as_it_stands());
    double most_changed = 0.0;
    ASSERT_EQ(by_variant->size(), 16u);
    for (std::size_t at = 0; at < by_variant->size(); ++at) {
        const double found = (*by_variant)[at].found.minimum->clearance_mm;
        // The searches' own bound: each within a micron of the least.
        EXPECT_NEAR(found, (*by_typing)[at].found.minimum->clearance_mm, 0.001)
            << position_name((*by_variant)[at].position);
        most_changed =
            std::max(most_changed, std::abs(found - (*before)[at].found.minimum->clearance_mm));
    }
    EXPECT_GT(most_changed, 0.05) << "otherwise nothing was tried";
}

TEST(Variant, EachSizeDoesWhatTypingItIntoTheSetUpDoes) {
    const auto same = [](double more) { return [more](const std::string&) { return more; }; };
    {
        TypedInstead typed;
        typed.add_to_trains_in("lifter/seat_height", same(0.050));
        expect_same_clearances(typed, {.lifter_taller_mm = 0.050 * 25.4});
    }
    {
        TypedInstead typed;
        typed.add_to_trains_in("rod/diameter", same(0.0625)); // 3/8 instead of 5/16
        expect_same_clearances(typed, {.rod_thicker_mm = 0.0625 * 25.4});
    }
    {
        TypedInstead typed;
        typed.add_to_trains_in("rod/length", same(-0.050));
        expect_same_clearances(typed, {.rod_longer_mm = -0.050 * 25.4});
    }
    {
        TypedInstead typed;
        typed.add_in("banks/left/flange/gasket", -0.015);
        expect_same_clearances(typed, {.gasket_thicker_mm = {-0.015 * 25.4}});
    }
    {
        TypedInstead typed; // the demo doesn't state its head gaskets: a change says enough
        for (const std::string bank : {"left", "right"}) {
            put(typed.fields(), "banks/" + bank + "/head/gasket", ".030");
            put(typed.fields(), "banks/" + bank + "/head/gasket_when_located", ".045");
        }
        expect_same_clearances(typed, {.head_gasket_thicker_mm = {-0.015 * 25.4, -0.015 * 25.4}});
    }
}

// Question 5: a shorter ball arm makes a higher ratio, and leans the rod more. The demo's shafts
// run along the crank, so that across them is y and z.
TEST(Variant, ARockersArmGrowsAcrossItsShaft) {
    TypedInstead typed;
    constexpr double shorter_in = -0.040;
    const auto scaled = [&](const std::string& name, const char* component) {
        const Engine& stands = typed.as_it_stands();
        const Vec3 r = stands.train(*parse_position(name))->rocker.ball_arm_K / 25.4;
        return shorter_in * (*component == 'y' ? r.y() : r.z()) / std::hypot(r.y(), r.z());
    };
    for (const char* component : {"y", "z"}) {
        typed.add_to_trains_in(std::string("rocker/ball_arm/") + component,
                               [&](const std::string& name) { return scaled(name, component); });
    }
    const Variant variant{.ball_arm_longer_mm = shorter_in * 25.4};
    expect_same_clearances(typed, variant);
    const Engine varied = *with_variant(typed.as_it_stands(), variant);
    for (std::size_t at = 0; at < varied.trains.size(); ++at) {
        const Train& before = typed.as_it_stands().trains[at];
        const Train& after = varied.trains[at];
        EXPECT_NEAR(ball_arm_across_mm(after), ball_arm_across_mm(before) + shorter_in * 25.4,
                    1e-9); // rounding
        const double lift = 5.0;
        const auto linkage_before = *Linkage::close(before).linkage;
        const auto linkage_after = *Linkage::close(after).linkage;
        const double ratio_before = train_at_lift(before, linkage_before, lift)->gross_ratio;
        const double ratio_after = train_at_lift(after, linkage_after, lift)->gross_ratio;
        // By the arms' lengths alone; the adjuster, set again, lengthens or shortens the arm a
        // little as well, and the rod stands at another angle: a few per cent of the change itself.
        const double expected =
            ratio_before * ball_arm_across_mm(before) / ball_arm_across_mm(after);
        EXPECT_NEAR(ratio_after, expected, 0.25 * (expected - ratio_before))
            << position_name(after.position);
    }
}

// The same rockers, said by their ratio and by their ball arm.
TEST(Variant, ARatioIsMadeByTheBallArm) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Engine varied = *with_variant(engine, {.ratio_more = 0.05});
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& before = engine.trains[at];
        const Train& after = varied.trains[at];
        EXPECT_NEAR(arm_ratio(after), arm_ratio(before) + 0.05, 1e-12); // rounding
        EXPECT_LT(ball_arm_across_mm(after), ball_arm_across_mm(before));
        EXPECT_NEAR(after.rocker.tip_arm_K.norm(), before.rocker.tip_arm_K.norm(), 1e-12);
        const Engine by_arm = *with_variant(
            engine, {.ball_arm_longer_mm = ball_arm_across_mm(after) - ball_arm_across_mm(before)});
        EXPECT_LT((by_arm.trains[at].rocker.ball_arm_K - after.rocker.ball_arm_K).norm(), 1e-9);
    }
    const auto too_much = with_variant(engine, {.ratio_more = 20.0});
    ASSERT_FALSE(too_much.ok());
    EXPECT_EQ(too_much.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(too_much.error().field, "trains/1I/rocker/ratio");
}

// Every adjuster stands where it was told to, the lash is kept, and nothing but the rod has
// changed.
TEST(Variant, AnAdjusterFurtherInHasAShorterRodAndTheSameLash) {
    for (const double in_more : {1.0, -0.8}) {
        const Engine engine = demo_engine("v8-port-tubes");
        const Engine varied = *with_variant(engine, {.adjuster_in_more_mm = in_more});
        for (std::size_t at = 0; at < engine.trains.size(); ++at) {
            const Linkage before = *Linkage::close(engine.trains[at]).linkage;
            const Linkage after = *Linkage::close(varied.trains[at]).linkage;
            EXPECT_NEAR(after.adjuster_in_mm(), before.adjuster_in_mm() + in_more, 1e-6);
            EXPECT_NEAR(after.lash_mm(), before.lash_mm(), 1e-9);
            const double shorter = before.rod_length_mm() - after.rod_length_mm();
            EXPECT_GT(shorter * in_more, 0.0);
            // The screw leans from the rod by some tens of degrees at the most.
            EXPECT_NEAR(std::abs(shorter), std::abs(in_more), 0.2 * std::abs(in_more));
            EXPECT_EQ(varied.trains[at].lifter.foot_K, engine.trains[at].lifter.foot_K);
            EXPECT_EQ(varied.trains[at].rocker.pivot_K, engine.trains[at].rocker.pivot_K);
        }
    }
    Engine engine = demo_engine("v8-port-tubes");
    engine.trains.front().lifter.kind = LifterKind::hydraulic;
    const auto hydraulic = with_variant(engine, {.adjuster_in_more_mm = 0.5});
    ASSERT_FALSE(hydraulic.ok());
    EXPECT_EQ(hydraulic.error().code, ErrorCode::not_of_this_kind);
    EXPECT_EQ(hydraulic.error().field, "trains/1I/adjuster");
}

TEST(Variant, AHeadGasketLiftsWhatIsOnThatHeadAlone) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Engine varied = *with_variant(engine, {.head_gasket_thicker_mm = {0.0, 0.4}});
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& before = engine.trains[at];
        const double raised = before.bank == 1 ? 0.4 : 0.0;
        EXPECT_NEAR(varied.trains[at].rocker.pivot_K.z(), before.rocker.pivot_K.z() + raised,
                    1e-12);
        EXPECT_EQ(varied.trains[at].lifter.foot_K, before.lifter.foot_K);
    }
    EXPECT_NEAR(varied.head_movement_K(1).z(), 0.4, 1e-12);
    EXPECT_EQ(varied.head_movement_K(0), Vec3(Vec3::Zero()));
}

TEST(Variant, LashOpensEveryGapAndTheRockerLiesBackByIt) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Engine varied = *with_variant(engine, {.lash_more_mm = 0.2});
    for (std::size_t at = 0; at < engine.trains.size(); ++at) {
        const Train& before = engine.trains[at];
        const Train& after = varied.trains[at];
        EXPECT_NEAR(after.valve.lash_mm, before.valve.lash_mm + 0.2, 1e-12);
        EXPECT_NEAR(varied.lobes(after.position).lash_mm, after.valve.lash_mm, 1e-12);
        const auto tip = [](const Train& train) {
            return train.valve.axis_K.dot(train.rocker.pivot_K + train.rocker.tip_arm_K);
        };
        EXPECT_NEAR(tip(after), tip(before) + 0.2, 1e-9); // rounding of the turned arm
    }
}

TEST(Variant, LobeLiftGrowsWithTheWholeCurve) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Engine varied = *with_variant(engine, {.lobe_lift_more_mm = 0.5});
    for (const Train& train : engine.trains) {
        const Lobe& before = engine.lobes(train.position).lobe;
        const Lobe& after = varied.lobes(train.position).lobe;
        EXPECT_NEAR(after.full_lift_mm(), before.full_lift_mm() + 0.5, 1e-9); // rounding
        const double factor = after.full_lift_mm() / before.full_lift_mm();
        for (const double cam : {-60.0, -31.0, 12.0, 55.0}) {
            EXPECT_NEAR(after.lift_mm(CamAngle::deg(cam)),
                        factor * before.lift_mm(CamAngle::deg(cam)), 1e-9);
        }
        EXPECT_EQ(varied.full_lift_angle(train.position), engine.full_lift_angle(train.position));
    }
}

/// The demo's rods with their ends swaged down: 5/16 in the middle.
Engine with_swaged_rods() {
    Engine engine = demo_engine("v8-port-tubes");
    for (Train& train : engine.trains) {
        const double thick = train.rod.diameter_mm;
        const double thin = thick - 1.0;
        const double end = train.rod.length_mm;
        train.rod.profile = {{0.0, 10.0, thin, thick},
                             {10.0, end - 20.0, thick, thick},
                             {end - 20.0, end, thick, thin}};
    }
    return engine;
}

// A rod thickened in name alone would keep its clearance.
TEST(Variant, AProfiledRodIsThickerAllAlong) {
    const Engine engine = with_swaged_rods();
    const Engine varied = *with_variant(engine, {.rod_thicker_mm = 0.5});
    for (const RodSection& section : varied.trains.front().rod.profile) {
        EXPECT_GE(section.diameter_from_mm, engine.trains.front().rod.diameter_mm - 0.5 - 1e-9);
    }
    const auto before = survey(engine);
    const auto after = survey(varied);
    for (std::size_t at = 0; at < before->size(); ++at) {
        EXPECT_NEAR((*after)[at].found.minimum->clearance_mm,
                    (*before)[at].found.minimum->clearance_mm - 0.25,
                    0.002); // both searches' bounds
    }
}

// A longer rod has the same ends: a swaged end must not become a thick stub above itself.
TEST(Variant, ALongerProfiledRodGrowsInItsBody) {
    const Engine engine = with_swaged_rods();
    for (const double longer : {1.5, -1.5}) {
        const Engine varied = *with_variant(engine, {.rod_longer_mm = longer});
        const Pushrod& before = engine.trains.front().rod;
        const Pushrod& after = varied.trains.front().rod;
        EXPECT_NEAR(after.length_mm, before.length_mm + longer, 1e-12);
        ASSERT_EQ(after.profile.size(), 3u);
        EXPECT_EQ(after.profile[0].to_mm, before.profile[0].to_mm);
        EXPECT_EQ(after.profile[1].from_mm, before.profile[1].from_mm);
        EXPECT_NEAR(after.profile[1].to_mm, before.profile[1].to_mm + longer, 1e-12);
        EXPECT_NEAR(after.profile[2].from_mm, after.profile[1].to_mm, 1e-12);
        EXPECT_NEAR(after.profile[2].to_mm, after.length_mm, 1e-12);
        EXPECT_EQ(after.profile[2].diameter_to_mm, before.profile[2].diameter_to_mm);
    }
}

TEST(Variant, SeveralSizesAreAllChangedWhateverElseIs) {
    const Engine engine = demo_engine("v8-port-tubes");
    const Variant all{1.0, 0.2, {0.3, 0.1}, -0.4, -0.5, {0.2, 0.25}, 0.05, 0.3};
    const Engine varied = *with_variant(engine, all);
    const Train& before = engine.trains.back(); // on the right bank
    const Train& after = varied.trains.back();
    ASSERT_EQ(before.bank, 1u);
    EXPECT_NEAR(after.lifter.seat_height_mm, before.lifter.seat_height_mm + 1.0, 1e-12);
    EXPECT_NEAR(after.rod.diameter_mm, before.rod.diameter_mm + 0.2, 1e-12);
    EXPECT_NEAR(after.rod.length_mm, before.rod.length_mm - 0.4, 1e-12);
    EXPECT_NEAR(ball_arm_across_mm(after), ball_arm_across_mm(before) - 0.5, 1e-9);
    EXPECT_NEAR(after.rocker.pivot_K.z(), before.rocker.pivot_K.z() + 0.25, 1e-12);
    EXPECT_NEAR(after.valve.lash_mm, before.valve.lash_mm + 0.05, 1e-12);
    EXPECT_NEAR(varied.flanges[1]->gasket_mm, engine.flanges[1]->gasket_mm + 0.1, 1e-12);
    EXPECT_NEAR(varied.lobes(after.position).lobe.full_lift_mm(),
                engine.lobes(before.position).lobe.full_lift_mm() + 0.3, 1e-9);
}

void expect_refused(const Engine& engine, const Variant& variant, ErrorCode code,
                    const std::string& field) {
    const auto refused = with_variant(engine, variant);
    ASSERT_FALSE(refused.ok()) << field;
    EXPECT_EQ(static_cast<int>(refused.error().code), static_cast<int>(code)) << field;
    EXPECT_EQ(refused.error().field, field);
}

// Limits are the set-up's own (core/engine/set_up_fields.cpp); the arm's are the linkage's domain.
TEST(Variant, RefusesFurtherSizesBeyondTheSetUpsLimits) {
    Engine engine = demo_engine("v8-port-tubes");
    const ErrorCode out = ErrorCode::out_of_range;
    expect_refused(engine, {.rod_longer_mm = 900.0}, out, "trains/1I/rod/length");
    expect_refused(engine, {.ball_arm_longer_mm = -18.0}, out, "trains/1I/rocker/ball_arm");
    expect_refused(engine, {.lash_more_mm = -0.6}, out, "lobes/intake/lash");
    expect_refused(engine, {.lobe_lift_more_mm = 12.0}, out, "lobes/intake/full_lift");
    expect_refused(engine, {.head_gasket_thicker_mm = {0.0, -10.5}}, out,
                   "banks/right/head/gasket");
    EXPECT_TRUE(with_variant(engine, {.head_gasket_thicker_mm = {0.0, -0.5}}).ok())
        << "nobody stated how thick it is";
    engine.set_head(1, {.gasket_mm = 1.0, .gasket_when_located_mm = 1.0});
    expect_refused(engine, {.head_gasket_thicker_mm = {0.0, -1.2}}, out, "banks/right/head/gasket");
    expect_refused(with_swaged_rods(), {.rod_thicker_mm = -3.5}, out, "trains/1I/rod/profile");
    for (Train& train : engine.trains) {
        train.lifter.kind = LifterKind::hydraulic;
    }
    expect_refused(engine, {.lash_more_mm = 0.1}, ErrorCode::not_of_this_kind, "lobes/intake/lash");
    // A what-if that could do nothing must not look as if it did nothing.
    const Engine flat = demo_engine("flat-four");
    expect_refused(flat, {.gasket_thicker_mm = {0.0, 0.4}}, ErrorCode::missing_field,
                   "banks/right/flange/gasket");
    EXPECT_TRUE(with_variant(flat, {.gasket_thicker_mm = {0.0, 0.0}}).ok());
    expect_refused(flat, {.head_gasket_thicker_mm = {0.0, 0.0, 0.4}}, ErrorCode::missing_field,
                   "banks/3/head/gasket");
}

TEST(Variant, RefusesWhatIsNoNumber) {
    const Engine engine = demo_engine("v8-port-tubes");
    for (const double wrong :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity(),
          -std::numeric_limits<double>::infinity()}) {
        const ErrorCode code = ErrorCode::not_a_number;
        expect_refused(engine, {.lifter_taller_mm = wrong}, code, "lifter_taller");
        expect_refused(engine, {.rod_thicker_mm = wrong}, code, "rod_thicker");
        expect_refused(engine, {.gasket_thicker_mm = {0.0, wrong}}, code, "gasket_thicker");
        expect_refused(engine, {.rod_longer_mm = wrong}, code, "rod_longer");
        expect_refused(engine, {.ball_arm_longer_mm = wrong}, code, "ball_arm_longer");
        expect_refused(engine, {.head_gasket_thicker_mm = {wrong}}, code, "head_gasket_thicker");
        expect_refused(engine, {.lash_more_mm = wrong}, code, "lash_more");
        expect_refused(engine, {.lobe_lift_more_mm = wrong}, code, "lobe_lift_more");
    }
}

} // namespace
} // namespace rodway
