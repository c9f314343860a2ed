#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <iomanip>
#include <sstream>

#include "core/units/typed_text.h"
#include "tests/core/sheets/kinds/worked_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

WrittenReadings true_wheel() {
    WrittenReadings written;
    written.write("tdc_stop_reading", "forward", "20 BTDC")
        .write("tdc_stop_reading", "backward", "20 ATDC");
    return written;
}

void write_events(WrittenReadings& written, const std::string& lobe, const std::string& rise,
                  const std::string& opens, const std::string& closes) {
    written.write("lobe_event", lobe + " opens " + rise, opens)
        .write("lobe_event", lobe + " closes " + rise, closes);
}

// Source: fordmuscle.com archives 2007/04, stop marks 19.5 ATDC and 22 BTDC; the wheel's error of
// 1.25 follows, marks known to half of .1 and half of 1 degree.
TEST(CamTimingSheet, TheWheelsErrorIsHalfWayBetweenTheStops) {
    for (const bool swapped : {false, true}) {
        WrittenReadings written;
        written.write("tdc_stop_reading", swapped ? "backward" : "forward", "19.5 ATDC")
            .write("tdc_stop_reading", swapped ? "forward" : "backward", "22.0 BTDC");
        const auto error = WorkedSheet("cam_timing", written).figure("wheel_error");
        ASSERT_TRUE(error);
        EXPECT_NEAR(error->middle(), -1.25, 1e-12);
        EXPECT_NEAR(error->half_width(), 0.05, 1e-12);
    }
}

// Source: forabodiesonly.com, inline six card: IO 6 BTDC, IC 42 ABDC, EC 12: 228, 108, overlap 18.
TEST(CamTimingSheet, ASixOfWhichTheExhaustsOpeningIsMissing) {
    WrittenReadings written = true_wheel();
    write_events(written, "1I", ".020", "6 BTDC", "42 ABDC");
    written.write("lobe_event", "1E closes .020", "12 ATDC");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("lobe_duration", "1I 0.02in"), 228.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 108.0, 1e-9);
    EXPECT_NEAR(sheet.middle("valve_overlap", "1I 0.02in"), 18.0, 1e-9);
    EXPECT_FALSE(sheet.figure("lobe_duration", "1E 0.02in"));
    EXPECT_FALSE(sheet.figure("centreline_from_heel", "1E"));
}

// Source: fordsix.com, 21/51/57/15: 252/252, I 105, E 111, separation 108, overlap 36.
TEST(CamTimingSheet, FourEventsMakeSeparationAndOverlap) {
    WrittenReadings written = true_wheel();
    write_events(written, "1I", ".050", "21 BTDC", "51 ABDC");
    write_events(written, "1E", ".050", "57 BBDC", "15 ATDC");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("lobe_duration", "1I 0.05in"), 252.0, 1e-9);
    EXPECT_NEAR(sheet.middle("lobe_duration", "1E 0.05in"), 252.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 105.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1E"), -111.0, 1e-9);
    EXPECT_NEAR(sheet.middle("lobe_separation_found", "1"), 108.0, 1e-9);
    EXPECT_NEAR(sheet.middle("valve_overlap", "1I 0.05in"), 36.0, 1e-9);
}

// Source: b50.org, 1 mm at 40 BTDC and 60 ABDC: 280, centreline 100.
TEST(CamTimingSheet, AMillimetreIsACheckingHeightToo) {
    WrittenReadings written = true_wheel();
    write_events(written, "1I", "1 mm", "40 BTDC", "60 ABDC");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("lobe_duration", "1I 1mm"), 280.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 100.0, 1e-9);
}

// The same cam (21/51) under a wheel that reads 1.25 before at top dead centre: durations don't
// change, angles are put right.
TEST(CamTimingSheet, AnglesHaveTheWheelsErrorTakenOff) {
    WrittenReadings written;
    written.write("tdc_stop_reading", "forward", "19.50 ATDC")
        .write("tdc_stop_reading", "backward", "22.00 BTDC");
    write_events(written, "1I", ".050", "22.25 BTDC", "49.75 ABDC");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("lobe_duration", "1I 0.05in"), 252.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 105.0, 1e-9);
}

