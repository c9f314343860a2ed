#include "core/sheets/sheet_assessment.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "core/base/assert.h"
#include "core/sheets/sheet_kinds.h"
#include "tests/core/sheets/sheet_readings.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

EnginePlaces four_in_line() {
    EnginePlaces places;
    places.cylinders = places.front_to_rear = {1, 2, 3, 4};
    places.firing_order = {1, 3, 4, 2};
    places.main_journals = places.cam_journals = 5;
    for (int cylinder = 1; cylinder <= 4; ++cylinder) {
        places.valves.push_back({cylinder, ValveKind::intake});
        places.valves.push_back({cylinder, ValveKind::exhaust});
    }
    return places;
}

AssessedSheet assess(const char* kind, const WrittenReadings& written,
                     const std::vector<SheetLimit>& limits = {},
                     EntryOrder order = EntryOrder::by_number) {
    const TakenReadings taken(written.all());
    const EnginePlaces places = four_in_line();
    return assess_sheet(*find_sheet_kind(kind), {taken, &places}, limits, order);
}

const SheetLine& line(const AssessedSheet& sheet, std::string_view quantity) {
    const auto found =
        std::find_if(sheet.lines.begin(), sheet.lines.end(),
                     [&](const SheetLine& one) { return one.quantity.id == quantity; });
    RODWAY_ASSERT(found != sheet.lines.end());
    return *found;
}

const SheetBox& box(const AssessedSheet& sheet, std::string_view quantity,
                    std::string_view position) {
    const std::vector<SheetBox>& boxes = line(sheet, quantity).boxes;
    const auto found = std::find_if(boxes.begin(), boxes.end(),
                                    [&](const SheetBox& one) { return one.position == position; });
    RODWAY_ASSERT(found != boxes.end());
    return *found;
}

TEST(SheetAssessment, AnEmptySheetHasItsUsualPositionsAndNothingFilled) {
    const AssessedSheet sheet = assess("main_bearings", {});
    EXPECT_THAT(line(sheet, "main_diameter").boxes, SizeIs(5));
    EXPECT_EQ(line(sheet, "main_diameter").boxes[1].position, "J2");
    EXPECT_EQ(sheet.boxes_filled, 0);
    EXPECT_EQ(sheet.boxes_to_fill, 25);
    EXPECT_THAT(sheet.findings, IsEmpty());
}

TEST(SheetAssessment, PositionsBeyondTheUsualFollowThemAndDoNotCountAsToBeFilled) {
    WrittenReadings written;
    written.write("main_diameter", "J2 front vertical", "2.4480")
        .write("main_diameter", "J1", "n/m");
    const AssessedSheet sheet = assess("main_bearings", written);
    EXPECT_THAT(line(sheet, "main_diameter").boxes, SizeIs(6));
    EXPECT_EQ(line(sheet, "main_diameter").boxes[5].position, "J2 front vertical");
    EXPECT_EQ(sheet.boxes_to_fill, 25);
    EXPECT_EQ(sheet.boxes_filled, 1);
}

TEST(SheetAssessment, WithoutASetUpOnlyWhatWasWrittenIsThere) {
    WrittenReadings written;
    written.write("main_diameter", "J2", "2.4480");
    const TakenReadings taken(written.all());
    const AssessedSheet sheet =
        assess_sheet(*find_sheet_kind("main_bearings"), {taken}, {}, EntryOrder::by_number);
    EXPECT_THAT(line(sheet, "main_diameter").boxes, SizeIs(1));
    EXPECT_THAT(line(sheet, "main_clearance").boxes, IsEmpty());
}

// builder-style numbers; expected by hand: 2.4505 - 2.4480 = .0025, each known to half of .0001.
TEST(SheetAssessment, ClearanceFollowsFromBoreAndJournalAndIsJudged) {
    WrittenReadings written;
    written.write("main_diameter", "J2 vertical", "2.4480")
        .write("main_diameter", "J2 horizontal", "2.4479")
        .write("main_bearing_bore", "J2 vertical", "2.4505");
    const AssessedSheet sheet = assess("main_bearings", written);
    const SheetBox& clearance = box(sheet, "main_clearance", "J2");
    ASSERT_TRUE(clearance.figure);
    EXPECT_NEAR(clearance.figure->low, (0.0025 - 0.0001) * 25.4, 1e-9);
    EXPECT_NEAR(clearance.figure->high, (0.0026 + 0.0001) * 25.4, 1e-9);
    ASSERT_TRUE(clearance.limit);
    EXPECT_EQ(clearance.limit->usual, UsualSource::common_practice);
    EXPECT_EQ(clearance.verdict, SheetVerdict::passed);
    EXPECT_FALSE(box(sheet, "main_clearance", "J1").figure);
}

