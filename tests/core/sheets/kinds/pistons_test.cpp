#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

WrittenReadings piston_and_bore() {
    WrittenReadings written;
    return written.write("bore", "3 top thrust", "4.0312")
        .write("bore", "3 bottom thrust", "4.0308")
        .write("bore", "3 bottom pin", "4.0301")
        .write("piston_size", "3", "4.0265")
        .write("piston_gauge_height", "", ".500");
}

// By hand: the skirt meets the thrust sides, where the bore is 4.0308 at its narrowest.
TEST(PistonsSheet, WallClearanceIsTheBoreAcrossTheThrustSidesLessThePiston) {
    const FilledSheet sheet("pistons", piston_and_bore());
    expect_figure(sheet.figure("piston_wall_clearance", "3"), 0.0043, 0.0001, in);
    EXPECT_FALSE(sheet.figure("piston_wall_clearance", "4"));
    EXPECT_THAT(sheet.findings(), IsEmpty());
}

TEST(PistonsSheet, ABoreReadAlongThePinOnlySaysNothingOfTheSkirt) {
    WrittenReadings written;
    written.write("bore", "3 top pin", "4.0308").write("piston_size", "3", "4.0265");
    EXPECT_FALSE(FilledSheet("pistons", written).figure("piston_wall_clearance", "3"));
    written.write("bore", "3", "4.0310");
    expect_figure(FilledSheet("pistons", written).figure("piston_wall_clearance", "3"), 0.0045,
                  0.0001, in);
}

TEST(PistonsSheet, AClearanceByHandThatTheSizesContradictIsPointedOut) {
    WrittenReadings written = piston_and_bore();
    written.write("piston_wall_clearance", "3", ".0060");
    const auto found = FilledSheet("pistons", written).findings();
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::stated_differs);
    written.write("piston_wall_clearance", "3", ".0043");
    EXPECT_THAT(FilledSheet("pistons", written).findings(), IsEmpty());
}

TEST(PistonsSheet, ASkirtMeasuredNobodyKnowsWhereIsPointedOut) {
    WrittenReadings written;
    written.write("bore", "3", "4.0308").write("piston_size", "3", "4.0265");
    const auto found = FilledSheet("pistons", written).findings();
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::needs_reading);
    EXPECT_EQ(found[0].other, "piston_gauge_height");
}

TEST(PistonsSheet, EveryPistonIsSetBesideTheLightest) {
    WrittenReadings written;
    written.write("piston_mass", "1", "583.9")
        .write("piston_mass", "2", "584.6")
        .write("piston_mass", "3", "583.5");
    const FilledSheet sheet("pistons", written);
    expect_figure(sheet.figure("piston_over_lightest", "2"), 1.1, 0.1, 1.0);
    expect_figure(sheet.figure("piston_over_lightest", "1"), 0.4, 0.1, 1.0);
    expect_figure(sheet.figure("piston_mass_spread", ""), 1.1, 0.1, 1.0);
}

} // namespace
} // namespace rodway