TEST(CamTimingSheet, WithoutAStopNoAngleIsTrue) {
    WrittenReadings written;
    write_events(written, "1I", ".050", "21 BTDC", "51 ABDC");
    written.write("tdc_stop_reading", "forward", "20 BTDC");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_FALSE(sheet.figure("centreline_from_heel", "1I"));
    const auto found = sheet.found(PointedOut::needs_reading);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].other, "tdc_stop_reading");
}

// Source: ausmini.com, 20-60/60-20 at .050; 5 ahead it is 25-55/65-15, 5 behind 15-65/55-25.
TEST(CamTimingSheet, TheCamsAdvanceIsFoundFromBothLobes) {
    const auto found = [](const char* io, const char* ic, const char* eo, const char* ec) {
        WrittenReadings written = true_wheel();
        written.write("card_centreline", "I", "110").write("card_centreline", "E", "-110");
        write_events(written, "1I", ".050", io, ic);
        write_events(written, "1E", ".050", eo, ec);
        const WorkedSheet sheet("cam_timing", written);
        EXPECT_NEAR(sheet.middle("lobe_duration", "1I 0.05in"), 260.0, 1e-9);
        EXPECT_NEAR(sheet.middle("lobe_advance", "1I"), sheet.middle("lobe_advance", "1E"), 1e-9);
        EXPECT_NEAR(sheet.middle("cam_turn_wanted"), -sheet.middle("cam_advance_found"), 1e-9);
        EXPECT_NEAR(sheet.middle("cam_turn_wanted_at_sprocket"),
                    sheet.middle("cam_turn_wanted") / 2.0, 1e-9);
        return sheet.middle("cam_advance_found");
    };
    EXPECT_NEAR(found("20 BTDC", "60 ABDC", "60 BBDC", "20 ATDC"), 0.0, 1e-9);
    EXPECT_NEAR(found("25 BTDC", "55 ABDC", "65 BBDC", "15 ATDC"), 5.0, 1e-9);
    EXPECT_NEAR(found("15 BTDC", "65 ABDC", "55 BBDC", "25 ATDC"), -5.0, 1e-9);
}

// A sprocket's marks are in cam degrees: 2 written for 4 found is a slip.
TEST(CamTimingSheet, AnAdvanceInCamDegreesIsPointedOut) {
    WrittenReadings written = true_wheel();
    written.write("card_centreline", "I", "106");
    write_events(written, "1I", ".050", "16 BTDC", "56 ABDC");
    written.write("cam_advance_found", "", "-4");
    EXPECT_THAT(WorkedSheet("cam_timing", written).findings(), IsEmpty());
    written.write("cam_advance_found", "", "-2");
    EXPECT_THAT(WorkedSheet("cam_timing", written).found(PointedOut::stated_differs), SizeIs(1));
}

// An asymmetric lobe of .300: at .050 up from the heel -21 and 231 (105), at .050 down from the
// peak 60 and 154 (107). What is written is compared with its own method only.
TEST(CamTimingSheet, BothMethodsStandBesideEachOtherUnderTheirNames) {
    WrittenReadings written = true_wheel();
    written.write("lobe_lift", "1I", ".3000").write("lobe_centreline", "1I", "105");
    write_events(written, "1I", ".050", "21 BTDC", "51 ABDC");
    write_events(written, "1I", ".250", "60", "154");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 105.0, 1e-9);
    EXPECT_NEAR(sheet.middle("centreline_from_peak", "1I"), 107.0, 1e-9);
    EXPECT_FALSE(sheet.figure("lobe_duration", "1I 0.25in"));
    EXPECT_FALSE(sheet.figure("lobe_centreline", "1I"));
    EXPECT_THAT(sheet.findings(), IsEmpty());
    written.write("lobe_centreline_method", "1I", "up from heel");
    EXPECT_THAT(WorkedSheet("cam_timing", written).findings(), IsEmpty());
    written.write("lobe_centreline_method", "1I", "down from peak");
    EXPECT_THAT(WorkedSheet("cam_timing", written).found(PointedOut::stated_differs), SizeIs(1));
}

