#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;

/// Five mains alike, the third as it is typed.
WrittenReadings mains(const char* usual, const char* third) {
    WrittenReadings written;
    for (const int journal : {1, 2, 3, 4, 5}) {
        written.write("main_diameter", 'J' + std::to_string(journal) + " front vertical",
                      journal == 3 ? third : usual);
    }
    return written;
}

std::vector<SheetFinding> findings(const WrittenReadings& written) {
    return FilledSheet("main_bearings", written).findings();
}

// A turn of an inch micrometer is .025, a number on its sleeve .100, a turn of a metric one 0.5 mm.
TEST(MainBearingsSheet, AJournalOffByATurnOfTheMicrometerIsPointedOut) {
    struct {
        const char* usual;
        const char* third;
        double unit;
        double slip;
    } const cases[] = {{"2.4480", "2.4730", in, 0.025},
                       {"2.4480", "2.3482", in, -0.100},
                       {"62.18 mm", "62.68 mm", 1.0, 0.5}};
    for (const auto& each : cases) {
        const auto found = findings(mains(each.usual, each.third));
        // It stands apart from the row, too, but that needn't be said twice.
        ASSERT_THAT(found, SizeIs(1)) << each.third;
        EXPECT_EQ(found[0].what, PointedOut::misread_by_a_turn);
        EXPECT_EQ(found[0].quantity, "main_diameter");
        EXPECT_THAT(found[0].positions, ElementsAre("J3 front vertical"));
        ASSERT_THAT(found[0].numbers, SizeIs(3));
        EXPECT_NEAR(found[0].numbers[0], std::stod(each.third) * each.unit, 1e-9);
        EXPECT_NEAR(found[0].numbers[1], std::stod(each.usual) * each.unit, 1e-9);
        EXPECT_NEAR(found[0].numbers[2], each.slip * each.unit, 1e-9);
    }
}

// Half a millimetre is .0197 in: no slip of an inch micrometer, nor .020 or .050.
TEST(MainBearingsSheet, OtherDifferencesAreNoTurnOfThisMicrometer) {
    for (const char* third : {"2.4677", "2.4680", "2.4980"}) {
        const auto found = findings(mains("2.4480", third));
        ASSERT_THAT(found, SizeIs(1)) << third;
        EXPECT_EQ(found[0].what, PointedOut::odd_one_out);
    }
    EXPECT_EQ(findings(mains("62.18 mm", "62.815 mm"))[0].what, PointedOut::odd_one_out);
    EXPECT_THAT(findings(mains("2.4480", "2.4481")), IsEmpty());
}

TEST(MainBearingsSheet, TakenAgainTheSlipIsGone) {
    WrittenReadings written = mains("2.4480", "2.4730");
    written.write("main_diameter", "J3 front vertical", "2.4480");
    EXPECT_THAT(findings(written), IsEmpty());
}

TEST(MainBearingsSheet, OneOfSeveralReadingsOfAJournalIsFound) {
    WrittenReadings written;
    written.write("main_diameter", "J2 front vertical", "2.4480")
        .write("main_diameter", "J2 front horizontal", "2.4730")
        .write("main_diameter", "J2 rear vertical", "2.4479");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("J2 front horizontal"));
    EXPECT_NEAR(found[0].numbers[1] / in, 2.44795, 1e-9);
}

// .0275 of clearance on a 2.448 in journal is .025 more than usual: journal or bore, nobody knows.
TEST(MainBearingsSheet, OfASingleBearingTheClearanceIsSuspected) {
    WrittenReadings written;
    written.write("main_diameter", "J2", "2.4480").write("main_bearing_bore", "J2", "2.4755");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::misread_by_a_turn);
    EXPECT_EQ(found[0].quantity, "main_clearance");
    EXPECT_THAT(found[0].positions, ElementsAre("J2"));
    EXPECT_NEAR(found[0].numbers[0] / in, 0.0275, 1e-9);
    EXPECT_NEAR(found[0].numbers[1] / in, 0.0025, 1e-9);
}

} // namespace
} // namespace rodway
