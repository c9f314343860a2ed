#include "core/intake/milling_match.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include "tests/core/engine/castings_set_up.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr double inch = 25.4;

/// A bank that leans by `lean_deg` to one side (+1: towards +y), its intake face so far off square
/// to the deck that it looks up more, its head let down along the cylinders by `lowered_mm`.
MatchedFace face_of(double side, double lean_deg, double off_square_deg, double lowered_mm) {
    const double lean = radians(lean_deg);
    const double off = radians(off_square_deg);
    const Vec3 cylinder_E(0.0, side * std::sin(lean), std::cos(lean));
    const Vec3 inward_E(0.0, -side * std::cos(lean),
                        std::sin(lean)); // along the deck, to the valley
    MatchedFace face;
    face.normal_E = std::cos(off) * inward_E + std::sin(off) * cylinder_E;
    face.head_moved_E = -lowered_mm * cylinder_E;
    return face;
}
MillingMatch vee(double lean_deg, double off_square_deg, double lowered_mm) {
    const auto match = milling_match(face_of(1.0, lean_deg, off_square_deg, lowered_mm),
                                     face_of(-1.0, lean_deg, off_square_deg, lowered_mm));
    EXPECT_TRUE(match.ok());
    return *match;
}

// A table passed round for vees of 90 degrees, from a car maker's racing manual (from memory):
// milled off the heads, times 1.1, 1.2, 1.4, 1.7, 2.0 off the intake face whose angle is 5, 10, 15,
// 20, 25 degrees; at 10 degrees 1.23 in other lists, and 1.7 off the end rails. Tolerance: half a
// digit of print; for 25 degrees, where it is 2.07, a whole one.
TEST(MillingMatch, GivesTheFactorsThatArePassedRound) {
    const std::pair<double, double> table[] = {
        {5.0, 1.1}, {10.0, 1.2}, {15.0, 1.4}, {20.0, 1.7}, {25.0, 2.0}};
    for (const auto& [off_square_deg, factor] : table) {
        const MillingMatch match = vee(45.0, off_square_deg, 1.0);
        const double tolerance = off_square_deg == 25.0 ? 0.1 : 0.05;
        EXPECT_NEAR(match.off_face_mm[0], factor, tolerance) << off_square_deg;
        EXPECT_NEAR(match.off_face_mm[1], match.off_face_mm[0], 1e-12);
    }
    EXPECT_NEAR(vee(45.0, 10.0, 1.0).off_face_mm[0], 1.23, 0.005);
    EXPECT_NEAR(vee(45.0, 10.0, 1.0).off_end_rails_mm, 1.7, 0.05);
}

