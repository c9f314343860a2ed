#include "core/castings/intake_shift.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr double in = 25.4;
constexpr std::size_t left = 0;  // leans to -y
constexpr std::size_t right = 1; // leans to +y

/// Head milled .030 and a gasket .015 thinner on both banks.
Engine lowered_vee(const Vec3& left_normal_K) {
    SetUpFields fields = demo_with_card_lobes();
    for (const std::string bank : {"left", "right"}) {
        put(fields, "banks/" + bank + "/head/deck_face_milled", ".030");
        put(fields, "banks/" + bank + "/head/gasket", ".024");
        put(fields, "banks/" + bank + "/head/gasket_when_located", ".039");
    }
    Engine engine = *make_engine(fields);
    engine.flanges[left]->normal_K = left_normal_K;
    engine.flanges[right]->normal_K = Vec3(0.0, -left_normal_K.y(), left_normal_K.z());
    return engine;
}

IntakeShift shift_at(const Engine& engine, std::size_t bank) {
    const auto shift = intake_shift(engine, bank);
    EXPECT_TRUE(shift.ok() && shift->has_value());
    return **shift;
}

// Worked by hand, arithmetic of this project: faces square to the decks of a 90° vee. The heads
// slide down along their own faces, so the intake stays, and its ports stand .045 too high.
TEST(IntakeShift, HeadsSlidePastAnIntakeWhoseFacesAreSquareToTheDecks) {
    const Engine engine = lowered_vee(Vec3::UnitY());
    for (const std::size_t bank : {left, right}) {
        const IntakeShift shift = shift_at(engine, bank);
        EXPECT_NEAR(shift.height_mm, 0.0, 1e-12);
        EXPECT_NEAR(shift.sideways_mm, 0.0, 1e-12);
        EXPECT_NEAR(shift.ports.up_the_face_mm, 0.045 * in, 1e-12);
        EXPECT_NEAR(shift.ports.rearward_mm, 0.0, 1e-12);
        EXPECT_NEAR(shift.ports.off_the_face_mm, 0.0, 1e-12);
    }
}

// Worked by hand, arithmetic of this project: faces 10° off square, so that they look up more.
// n·h = -.045·sin 10° = -.0078142 in; the intake sinks by that over n_z = (cos 10° + sin 10°)/√2 =
// .8191520: .0095394 in. Up the face it sinks by u_z = (cos 10° - sin 10°)/√2 = .5735764 of that,
// .0054716, and the head by .045·cos 10° = .0443163: its port is .0388448 in lower. Six digits.
TEST(IntakeShift, HeadsWhoseFacesLookUpLetTheIntakeSink) {
    const Engine engine = lowered_vee(Vec3(0.0, std::cos(radians(10.0)), std::sin(radians(10.0))));
    for (const std::size_t bank : {left, right}) {
        const IntakeShift shift = shift_at(engine, bank);
        EXPECT_NEAR(shift.height_mm / in, -0.0095394, 1e-7);
        EXPECT_NEAR(shift.sideways_mm, 0.0, 1e-12);
        EXPECT_NEAR(shift.ports.up_the_face_mm / in, 0.0388448, 1e-7);
        EXPECT_NEAR(shift.ports.off_the_face_mm, 0.0, 1e-12);
    }
}

// Put back into the conditions, written out by the banks' angles and not by BankFrame: each face
// lies on what lies on it, whatever was milled and on whichever side; and up, rearward and off are
// all of the movement of one against the other. Tolerance: rounding.
TEST(IntakeShift, BothFacesTouchWhateverWasMilled) {
    constexpr std::uint64_t seed = 20261125;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    const Engine demo = *make_engine(demo_with_card_lobes());
    for (int round = 0; round < 1000; ++round) {
        Engine engine = demo;
        for (const std::size_t bank : {left, right}) {
            const double slope = radians(25.0 * unit(random));
            const double side = bank == right ? -1.0 : 1.0;
            engine.flanges[bank] = FlangeSetting{
                Vec3(0.05 * unit(random), side * std::cos(slope), std::sin(slope)).normalized(),
                1.5 + unit(random),
                1.5,
                2.0 + unit(random),
                2.0,
                1.0 + unit(random),
                1.0 + unit(random)};
            engine.set_head(bank,
                            {1.0 + unit(random), 1.0, 1.0 + unit(random), 1.0 + unit(random)});
        }
        // One casting: both banks see it move alike.
        const IntakeShift seen_left = shift_at(engine, left);
        const IntakeShift seen_right = shift_at(engine, right);
        EXPECT_NEAR(seen_left.height_mm, seen_right.height_mm, 1e-11);
        EXPECT_NEAR(seen_left.sideways_mm, seen_right.sideways_mm, 1e-11);
        for (const std::size_t bank : {left, right}) {
            const double lean = radians(bank == right ? 45.0 : -45.0);
            const Vec3 up_bank_E(0.0, std::sin(lean), std::cos(lean));
            const Vec3 beside_bank_E(0.0, std::cos(lean), -std::sin(lean));
            const FlangeSetting& flange = *engine.flanges[bank];
            const Vec3 n = flange.normal_K.x() * Vec3::UnitX() +
                           flange.normal_K.y() * beside_bank_E + flange.normal_K.z() * up_bank_E;
            const HeadSetting head = engine.heads.of(bank);
            const Vec3 head_E =
                (head.gasket_mm - 1.0 - head.deck_milled_mm - head.deck_face_milled_mm) * up_bank_E;
            const double between = flange.gasket_mm - 1.5 + flange.spacer_mm - 2.0 -
                                   flange.head_face_milled_mm - flange.manifold_face_milled_mm;
            const IntakeShift shift = shift_at(engine, bank);
            const Vec3 moved_E(0.0, shift.sideways_mm, shift.height_mm);
            EXPECT_NEAR(n.dot(moved_E), between + n.dot(head_E), 1e-11);
            EXPECT_NEAR(shift.ports.off_the_face_mm, between, 1e-11);
            const Vec3 apart = moved_E - head_E;
            EXPECT_NEAR(std::hypot(shift.ports.up_the_face_mm, shift.ports.rearward_mm, between),
                        apart.norm(), 1e-11);
        }
    }
}

