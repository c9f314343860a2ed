#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double thou = 0.001 * mm_per_inch;

double gained_mm(const char* thread, const char* turns) {
    WrittenReadings written;
    written.write("checker_closed_length", "", "7.000")
        .write("checker_thread", "", thread)
        .write("pushrod_checker_turns", "1I", turns);
    return WorkedSheet("pushrods", written).middle("pushrod_length", "1I") - 7.0 * mm_per_inch;
}

// Source: ls1tech.com 274125, what .008 is in degrees: 73.15 of a 1.0 mm thread; of a 5/16-18 it
// prints 52.36, where 51.84 is right (.008 · 18 · 360): 52.36 would be .0081.
TEST(PushrodsSheet, LengthFollowsFromTheCheckersTurnsAndThread) {
    EXPECT_NEAR(gained_mm("1.0 mm", ".20319"), 8.0 * thou, 2e-4);
    EXPECT_NEAR(gained_mm("5/16-18", ".14400"), 8.0 * thou, 1e-9);
    EXPECT_NEAR(gained_mm("5/16-18", ".14544"), 8.08 * thou, 1e-9);
    EXPECT_NEAR(gained_mm(".050 in", "3.5"), 175.0 * thou, 1e-9);
}

// .050 a turn is common, and not taken for granted.
TEST(PushrodsSheet, AThreadThatNobodyMeasuredIsAskedFor) {
    WrittenReadings written;
    written.write("checker_closed_length", "", "7.000").write("pushrod_checker_turns", "1I", "3.5");
    const WorkedSheet sheet("pushrods", written);
    EXPECT_FALSE(sheet.figure("pushrod_length", "1I"));
    const auto found = sheet.found(PointedOut::needs_reading);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "checker_thread");
}

TEST(PushrodsSheet, ALengthThatItsTurnsDenyIsPointedOut) {
    WrittenReadings written;
    written.write("checker_closed_length", "", "7.000")
        .write("checker_thread", "", ".050 in")
        .write("pushrod_checker_turns", "1I", "4.0")
        .write("pushrod_length", "1I", "7.200");
    EXPECT_THAT(WorkedSheet("pushrods", written).findings(), IsEmpty());
    written.write("pushrod_length", "1I", "7.250");
    EXPECT_THAT(WorkedSheet("pushrods", written).found(PointedOut::stated_differs), SizeIs(1));
}

TEST(PushrodsSheet, SpreadIsLongestLessShortest) {
    WrittenReadings written;
    written.write("pushrod_length", "1I", "7.800");
    EXPECT_FALSE(WorkedSheet("pushrods", written).figure("pushrod_length_spread"));
    written.write("pushrod_length", "1E", "7.850").write("pushrod_length", "2I", "7.790");
    EXPECT_NEAR(WorkedSheet("pushrods", written).middle("pushrod_length_spread"), 60.0 * thou,
                1e-9);
}

} // namespace
} // namespace rodway
