#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

// By hand: 0.8430 to 0.8435 less 0.8420.
TEST(LifterBoresSheet, ClearanceAndTaperFollowFromAllHeightsRead) {
    WrittenReadings written;
    written.write("lifter_bore_top", "3I", ".8435")
        .write("lifter_bore_diameter", "3I", ".8432")
        .write("lifter_bore_bottom", "3I", ".8430")
        .write("lifter_diameter", "3I", ".8420")
        .write("lifter_bore_diameter", "3E", ".8432");
    const FilledSheet sheet("lifter_bores", written);
    expect_figure(sheet.figure("lifter_bore_clearance", "3I"), 0.00125, 0.00035, in);
    expect_figure(sheet.figure("lifter_bore_taper", "3I"), 0.0005, 0.0001, in);
    EXPECT_FALSE(sheet.figure("lifter_bore_clearance", "3E")); // its lifter wasn't measured
    EXPECT_FALSE(sheet.figure("lifter_bore_taper", "3E"));
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

TEST(LifterBoresSheet, ATaperByHandThatTheEndsContradictIsPointedOut) {
    WrittenReadings written;
    written.write("lifter_bore_top", "3I", ".8435")
        .write("lifter_bore_bottom", "3I", ".8430")
        .write("lifter_bore_taper", "3I", ".0002");
    const auto found = FilledSheet("lifter_bores", written).findings();
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::stated_differs);
    EXPECT_EQ(found[0].quantity, "lifter_bore_taper");
}

// .0010 to .0020: common practice, no source.
TEST(LifterBoresSheet, AThousandthToTwoIsUsual) {
    const auto verdict = [](const char* bore) {
        WrittenReadings written;
        written.write("lifter_bore_diameter", "3I", bore).write("lifter_diameter", "3I", ".8420");
        return FilledSheet("lifter_bores", written).verdict("lifter_bore_clearance", "3I");
    };
    EXPECT_EQ(verdict(".8435"), SheetVerdict::passed);
    EXPECT_EQ(verdict(".8427"), SheetVerdict::failed);
    EXPECT_EQ(verdict(".8443"), SheetVerdict::failed);
}

} // namespace
} // namespace rodway