TEST(PortShiftOnAFace, UpAndRearwardAreTheFacesOwnDirections) {
    // A face that looks up to one side, by the 3-4-5 triangle; its own 'up' is (0, -.8, .6).
    const Vec3 normal(0.0, 0.6, 0.8);
    const PortShift up = port_shift(normal, Vec3(0.0, -0.8, 0.6), Vec3::Zero());
    EXPECT_NEAR(up.up_the_face_mm, 1.0, 1e-15);
    EXPECT_NEAR(up.off_the_face_mm, 0.0, 1e-15);
    const PortShift head_up = port_shift(normal, Vec3::Zero(), Vec3(0.0, -0.8, 0.6));
    EXPECT_NEAR(head_up.up_the_face_mm, -1.0, 1e-15) << "the intake's port is the lower one";
    const PortShift back = port_shift(normal, Vec3(2.0, 0.0, 0.0), Vec3::Zero());
    EXPECT_NEAR(back.rearward_mm, 2.0, 1e-15);
    EXPECT_NEAR(back.up_the_face_mm, 0.0, 1e-15);
    // The mirror image on the other bank.
    const PortShift other = port_shift(Vec3(0.0, -0.6, 0.8), Vec3(2.0, 0.8, 0.6), Vec3::Zero());
    EXPECT_NEAR(other.rearward_mm, 2.0, 1e-15);
    EXPECT_NEAR(other.up_the_face_mm, 1.0, 1e-15);
    // A level face has no 'up'.
    const PortShift level = port_shift(Vec3::UnitZ(), Vec3(3.0, 4.0, 5.0), Vec3::Zero());
    EXPECT_NEAR(level.up_the_face_mm, 4.0, 1e-15);
    EXPECT_NEAR(level.rearward_mm, 3.0, 1e-15);
    EXPECT_NEAR(level.off_the_face_mm, 5.0, 1e-15);
}

// One flange: straight off its face. The six's face looks to -y.
TEST(IntakeShift, AnInlinesIntakeMovesStraightOffItsFace) {
    SetUpFields fields = demo_fields("inline-six");
    put(fields, "banks/row/flange/gasket", ".060"); // located on .045
    put(fields, "banks/row/flange/head_face_milled", ".005");
    put(fields, "banks/row/deck_milled", ".020");
    const Engine engine = *make_engine(fields);
    const IntakeShift shift = shift_at(engine, 0);
    EXPECT_NEAR(shift.height_mm, 0.0, 1e-12);
    EXPECT_NEAR(shift.sideways_mm, -0.010 * in, 1e-12);
    EXPECT_NEAR(shift.ports.up_the_face_mm, 0.020 * in, 1e-12);
    EXPECT_NEAR(shift.ports.off_the_face_mm, 0.010 * in, 1e-12);
}

TEST(IntakeShift, WithoutAFlangeThereIsNone) {
    const Engine flat = *make_engine(demo_fields("flat-four"));
    ASSERT_TRUE(intake_shift(flat, 0).ok());
    EXPECT_FALSE(intake_shift(flat, 0)->has_value());
    EXPECT_FALSE(intake_shift(flat, 5)->has_value());
    Engine parallel = *make_engine(demo_with_card_lobes());
    parallel.flanges[left]->normal_K = parallel.layout.banks[left].frame.from_block(Vec3::UnitZ());
    parallel.flanges[right]->normal_K =
        parallel.layout.banks[right].frame.from_block(Vec3::UnitZ());
    const auto shift = intake_shift(parallel, left);
    ASSERT_FALSE(shift.ok());
    EXPECT_EQ(shift.error().code, ErrorCode::banks_parallel);
}

// An intake for each bank rests on that bank's face alone.
TEST(IntakeShift, WithAnIntakeForEachBankTheOtherBankIsOfNoMatter) {
    SetUpFields fields = demo_with_card_lobes();
    put_word(fields, "engine/intake_casting", "one_for_each_bank");
    put(fields, "banks/right/flange/gasket", ".090");
    put(fields, "banks/right/head/deck_face_milled", ".030");
    const Engine engine = *make_engine(fields);
    EXPECT_EQ(*engine.intake_movement_K(left), Vec3(Vec3::Zero()));
    EXPECT_LT((*engine.intake_movement_K(right) - Vec3(0.0, -0.030 * in, 0.0)).norm(), 1e-12);
}

} // namespace
} // namespace rodway
