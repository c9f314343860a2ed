#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

// By hand: 8.000 + .060 - 7.690 = .370. Without the gasket it would be .310.
TEST(OilingSheet, PickupToPanCountsTheGasket) {
    WrittenReadings written;
    written.write("pan_depth", "", "8.000").write("pickup_below_rail", "", "7.690");
    EXPECT_FALSE(WorkedSheet("oiling", written).figure("pickup_depth"));
    written.write("pan_gasket", "", ".060");
    EXPECT_NEAR(WorkedSheet("oiling", written).middle("pickup_depth"), 0.370 * mm_per_inch, 1e-9);
    written.write("pickup_depth", "", ".310");
    EXPECT_EQ(WorkedSheet("oiling", written).found(PointedOut::methods_differ).size(), 1U);
}

} // namespace
} // namespace rodway
