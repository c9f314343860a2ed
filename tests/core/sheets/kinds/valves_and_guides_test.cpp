#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

// .3430 - .3415 = .0015; intake .0010 to .0020, exhaust .0015 to .0025: common practice.
TEST(ValvesAndGuidesSheet, StemClearanceIsJudgedByValve) {
    WrittenReadings written;
    for (const char* valve : {"1I", "1E"}) {
        written.write("guide_bore", valve, ".3430").write("valve_stem_diameter", valve, ".3415");
    }
    const WorkedSheet sheet("valves_and_guides", written);
    EXPECT_NEAR(sheet.middle("stem_clearance", "1I"), 1.5 * thou, 1e-9);
    EXPECT_NEAR(sheet.figure("stem_clearance", "1I")->half_width(), 0.1 * thou, 1e-9);
    EXPECT_EQ(sheet.verdict("stem_clearance", "1I"), SheetVerdict::passed);
    EXPECT_EQ(sheet.verdict("stem_clearance", "1E"), SheetVerdict::too_close);
}

TEST(ValvesAndGuidesSheet, AClearanceThatItsDiametersDenyIsPointedOut) {
    WrittenReadings written;
    written.write("guide_bore", "1I", ".3430")
        .write("valve_stem_diameter", "1I", ".3415")
        .write("stem_clearance", "1I", ".0025");
    EXPECT_THAT(WorkedSheet("valves_and_guides", written).found(PointedOut::stated_differs),
                SizeIs(1));
}

TEST(ValvesAndGuidesSheet, WearIsWhatTheStemHasLost) {
    WrittenReadings written;
    written.write("valve_stem_diameter", "1E", ".3405").write("valve_stem_unworn", "1E", ".3412");
    const WorkedSheet sheet("valves_and_guides", written);
    EXPECT_NEAR(sheet.middle("valve_stem_wear", "1E"), 0.7 * thou, 1e-9);
    EXPECT_FALSE(sheet.figure("stem_clearance", "1E"));
}

} // namespace
} // namespace rodway