// Worked by hand, arithmetic of this project: faces square to the decks of a 90° vee. The heads
// slide down along their own faces by m; the intake must come down by m·√2, and each face keeps it
// off by m.
TEST(MillingMatch, FacesSquareToTheDecks) {
    const MillingMatch match = vee(45.0, 0.0, 0.045 * inch);
    EXPECT_NEAR(match.off_face_mm[0], 0.045 * inch, 1e-12);
    EXPECT_NEAR(match.off_end_rails_mm, 0.045 * inch * std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(match.sideways_mm, 0.0, 1e-12);
    EXPECT_NEAR(match.before[0].up_the_face_mm, 0.045 * inch, 1e-12) << "ports too high";
    EXPECT_NEAR(match.after[0].up_the_face_mm, 0.0, 1e-12);
}

// One head alone, worked by hand at 90°, faces square to the decks: up the right face is along the
// right bank's cylinders, c, and the intake must go down by m along them and by nothing along the
// left bank's, square to them: d = -m·c = -m·(sin 45°, cos 45°). The right face then keeps what it
// had, since d is the head's own movement; the left stands n·d = -m nearer: m must come off it.
TEST(MillingMatch, OneHeadMilledMovesTheIntakeSideways) {
    const auto match = milling_match(face_of(1.0, 45.0, 0.0, 1.0), face_of(-1.0, 45.0, 0.0, 0.0));
    ASSERT_TRUE(match.ok());
    EXPECT_NEAR(match->sideways_mm, -std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(match->off_end_rails_mm, std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(match->off_face_mm[0], 0.0, 1e-12);
    EXPECT_NEAR(match->off_face_mm[1], 1.0, 1e-12);
}

TEST(MillingMatch, AThickerGasketWantsASpacerOrAThinnerIntakeGasket) {
    const MillingMatch raised = vee(45.0, 10.0, -0.5);
    EXPECT_NEAR(raised.off_face_mm[0], -0.5 * vee(45.0, 10.0, 1.0).off_face_mm[0], 1e-9);
    EXPECT_LT(raised.off_end_rails_mm, 0.0);
    // What the intake's gasket gained must come off besides.
    MatchedFace face = face_of(1.0, 45.0, 10.0, 1.0);
    MatchedFace other = face_of(-1.0, 45.0, 10.0, 1.0);
    face.gained_mm = 0.4;
    const auto match = milling_match(face, other);
    EXPECT_NEAR(match->off_face_mm[0] - match->off_face_mm[1], 0.4, 1e-12);
    EXPECT_NEAR(match->off_face_mm[1], vee(45.0, 10.0, 1.0).off_face_mm[1], 1e-12);
    EXPECT_NEAR(match->off_end_rails_mm, vee(45.0, 10.0, 1.0).off_end_rails_mm, 1e-12);
}

// Put back into an engine: with that milled off, the engine's own intake shift finds its ports
// level whatever was done to heads and gaskets, and the rails where they were said to be.
TEST(MillingMatch, TheEnginesOwnShiftFindsThePortsLevelAfterwards) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    const Engine demo = *make_engine(demo_with_card_lobes());
    for (int round = 0; round < 500; ++round) {
        Engine engine = demo;
        for (std::size_t bank = 0; bank < 2; ++bank) {
            const double side = engine.layout.banks[bank].lean_deg > 0.0 ? -1.0 : 1.0;
            const double slope = radians(20.0 * unit(random));
            engine.flanges[bank] = FlangeSetting{};
            engine.flanges[bank]->normal_K =
                Vec3(0.03 * unit(random), side * std::cos(slope), std::sin(slope)).normalized();
            engine.flanges[bank]->gasket_mm = 1.5 + 0.5 * unit(random);
            engine.flanges[bank]->gasket_when_located_mm = 1.5;
            engine.set_head(bank, {1.0 + 0.5 * unit(random), 1.0, 0.5 + 0.5 * unit(random),
                                   0.5 + 0.5 * unit(random)});
        }
        const auto match = milling_match(engine);
        ASSERT_TRUE(match.ok());
        for (std::size_t bank = 0; bank < 2; ++bank) {
            const auto before = intake_shift(engine, bank);
            ASSERT_NEAR(match->before[bank].up_the_face_mm, (**before).ports.up_the_face_mm, 1e-11);
        }
        for (std::size_t bank = 0; bank < 2; ++bank) {
            engine.flanges[bank]->manifold_face_milled_mm += match->off_face_mm[bank];
        }
        for (std::size_t bank = 0; bank < 2; ++bank) {
            const IntakeShift after = **intake_shift(engine, bank);
            ASSERT_NEAR(after.ports.up_the_face_mm, 0.0, 1e-10);
            ASSERT_NEAR(after.height_mm, -match->off_end_rails_mm, 1e-10);
            ASSERT_NEAR(after.sideways_mm, match->sideways_mm, 1e-10);
        }
    }
}

TEST(MillingMatch, WhereNoCutCanHelpItSaysSo) {
    // Faces that look straight up: the intake can only come down.
    const auto level = milling_match(face_of(1.0, 45.0, 45.0, 1.0), face_of(-1.0, 45.0, 45.0, 1.0));
    EXPECT_EQ(level.error().code, ErrorCode::banks_parallel);
    const Engine six = *make_engine(demo_fields("inline-six"));
    EXPECT_EQ(milling_match(six).error().code, ErrorCode::missing_field);
    SetUpFields fields = demo_with_card_lobes();
    put_word(fields, "engine/intake_casting", "one_for_each_bank");
    EXPECT_EQ(milling_match(*make_engine(fields)).error().code, ErrorCode::not_of_this_kind);
}

TEST(MillingMatch, BadInputIsNamed) {
    const MatchedFace good = face_of(1.0, 45.0, 0.0, 1.0);
    MatchedFace bad = face_of(-1.0, 45.0, 0.0, 1.0);
    bad.normal_E *= 0.9;
    EXPECT_EQ(milling_match(good, bad).error().code, ErrorCode::not_a_direction);
    EXPECT_EQ(milling_match(good, bad).error().line, 2);
    bad = face_of(-1.0, 45.0, 0.0, 101.0 * std::sqrt(2.0));
    EXPECT_EQ(milling_match(good, bad).error().field, "head_moved");
    bad = good;
    bad.gained_mm = std::nan("");
    EXPECT_EQ(milling_match(good, bad).error().field, "gained");
    bad = good;
    bad.normal_E.x() = std::nan("");
    EXPECT_EQ(milling_match(good, bad).error().code, ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