TEST(SheetAssessment, TheShopsLimitRulesBeforeCommonPractice) {
    WrittenReadings written;
    written.write("main_diameter", "J2", "2.4480").write("main_bearing_bore", "J2", "2.4505");
    SheetLimit own;
    own.quantity = "main_clearance";
    own.low = 0.0030 * 25.4;
    own.source = "the shop";
    const AssessedSheet sheet = assess("main_bearings", written, {own});
    // Common practice speaks of J2 itself, the shop of all: both belong to the shop's choice.
    EXPECT_EQ(box(sheet, "main_clearance", "J2").limit->source, "the shop");
    EXPECT_EQ(box(sheet, "main_clearance", "J2").verdict, SheetVerdict::failed);
    EXPECT_EQ(sheet.failed, 1);
}

TEST(SheetAssessment, AWornPartMayBeServiceableThoughNotAsNew) {
    SheetLimit as_new;
    as_new.quantity = "main_clearance";
    as_new.high = 0.0030 * 25.4;
    SheetLimit worn = as_new;
    worn.high = 0.0040 * 25.4;
    worn.holds_for = LimitFor::serviceable;
    const auto verdict = [&](const char* text) {
        WrittenReadings written;
        written.write("main_clearance", "J2", text);
        return box(assess("main_bearings", written, {as_new, worn}), "main_clearance", "J2")
            .verdict;
    };
    EXPECT_EQ(verdict(".0025"), SheetVerdict::passed);
    EXPECT_EQ(verdict(".0035"), SheetVerdict::serviceable);
    EXPECT_EQ(verdict(".0040"), SheetVerdict::too_close);
    EXPECT_EQ(verdict(".0045"), SheetVerdict::failed);
    // Both are told at every box, and by which of them it was judged.
    WrittenReadings written;
    written.write("main_clearance", "J2", ".0025").write("main_clearance", "J3", ".0035");
    const AssessedSheet sheet = assess("main_bearings", written, {as_new, worn});
    for (const char* position : {"J1", "J2", "J3"}) {
        const SheetBox& here = box(sheet, "main_clearance", position);
        EXPECT_DOUBLE_EQ(here.new_limit->high.value(), 0.0030 * 25.4) << position;
        EXPECT_DOUBLE_EQ(here.used_limit->high.value(), 0.0040 * 25.4) << position;
    }
    EXPECT_EQ(box(sheet, "main_clearance", "J2").limit->holds_for, LimitFor::new_parts);
    EXPECT_EQ(box(sheet, "main_clearance", "J3").limit->holds_for, LimitFor::serviceable);
    EXPECT_FALSE(box(sheet, "main_diameter", "J2").used_limit);
}

TEST(SheetAssessment, AGaugedClearanceThatTheDiametersContradictIsPointedOut) {
    WrittenReadings written;
    written.write("main_diameter", "J2", "2.4480")
        .write("main_bearing_bore", "J2", "2.4505")
        .write("main_clearance", "J2", ".0015");
    AssessedSheet sheet = assess("main_bearings", written);
    ASSERT_THAT(sheet.findings, SizeIs(1));
    EXPECT_EQ(sheet.findings[0].what, PointedOut::stated_differs);
    EXPECT_THAT(sheet.findings[0].positions, ElementsAre("J2"));
    written.write("main_clearance_method", "J2", "plastic strip");
    sheet = assess("main_bearings", written);
    ASSERT_THAT(sheet.findings, SizeIs(1));
    EXPECT_EQ(sheet.findings[0].what, PointedOut::methods_differ);
    written.write("main_clearance", "J2", ".0025");
    EXPECT_THAT(assess("main_bearings", written).findings, IsEmpty());
}

TEST(SheetAssessment, AReadingThatStandsApartFromItsRowIsPointedOutOnEverySheet) {
    WrittenReadings written;
    for (const char* valve : {"1I", "2I", "3I", "4I"}) {
        written.write("as_found_pushrod_length", valve, "7.800");
    }
    EXPECT_THAT(assess("as_found", written).findings, IsEmpty());
    written.write("as_found_pushrod_length", "3I", "7.850");
    const AssessedSheet sheet = assess("as_found", written);
    ASSERT_THAT(sheet.findings, SizeIs(1));
    EXPECT_EQ(sheet.findings[0].what, PointedOut::odd_one_out);
    EXPECT_EQ(sheet.findings[0].quantity, "as_found_pushrod_length");
    EXPECT_THAT(sheet.findings[0].positions, ElementsAre("3I"));
}

TEST(SheetAssessment, PositionsStandInTheOrderAskedFor) {
    const auto positions = [](EntryOrder order) {
        const AssessedSheet sheet = assess("compression", {}, {}, order);
        std::vector<std::string> names;
        for (const SheetBox& one : line(sheet, "compression_ratio").boxes) {
            names.push_back(one.position);
        }
        return names;
    };
    EXPECT_THAT(positions(EntryOrder::by_number), ElementsAre("1", "2", "3", "4"));
    EXPECT_THAT(positions(EntryOrder::firing_order), ElementsAre("1", "3", "4", "2"));
}

} // namespace
} // namespace rodway
