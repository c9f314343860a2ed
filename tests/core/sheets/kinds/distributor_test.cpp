#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

WrittenReadings washer_and_gap(const char* gap) {
    WrittenReadings written;
    written.write("distributor_washer", "", ".062").write("distributor_washer_gap", "", gap);
    return written;
}

// Source: britishcarforum.com 17373: float .003 to .007; washer .062, gap .060 is +.002, add .003;
// gap .065 is -.003, add .008.
TEST(DistributorSheet, FloatAndShimFollowFromWasherAndFeeler) {
    const WorkedSheet sheet("distributor", washer_and_gap(".060"));
    EXPECT_NEAR(sheet.middle("distributor_float"), 2.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("distributor_shim_to_add"), 3.0 * thou, 1e-9);
    // .002 to a thou in each of two readings may be .003.
    EXPECT_EQ(sheet.verdict("distributor_float"), SheetVerdict::too_close);
    const WorkedSheet bears("distributor", washer_and_gap(".065"));
    EXPECT_NEAR(bears.middle("distributor_float"), -3.0 * thou, 1e-9);
    EXPECT_NEAR(bears.middle("distributor_shim_to_add"), 8.0 * thou, 1e-9);
    EXPECT_EQ(bears.verdict("distributor_float"), SheetVerdict::failed);
    const WorkedSheet good("distributor", washer_and_gap(".057"));
    EXPECT_EQ(good.verdict("distributor_float"), SheetVerdict::passed);
}

TEST(DistributorSheet, ADialThatContradictsTheWasherIsAnotherMethod) {
    WrittenReadings written = washer_and_gap(".060");
    written.write("distributor_float", "", ".006");
    EXPECT_THAT(WorkedSheet("distributor", written).found(PointedOut::methods_differ), SizeIs(1));
}

// By hand: an intake milled so that it sits .020 lower, on a gasket .005 thicker: .015 lower; a
// shim of .015 puts it back; room over the pump's drive shrinks from .010 to -.005.
TEST(DistributorSheet, WhatLetsItDownTakesFromTheRoomOverThePump) {
    WrittenReadings written;
    written.write("distributor_raised_by_intake", "", "-.020")
        .write("distributor_raised_by_gasket", "", ".005");
    WorkedSheet sheet("distributor", written);
    EXPECT_NEAR(sheet.middle("distributor_raised"), -15.0 * thou, 1e-9);
    EXPECT_NEAR(sheet.middle("distributor_height_shim"), 15.0 * thou, 1e-9);
    EXPECT_FALSE(sheet.figure("pump_drive_room"));
    written.write("pump_drive_room_before", "", ".010");
    sheet = WorkedSheet("distributor", written);
    EXPECT_NEAR(sheet.middle("pump_drive_room"), -5.0 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("pump_drive_room"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
