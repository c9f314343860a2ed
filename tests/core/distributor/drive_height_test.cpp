#include "core/distributor/drive_height.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/intake/milling_match.h"

namespace rodway {
namespace {

using Cause = DriveHeightCause;

// Question 31; worked by hand: 1.9 down with the intake, .8 up on a gasket, .3 up on a shim.
TEST(DriveHeight, IsTheStackOfEverythingThatCarriesIt) {
    const auto height = drive_height({{Cause::intake, {-2.0, -1.8}},
                                      {Cause::distributor_gasket, {0.7, 0.9}},
                                      {Cause::housing_shim, Interval::exactly(0.3)}},
                                     Interval{1.0, 1.2});
    ASSERT_TRUE(height.ok());
    EXPECT_NEAR(height->raised_mm.low, -1.0, 1e-12);
    EXPECT_NEAR(height->raised_mm.high, -0.6, 1e-12);
    EXPECT_NEAR(height->housing_shim_mm.low, 0.6, 1e-12) << "so much more must go under it";
    EXPECT_NEAR(height->housing_shim_mm.high, 1.0, 1e-12);
    EXPECT_NEAR(height->pump_room_mm->low, 0.0, 1e-12);
    EXPECT_NEAR(height->pump_room_mm->high, 0.6, 1e-12);
    EXPECT_EQ(height->pump_drive, PumpDrive::clear);
}

TEST(DriveHeight, ALoweredIntakeMayStandItsDistributorOnThePump) {
    const std::vector<DriveHeightItem> milled{{Cause::intake, {-2.0, -1.8}}};
    EXPECT_EQ(drive_height(milled, Interval{1.0, 1.2})->pump_drive, PumpDrive::bottoms);
    EXPECT_NEAR(drive_height(milled, Interval{1.0, 1.2})->pump_room_mm->low, -1.0, 1e-12);
    EXPECT_EQ(drive_height(milled, Interval{1.7, 1.9})->pump_drive, PumpDrive::undecided);
    EXPECT_EQ(drive_height(milled)->pump_drive, PumpDrive::not_known);
    EXPECT_FALSE(drive_height(milled)->pump_room_mm.has_value());
    // Raised: a shim comes out.
    EXPECT_LT(drive_height({{Cause::intake, {0.4, 0.6}}})->housing_shim_mm.high, 0.0);
}

// Heads of a 90° vee let down by 1 mm, faces square to the decks: the matched intake comes down by
// √2 (see the match's own test), and so much goes under the distributor.
TEST(DriveHeight, TakesUpWhatTheMatchedIntakeCameDown) {
    const double half = std::sqrt(0.5);
    const auto match = milling_match({Vec3(0.0, -half, half), Vec3(0.0, -half, -half), 0.0},
                                     {Vec3(0.0, half, half), Vec3(0.0, half, -half), 0.0});
    ASSERT_TRUE(match.ok());
    const auto height =
        drive_height({{Cause::intake, Interval::exactly(-match->off_end_rails_mm)}});
    EXPECT_NEAR(height->housing_shim_mm.middle(), std::sqrt(2.0), 1e-12);
}

TEST(DriveHeight, BadInputIsNamed) {
    EXPECT_EQ(drive_height({}).error().code, ErrorCode::too_few_rows);
    const auto bad = drive_height(
        {{Cause::intake, {0.0, 1.0}}, {Cause::intake, Interval::exactly(std::nan(""))}});
    EXPECT_EQ(bad.error().field, "raises");
    EXPECT_EQ(bad.error().line, 2);
    EXPECT_EQ(drive_height({{Cause::intake, {0.0, 1.0}}}, Interval{-1.0, 1.0}).error().field,
              "pump_room");
}

} // namespace
} // namespace rodway
