#include "core/tubes/tube_seal.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

/// Made up: a tube of 16, a bore of 21, a ring of 15.5 by 3 as it lies.
TubeSealReadings readings() {
    return {Interval::about(16.0, 0.02), Interval::about(21.0, 0.02), Interval::about(15.5, 0.1),
            Interval::about(21.5, 0.1)};
}

// Worked by hand: gripped by .5, held by .5; the section of 3 has 2.5 to sit in: a sixth.
TEST(TubeSeal, IsSqueezedByWhatTheGlandLacks) {
    const auto seal = tube_seal(readings());
    ASSERT_TRUE(seal.ok());
    EXPECT_NEAR(seal->on_tube_mm.low, 0.38, 1e-9);
    EXPECT_NEAR(seal->on_tube_mm.high, 0.62, 1e-9);
    EXPECT_NEAR(seal->in_housing_mm.middle(), 0.5, 1e-9);
    EXPECT_NEAR(seal->squeeze_mm.middle(), 0.5, 1e-9);
    EXPECT_NEAR(seal->squeeze_mm.half_width(), 0.12, 1e-9);
    EXPECT_EQ(seal->fit, SealFit::tight);
}

TEST(TubeSeal, TheShareHoldsEveryCornerOfTheDoubts) {
    const TubeSealReadings read = readings();
    const auto seal = tube_seal(read);
    double least = 1.0;
    double most = 0.0;
    for (const double tube : {read.tube_outside_mm.low, read.tube_outside_mm.high}) {
        for (const double housing : {read.housing_bore_mm.low, read.housing_bore_mm.high}) {
            for (const double inside : {read.seal_inside_mm.low, read.seal_inside_mm.high}) {
                for (const double outside : {read.seal_outside_mm.low, read.seal_outside_mm.high}) {
                    const double section = (outside - inside) / 2.0;
                    const double share = (section - (housing - tube) / 2.0) / section;
                    least = std::min(least, share);
                    most = std::max(most, share);
                }
            }
        }
    }
    EXPECT_NEAR(seal->squeeze_share.low, least, 1e-12);
    EXPECT_NEAR(seal->squeeze_share.high, most, 1e-12);
    EXPECT_NEAR((least + most) / 2.0, 1.0 / 6.0, 0.002);
}

TEST(TubeSeal, ATightRingMayBeLooseInAWornBore) {
    TubeSealReadings read = readings();
    read.housing_bore_mm = Interval::about(22.0, 0.02);
    EXPECT_EQ(tube_seal(read)->fit, SealFit::undecided);
    EXPECT_LT(tube_seal(read)->in_housing_mm.high, 0.0);
    EXPECT_GT(tube_seal(read)->on_tube_mm.low, 0.0);
    read.housing_bore_mm = Interval::about(22.5, 0.02);
    EXPECT_EQ(tube_seal(read)->fit, SealFit::loose);
}

TEST(TubeSeal, BadReadingsAreNamed) {
    TubeSealReadings read = readings();
    read.housing_bore_mm = read.tube_outside_mm;
    EXPECT_EQ(tube_seal(read).error().field, "housing_bore");
    read = readings();
    read.seal_outside_mm = {15.0, 21.0};
    EXPECT_EQ(tube_seal(read).error().field, "seal_outside");
    read.seal_outside_mm = {15.55, 21.0}; // its inside may be 15.6
    EXPECT_EQ(tube_seal(read).error().field, "seal_outside");
    read = readings();
    read.tube_outside_mm = {0.0, 16.0};
    EXPECT_EQ(tube_seal(read).error().field, "tube_outside");
    read = readings();
    read.seal_inside_mm.low = std::nan("");
    EXPECT_EQ(tube_seal(read).error().code, ErrorCode::not_a_number);
}

} // namespace
} // namespace rodway
