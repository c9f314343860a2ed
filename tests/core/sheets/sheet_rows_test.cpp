#include "core/sheets/sheet_rows.h"

#include <gmock/gmock.h>

#include "core/sheets/position.h"
#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

std::vector<SheetRow> rows(const char* kind, const char* quantity, const WrittenReadings& written) {
    const TakenReadings taken(written.all());
    const AssessedSheet sheet =
        assess_sheet(*find_sheet_kind(kind), {taken}, {}, EntryOrder::by_number);
    for (const SheetLine& line : sheet.lines) {
        if (line.quantity.id == quantity) {
            return rows_of(line);
        }
    }
    ADD_FAILURE() << "no line " << quantity;
    return {};
}

std::string name_of(const char* position, Place place) {
    const auto read = parse_sheet_position(position, place);
    EXPECT_TRUE(read.ok()) << position;
    return row_name(*read);
}

TEST(SheetRows, ARowHasEverythingInCommonButCylinderJournalAndBolt) {
    EXPECT_EQ(name_of("3I", Place::valve), "I");
    EXPECT_EQ(name_of("8E", Place::valve), "E");
    EXPECT_EQ(name_of("3I2", Place::valve), "I2");
    EXPECT_EQ(name_of("3I half", Place::valve_lift), "I half");
    EXPECT_EQ(name_of("4", Place::cylinder), "");
    EXPECT_EQ(name_of("3 second", Place::ring), "second");
    EXPECT_EQ(name_of("J2 front vertical", Place::main_journal), "front vertical");
    EXPECT_EQ(name_of("head left bolt 7 pass 2", Place::bolt_pass), "head left pass 2");
}

TEST(SheetRows, APositionIsPartedIntoWhereAlongTheEngineAndTheRest) {
    const auto bore = parted_position("3 top thrust", Place::bore);
    ASSERT_TRUE(bore);
    EXPECT_EQ(bore->along, "3");
    EXPECT_EQ(bore->rest, "top thrust");
    EXPECT_FALSE(bore->at_valve);
    EXPECT_EQ(bore->spot.cylinder, 3);
    const auto lift = parted_position("5E half", Place::valve_lift);
    ASSERT_TRUE(lift);
    EXPECT_EQ(lift->along, "5E");
    EXPECT_EQ(lift->rest, "half");
    EXPECT_TRUE(lift->at_valve);
    EXPECT_EQ(lift->spot, (ValvePosition{5, ValveKind::exhaust, 1}));
    EXPECT_EQ(parted_position("7", Place::cylinder)->rest, "");
    EXPECT_FALSE(parted_position("J2", Place::main_journal));
    EXPECT_FALSE(parted_position("head left bolt 7", Place::bolt));
    EXPECT_FALSE(parted_position("", Place::engine));
}

// By hand: 1.810 + 1.815 + 1.812 + 1.823 = 7.260.
TEST(SheetRows, IntakeAndExhaustAreRowsOfTheirOwnWithTheirLeastMostSpreadAndMean) {
    WrittenReadings written;
    written.write("spring_installed_height", "1I", "1.815");
    written.write("spring_installed_height", "1E", "1.700");
    written.write("spring_installed_height", "2I", "1.810");
    written.write("spring_installed_height", "3I", "1.812");
    written.write("spring_installed_height", "4I", "1.823");
    written.write("spring_installed_height", "2E", "1.690");
    written.write("spring_installed_height", "3E", "n/m");
    const auto found = rows("springs", "spring_installed_height", written);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].name, "I");
    const RowStatistics& intake = found[0].statistics;
    EXPECT_EQ(intake.count, 4U);
    EXPECT_EQ(found[0].readings[intake.least].position, "2I");
    EXPECT_EQ(found[0].readings[intake.greatest].position, "4I");
    EXPECT_NEAR(*intake.spread, 0.013 * in, 1e-9);
    EXPECT_NEAR(intake.mean, 1.815 * in, 1e-9);
    EXPECT_EQ(found[1].name, "E");
    EXPECT_EQ(found[1].statistics.count, 2U); // what wasn't measured is no zero
    EXPECT_NEAR(found[1].statistics.mean, 1.695 * in, 1e-9);
}

TEST(SheetRows, OneNumberMakesNoRow) {
    WrittenReadings written;
    written.write("spring_installed_height", "1I", "1.815");
    EXPECT_THAT(rows("springs", "spring_installed_height", written), IsEmpty());
}

TEST(SheetRows, WhatIsWorkedOutHasItsRowToo) {
    WrittenReadings written;
    for (const auto& [journal, bore] : {std::pair{"J1", "2.4505"}, {"J2", "2.4507"}}) {
        written.write("main_diameter", journal, "2.4480");
        written.write("main_bearing_bore", journal, bore);
    }
    const auto found = rows("main_bearings", "main_clearance", written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_NEAR(*found[0].statistics.spread, 0.0002 * in, 1e-9);
    EXPECT_NEAR(found[0].statistics.mean, 0.0026 * in, 1e-9);
}

// Twice the same readings, once where they should be alike, once where bores taper.
TEST(SheetRows, OddOnesAreThoseOfRowsThatShouldBeAlike) {
    WrittenReadings springs;
    WrittenReadings bores;
    for (int cylinder = 1; cylinder <= 6; ++cylinder) {
        const char* text = cylinder == 5 ? "1.870" : "1.812";
        springs.write("spring_installed_height", std::to_string(cylinder) + "I", text);
        bores.write("bore", std::to_string(cylinder) + " top thrust", text);
    }
    const auto alike = rows("springs", "spring_installed_height", springs);
    ASSERT_THAT(alike, SizeIs(1));
    ASSERT_THAT(alike[0].statistics.odd, SizeIs(1));
    EXPECT_EQ(alike[0].readings[alike[0].statistics.odd[0].index].position, "5I");
    const auto apart = rows("bores", "bore", bores);
    ASSERT_THAT(apart, SizeIs(1));
    EXPECT_NEAR(*apart[0].statistics.spread, 0.058 * in, 1e-9);
    EXPECT_THAT(apart[0].statistics.odd, IsEmpty());
}

} // namespace
} // namespace rodway