// Of pairs at several rises the customary .050 counts, in whatever order they were written.
TEST(CamTimingSheet, TheRiseNearestToCustomCounts) {
    for (const bool first : {true, false}) {
        WrittenReadings written = true_wheel();
        if (first) {
            write_events(written, "1I", ".050", "21 BTDC", "51 ABDC");
        }
        write_events(written, "1I", ".006", "45 BTDC", "81 ABDC");
        write_events(written, "1I", ".100", "2 BTDC", "33 ABDC");
        if (!first) {
            write_events(written, "1I", ".050", "21 BTDC", "51 ABDC");
        }
        const WorkedSheet sheet("cam_timing", written);
        EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 105.0, 1e-9);
        EXPECT_NEAR(sheet.middle("lobe_duration", "1I 0.006in"), 306.0, 1e-9);
    }
}

std::string to_ten_thousandth(double lift) {
    std::ostringstream text;
    text << std::fixed << std::setprecision(4) << lift;
    return text.str();
}

/// A lobe of two parabolas, .300 high at `peak_deg`, 110 degrees up and 130 down, read every 5
/// degrees; marks beyond half a turn are written as the wheel shows them.
void write_table(WrittenReadings& written, const std::string& lobe, double peak_deg) {
    for (int step = -22; step <= 26; ++step) {
        const double from_peak = 5.0 * step;
        const double half = from_peak < 0.0 ? 110.0 : 130.0;
        const double lift = 0.300 * std::max(0.0, 1.0 - std::pow(from_peak / half, 2.0));
        double mark = peak_deg + from_peak;
        mark = mark < -180.0 ? mark + 360.0 : mark;
        written.write("lift_at_angle", lobe + ' ' + exact_text(mark), to_ten_thousandth(lift));
    }
}

// Closed form: the lobe stands .050 up where (x/half)² = 5/6, .050 down where it is 1/6; so 115.13
// and 110.08 for a peak at 106. Tolerance: the straight line between rows.
TEST(CamTimingSheet, ALiftTableGivesBothCentrelines) {
    WrittenReadings written = true_wheel();
    write_table(written, "1I", 106.0);
    write_table(written, "1E", -112.0);
    const WorkedSheet sheet("cam_timing", written);
    const double up = std::sqrt(5.0 / 6.0) * 10.0;
    const double down = std::sqrt(1.0 / 6.0) * 10.0;
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1I"), 106.0 + up, 0.2);
    EXPECT_NEAR(sheet.middle("centreline_from_peak", "1I"), 106.0 + down, 0.2);
    EXPECT_NEAR(sheet.middle("centreline_from_heel", "1E"), -112.0 + up, 0.2);
    EXPECT_NEAR(sheet.middle("centreline_from_peak", "1E"), -112.0 + down, 0.2);
}

// One lobe 3 degrees apart from three that agree: a lifter bore, not the cam's drive.
TEST(CamTimingSheet, OneLobeApartFromTheRestIsNamed) {
    WrittenReadings written;
    written.write("card_centreline", "I", "108");
    for (const char* lobe : {"1I", "2I", "3I"}) {
        written.write("lobe_centreline", lobe, "110");
    }
    written.write("lobe_centreline", "4I", "107");
    const WorkedSheet sheet("cam_timing", written);
    EXPECT_NEAR(sheet.middle("cam_advance_found"), -2.0, 1e-9);
    const auto found = sheet.found(PointedOut::odd_one_out);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("4I"));
    EXPECT_NEAR(found[0].numbers[0], 1.0, 1e-9);
    EXPECT_NEAR(found[0].numbers[1], -2.0, 1e-9);
}

} // namespace
} // namespace rodway
