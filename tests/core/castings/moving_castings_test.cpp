#include "core/castings/moving_castings.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "core/units/length.h"

namespace rodway {
namespace {

/// Face of a bank that leans by `lean_deg`, looking inboard, square to its deck.
IntakeFace face(double lean_deg, double gained_mm) {
    const BankFrame frame(lean_deg * std::numbers::pi / 180.0);
    return {frame.to_block(Vec3(0.0, lean_deg > 0.0 ? -1.0 : 1.0, 0.0)), gained_mm};
}

// Closed form: on faces square to the decks of a 90° vee the casting rises by √2 of the gasket.
TEST(IntakeMovement, SixtyThousandthsOnBothFlangesOfANinetyDegreeVee) {
    const double gasket = Length::inches(0.060).in_mm();
    const auto moved = intake_movement_E({face(45.0, gasket), face(-45.0, gasket)});
    ASSERT_TRUE(moved.ok());
    EXPECT_NEAR(moved->z(), gasket * std::sqrt(2.0), 1e-12);
    EXPECT_NEAR(Length::mm(moved->z()).in_inches(), 0.0849, 0.00005); // as the trade prints it
    EXPECT_NEAR(moved->y(), 0.0, 1e-12);
    EXPECT_EQ(moved->x(), 0.0);
}

// Closed form, t/n_z, for faces at any slope that are each other's mirror images.
TEST(IntakeMovement, ASymmetricVeeRisesByTheGasketOverTheNormalsHeight) {
    for (const double slope_deg : {5.0, 20.0, 45.0, 55.0, 70.0}) {
        const double slope = slope_deg * std::numbers::pi / 180.0;
        for (const double t : {1.5, -0.4}) {
            const auto moved =
                intake_movement_E({{Vec3(0.0, -std::cos(slope), std::sin(slope)), t},
                                   {Vec3(0.0, std::cos(slope), std::sin(slope)), t}});
            ASSERT_TRUE(moved.ok());
            EXPECT_NEAR(moved->z(), t / std::sin(slope), 1e-12) << slope_deg;
            EXPECT_NEAR(moved->y(), 0.0, 1e-12) << slope_deg;
        }
    }
}

TEST(IntakeMovement, GainOnOneFlangeMovesItSidewaysToo) {
    const auto moved = intake_movement_E({face(45.0, 1.0), face(-45.0, 0.0)});
    ASSERT_TRUE(moved.ok());
    // n·d = 1 on the right face, 0 on the left: straight along the left face's plane.
    EXPECT_NEAR(face(45.0, 0.0).normal_E.dot(*moved), 1.0, 1e-12);
    EXPECT_NEAR(face(-45.0, 0.0).normal_E.dot(*moved), 0.0, 1e-12);
    EXPECT_NEAR(moved->z(), std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(moved->y(), -std::sqrt(0.5), 1e-12); // away from the bank at +y
}

TEST(IntakeMovement, BothFacesStayTouchedOnUnequalBanks) {
    for (const double lean : {20.0, 30.0, 45.0, 60.0}) {
        for (const auto& [right, left] :
             {std::pair{0.5, 1.25}, std::pair{-0.8, 0.3}, std::pair{0.0, 0.0}}) {
            const std::vector<IntakeFace> faces{face(lean, right), face(-lean - 10.0, left)};
            const auto moved = intake_movement_E(faces);
            ASSERT_TRUE(moved.ok());
            for (const IntakeFace& each : faces) {
                EXPECT_NEAR(each.normal_E.dot(*moved), each.gained_mm, 1e-12);
            }
            EXPECT_EQ(moved->x(), 0.0);
        }
    }
}

TEST(IntakeMovement, OneFlangeMovesStraightOffItsFace) {
    const IntakeFace only{Vec3(0.0, -0.6, 0.8), 0.75};
    EXPECT_LT((*intake_movement_E({only}) - Vec3(0.0, -0.45, 0.6)).norm(), 1e-15);
    EXPECT_EQ(*intake_movement_E({}), Vec3(Vec3::Zero()));
}

TEST(IntakeMovement, FacesThatDoNotFixItAreRefused) {
    const double degree = std::numbers::pi / 180.0;
    const auto turned = [&](double angle) {
        return IntakeFace{Vec3(0.0, std::sin(angle), std::cos(angle)), 1.0};
    };
    for (const double apart : {0.0, 1.0, 2.5, 178.0, 180.0}) {
        const auto moved = intake_movement_E({turned(0.3), turned(0.3 + apart * degree)});
        ASSERT_FALSE(moved.ok()) << apart;
        EXPECT_EQ(moved.error().code, ErrorCode::banks_parallel);
    }
    EXPECT_TRUE(intake_movement_E({turned(0.3), turned(0.3 + 5.0 * degree)}).ok());
    // On a flat engine faces square to their decks both look up: nothing holds the intake sideways.
    const auto flat = intake_movement_E({face(90.0, 1.0), face(-90.0, 1.0)});
    ASSERT_FALSE(flat.ok());
    EXPECT_EQ(flat.error().code, ErrorCode::banks_parallel);
}

TEST(IntakeMovement, MoreFacesThanFixItAreRefused) {
    const auto moved = intake_movement_E({face(45.0, 1.0), face(-45.0, 1.0), face(10.0, 1.0)});
    ASSERT_FALSE(moved.ok());
    EXPECT_EQ(moved.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(moved.error().value, "3");
}

TEST(IntakeMovement, WhatIsNoNumberIsRefused) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    for (const double bad : {nan, infinity, -infinity}) {
        for (const auto& faces :
             {std::vector{IntakeFace{Vec3::UnitZ(), bad}},
              std::vector{IntakeFace{Vec3(0.0, bad, 1.0), 1.0}},
              std::vector{face(45.0, 1.0), IntakeFace{Vec3::UnitZ(), bad}},
              std::vector{face(45.0, 1.0), IntakeFace{Vec3(0.0, 0.0, bad), 1.0}}}) {
            const auto moved = intake_movement_E(faces);
            ASSERT_FALSE(moved.ok());
            EXPECT_EQ(moved.error().code, ErrorCode::not_a_number);
        }
    }
}

} // namespace
} // namespace rodway
