#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

// Source: fordsix.com/threads/lobe-center.45308: 21/51/57/15: 252/252, I 105, E 111, separation
// 108, overlap 36. So it is 3 ahead.
TEST(CamCardSheet, EventsMakeTheCardsOtherFigures) {
    WrittenReadings written;
    written.write("card_events", "", "21/51/57/15");
    const WorkedSheet sheet("cam_card", written);
    EXPECT_NEAR(sheet.middle("card_duration_by_events", "I"), 252.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_duration_by_events", "E"), 252.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_centreline", "I"), 105.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_centreline", "E"), -111.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_lobe_separation"), 108.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_overlap"), 36.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_advance"), 3.0, 1e-9);
}

TEST(CamCardSheet, ACardThatContradictsItsEventsIsPointedOut) {
    WrittenReadings written;
    written.write("card_events", "", "21/51/57/15")
        .write("card_centreline", "I", "105")
        .write("card_centreline", "E", "-111")
        .write("card_lobe_separation", "", "108");
    EXPECT_THAT(WorkedSheet("cam_card", written).findings(), IsEmpty());
    written.write("card_centreline", "I", "108");
    const auto found = WorkedSheet("cam_card", written).found(PointedOut::stated_differs);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("I"));
}

TEST(CamCardSheet, CentrelinesAloneMakeSeparationAndAdvance) {
    WrittenReadings written;
    written.write("card_centreline", "I", "106").write("card_centreline", "E", "-114");
    WorkedSheet sheet("cam_card", written);
    EXPECT_NEAR(sheet.middle("card_lobe_separation"), 110.0, 1e-9);
    EXPECT_NEAR(sheet.middle("card_advance"), 4.0, 1e-9);
    EXPECT_FALSE(sheet.figure("card_overlap"));
    written.write("card_lobe_separation", "", "108");
    EXPECT_THAT(WorkedSheet("cam_card", written).found(PointedOut::stated_differs), SizeIs(1));
}

TEST(CamCardSheet, EventsThatCannotBeReadMakeNothing) {
    WrittenReadings written;
    written.write("card_events", "", "see box");
    EXPECT_FALSE(WorkedSheet("cam_card", written).figure("card_overlap"));
}

} // namespace
} // namespace rodway
