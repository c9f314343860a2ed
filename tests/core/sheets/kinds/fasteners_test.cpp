#include "tests/core/sheets/kinds/filled_sheet.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double in = 25.4;
constexpr double lb_ft = 0.3048 * 4.4482216152605; // NIST SP 811
constexpr double lbf = 4.4482216152605;

/// One pass over bolts 1 to 10 of a head, to one number, some left out.
void write_pass(WrittenReadings& written, int pass, const char* text,
                const std::vector<int>& left_out = {}, const char* quantity = "fastener_torque") {
    for (int bolt = 1; bolt <= 10; ++bolt) {
        if (std::find(left_out.begin(), left_out.end(), bolt) == left_out.end()) {
            written.write(
                quantity,
                "head left bolt " + std::to_string(bolt) + " pass " + std::to_string(pass), text);
        }
    }
}

std::vector<SheetFinding> findings(const WrittenReadings& written) {
    return FilledSheet("fasteners", written).findings();
}

TEST(FastenersSheet, ALogWithEveryBoltInEveryPassSaysNothing) {
    WrittenReadings written;
    written.write("joint_steps", "head", "45/65/65+90");
    write_pass(written, 1, "45");
    write_pass(written, 2, "65");
    write_pass(written, 3, "65");
    write_pass(written, 4, "90", {}, "fastener_angle");
    EXPECT_THAT(findings(written), IsEmpty());
}

// "Did we tighten bolt 7?"
TEST(FastenersSheet, ABoltLeftOutOfAPassIsPointedOut) {
    WrittenReadings written;
    write_pass(written, 1, "45");
    write_pass(written, 2, "65", {7});
    write_pass(written, 3, "65");
    auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::bolts_missed);
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 7 pass 2"));
    EXPECT_EQ(found[0].other, "pass 2");
    written.write("fastener_torque", "head left bolt 7 pass 2", "n/m");
    EXPECT_THAT(findings(written), SizeIs(1)); // that is no tick
    written.write("fastener_torque", "head left bolt 7 pass 2", "ok");
    EXPECT_THAT(findings(written), SizeIs(1));
    EXPECT_EQ(findings(written)[0].what, PointedOut::bolts_twice); // written down, then again
}

TEST(FastenersSheet, ATickIsEnough) {
    WrittenReadings written;
    write_pass(written, 1, "45");
    write_pass(written, 2, "65", {7});
    written.write("fastener_torque", "head left bolt 7 pass 2", "ok");
    EXPECT_THAT(findings(written), IsEmpty());
}

TEST(FastenersSheet, ABoltLeftOutOfTheLastPassIsPointedOutToo) {
    WrittenReadings written;
    write_pass(written, 1, "45");
    write_pass(written, 2, "65", {7, 10});
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions,
                ElementsAre("head left bolt 7 pass 2", "head left bolt 10 pass 2"));
}

TEST(FastenersSheet, ABoltNobodyEverWroteOfIsMissedIfTheJointsCountIsKnown) {
    WrittenReadings written;
    write_pass(written, 1, "45", {5, 10});
    ASSERT_THAT(findings(written), SizeIs(1));
    EXPECT_THAT(findings(written)[0].positions, ElementsAre("head left bolt 5 pass 1"));
    written.write("joint_bolts", "head", "10");
    EXPECT_THAT(findings(written)[0].positions,
                ElementsAre("head left bolt 5 pass 1", "head left bolt 10 pass 1"));
}

// With the order known, what comes later in it is only not due yet.
TEST(FastenersSheet, WithItsOrderAPassMayBeUnderWay) {
    WrittenReadings written;
    written.write("joint_order", "head", "5-6-4-7-3-8-2-9-1-10");
    write_pass(written, 1, "45");
    for (const char* bolt : {"5", "6", "4"}) {
        written.write("fastener_torque", "head left bolt " + std::string(bolt) + " pass 2", "65");
    }
    EXPECT_THAT(findings(written), IsEmpty());
    written.write("fastener_torque", "head left bolt 3 pass 2", "65");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 7 pass 2"));
}

TEST(FastenersSheet, BoltsDoneTwiceInOnePassArePointedOut) {
    WrittenReadings written;
    write_pass(written, 1, "45");
    written.write("fastener_torque", "head left bolt 3 pass 1", "45")
        .write("fastener_torque", "head left bolt 8 pass 1", "45");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::bolts_twice);
    EXPECT_THAT(found[0].positions,
                ElementsAre("head left bolt 3 pass 1", "head left bolt 8 pass 1"));
}

// 4 % of a torque wrench: ISO 6789, from memory.
TEST(FastenersSheet, ABoltOffTheStepIsPointedOut) {
    WrittenReadings written;
    written.write("joint_steps", "head left", "45/65/65+90");
    write_pass(written, 1, "45");
    write_pass(written, 2, "65", {3, 4});
    written.write("fastener_torque", "head left bolt 3 pass 2", "45")
        .write("fastener_torque", "head left bolt 4 pass 2", "66");
    write_pass(written, 3, "65");
    write_pass(written, 4, "90", {9}, "fastener_angle");
    written.write("fastener_angle", "head left bolt 9 pass 4", "60");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].what, PointedOut::torque_off_step);
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 3 pass 2"));
    EXPECT_NEAR(found[0].numbers[0] / lb_ft, 45.0, 1e-9);
    EXPECT_NEAR(found[0].numbers[1] / lb_ft, 65.0, 1e-9);
    EXPECT_EQ(found[1].quantity, "fastener_angle");
    EXPECT_THAT(found[1].numbers, ElementsAre(60.0, 90.0));
    EXPECT_EQ(found[1].dimension, Dimension::angle);
}

// All bolts at 45 agree among themselves, but the plan says 65.
TEST(FastenersSheet, APassToTheWrongTorqueIsFoundByThePlanOnly) {
    WrittenReadings written;
    write_pass(written, 1, "45");
    EXPECT_THAT(findings(written), IsEmpty());
    written.write("joint_steps", "head", "65");
    EXPECT_THAT(findings(written), SizeIs(10));
}

TEST(FastenersSheet, WithoutStepsABoltIsSetBesideTheOthersOfThePass) {
    WrittenReadings written;
    write_pass(written, 1, "65", {3});
    written.write("fastener_torque", "head left bolt 3 pass 1", "55");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::torque_off_step);
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 3 pass 1"));
    EXPECT_NEAR(found[0].numbers[1] / lb_ft, 65.0, 1e-9);
}

// Some write the torque and the angle behind it into one pass.
TEST(FastenersSheet, AnAngleMayStandInThePassOfItsTorque) {
    WrittenReadings written;
    written.write("joint_steps", "head", "45/65/65+90");
    write_pass(written, 1, "45");
    write_pass(written, 2, "65");
    write_pass(written, 3, "65");
    write_pass(written, 3, "90", {6}, "fastener_angle");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::bolts_missed);
    EXPECT_EQ(found[0].quantity, "fastener_angle");
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 6 pass 3"));
}

TEST(FastenersSheet, BareStepsAreInTheUnitOfTheLog) {
    WrittenReadings written;
    written.write("joint_steps", "head", "60/90");
    write_pass(written, 1, "60 Nm");
    write_pass(written, 2, "90 Nm");
    EXPECT_THAT(findings(written), IsEmpty());
}

TEST(FastenersSheet, StepsThatCouldMeanTwoThingsArePointedOut) {
    WrittenReadings written;
    written.write("joint_steps", "head", "35 lb-ft then 90");
    write_pass(written, 1, "35");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(1));
    EXPECT_EQ(found[0].what, PointedOut::not_understood);
    EXPECT_EQ(found[0].quantity, "joint_steps");
    EXPECT_THAT(found[0].positions, ElementsAre("head"));
    EXPECT_EQ(found[0].other, "35 lb-ft then 90");
}

TEST(FastenersSheet, EachHeadIsAJointOfItsOwn) {
    WrittenReadings written;
    write_pass(written, 1, "65");
    written.write("fastener_torque", "head right bolt 1 pass 1", "22")
        .write("fastener_torque", "head right bolt 2 pass 1", "22");
    EXPECT_THAT(findings(written), IsEmpty());
}

TEST(FastenersSheet, CapsAreCountedThroughAndRodsByTheirCylinders) {
    WrittenReadings written;
    for (const char* cap : {"1", "2", "4"}) {
        for (const char* bolt : {" bolt 1", " bolt 2"}) {
            written.write("fastener_torque", "main " + std::string(cap) + bolt + " pass 1", "70");
            written.write("fastener_torque", "rod " + std::string(cap) + bolt + " pass 1", "45");
        }
    }
    EnginePlaces places;
    places.cylinders = {1, 2, 3, 4, 5};
    const auto found = FilledSheet("fasteners", written, &places).findings();
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_THAT(found[0].positions, ElementsAre("main 3 bolt 1 pass 1", "main 3 bolt 2 pass 1"));
    EXPECT_THAT(found[1].positions, ElementsAre("rod 3 bolt 1 pass 1", "rod 3 bolt 2 pass 1",
                                                "rod 5 bolt 1 pass 1", "rod 5 bolt 2 pass 1"));
}

TEST(FastenersSheet, AfterTheRunThereIsOnePassMore) {
    WrittenReadings written;
    written.write("joint_steps", "head", "45/65");
    write_pass(written, 1, "45");
    write_pass(written, 2, "65");
    EXPECT_THAT(findings(written), IsEmpty()); // not begun: nobody asks
    for (int bolt = 1; bolt <= 9; ++bolt) {
        written.write("retorque", "head left bolt " + std::to_string(bolt),
                      bolt == 4 ? "50" : "65");
    }
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].what, PointedOut::bolts_missed);
    EXPECT_EQ(found[0].other, "retorque");
    EXPECT_THAT(found[0].positions, ElementsAre("head left bolt 10"));
    EXPECT_EQ(found[1].what, PointedOut::torque_off_step);
    EXPECT_THAT(found[1].positions, ElementsAre("head left bolt 4"));
    EXPECT_NEAR(found[1].numbers[0] / lb_ft, 50.0, 1e-9);
}

// By hand; .0055 to .007 in is common practice, no source.
TEST(FastenersSheet, StretchIsTightLessFreeLength) {
    const auto sheet = [](const char* joint, const char* tight, const char* stretch) {
        WrittenReadings written;
        const std::string bolt = joint + std::string(" bolt 1");
        written.write("fastener_free_length", bolt, "1.5000")
            .write("fastener_tight_length", bolt, tight)
            .write("fastener_stretch", bolt, stretch);
        return FilledSheet("fasteners", written);
    };
    const FilledSheet good = sheet("rod 3", "1.5061", "");
    expect_figure(good.figure("fastener_stretch", "rod 3 bolt 1"), 0.0061, 0.0001, in);
    EXPECT_EQ(good.verdict("fastener_stretch", "rod 3 bolt 1"), SheetVerdict::passed);
    EXPECT_THAT(good.findings(), IsEmpty());
    EXPECT_EQ(sheet("rod 3", "1.5045", "").verdict("fastener_stretch", "rod 3 bolt 1"),
              SheetVerdict::failed);
    EXPECT_EQ(sheet("head", "1.5045", "").verdict("fastener_stretch", "head bolt 1"),
              SheetVerdict::no_limit);
    EXPECT_FALSE(sheet("rod 3", "n/m", "").figure("fastener_stretch", "rod 3 bolt 1"));
    EXPECT_EQ(sheet("rod 3", "1.5061", ".0045").found(PointedOut::stated_differs).size(), 1U);
}

TEST(FastenersSheet, AStretchIsSetBesideItsStep) {
    WrittenReadings written;
    written.write("joint_steps", "rod", "stretch .006")
        .write("fastener_stretch", "rod 1 bolt 1", ".0060")
        .write("fastener_stretch", "rod 1 bolt 2", ".0045")
        .write("fastener_free_length", "rod 2 bolt 1", "1.5000")
        .write("fastener_tight_length", "rod 2 bolt 1", "1.5061");
    const auto found = findings(written);
    ASSERT_THAT(found, SizeIs(2));
    EXPECT_EQ(found[0].what, PointedOut::bolts_missed);
    EXPECT_THAT(found[0].positions, ElementsAre("rod 2 bolt 2"));
    EXPECT_EQ(found[1].what, PointedOut::torque_off_step);
    EXPECT_EQ(found[1].quantity, "fastener_stretch");
    EXPECT_THAT(found[1].positions, ElementsAre("rod 1 bolt 2"));
    EXPECT_NEAR(found[1].numbers[0] / in, 0.0045, 1e-9);
}

// A grade 8 7/16-20 bolt: 75 % of 120 ksi on .1187 in² is 10 683 lbf; at K = 0.18 that takes
// 70.107 lbf ft, and 10 lubricated bolts scattered by 2.88 of 34.18 kN (Shigley, tables 8-2, 8-9,
// 8-14, 8-15, eqs. 8-27, 8-31). The book's area is rounded: 0.12 %.
TEST(FastenersSheet, PreloadAndTorqueByTheBook) {
    WrittenReadings written;
    written.write("joint_thread", "head", "7/16-20")
        .write("joint_grade", "head", "grade 8")
        .write("joint_lubricant", "head", "Lubricated");
    const FilledSheet sheet("fasteners", written);
    const auto preload = sheet.figure("joint_usual_preload", "head");
    ASSERT_TRUE(preload);
    EXPECT_NEAR(preload->middle() / lbf, 10683.0, 0.0012 * 10683.0);
    const auto torque = sheet.figure("joint_usual_torque", "head");
    ASSERT_TRUE(torque);
    const double scatter = 2.0 * 2.88 / 34.18;
    EXPECT_NEAR(torque->low / lb_ft, 70.1072 / (1.0 + scatter), 0.1);
    EXPECT_NEAR(torque->high / lb_ft, 70.1072 / (1.0 - scatter), 0.15);
    written.write("joint_lubricant", "head", "the red stuff");
    EXPECT_FALSE(FilledSheet("fasteners", written).figure("joint_usual_torque", "head"));
    EXPECT_TRUE(FilledSheet("fasteners", written).figure("joint_usual_preload", "head"));
    written.write("joint_nut_factor", "head", ".13");
    const auto own = FilledSheet("fasteners", written).figure("joint_usual_torque", "head");
    ASSERT_TRUE(own);
    EXPECT_NEAR(own->middle() / lb_ft, 70.1072 * 0.13 / 0.18, 0.1);
}

// The same bolt at 70.1 lb-ft pulls with three quarters of its proof load; a wrench 4 % off and
// the scatter of the preload lie either side.
TEST(FastenersSheet, PreloadOfABoltByItsLastTorque) {
    WrittenReadings written;
    written.write("joint_thread", "head", "7/16-20")
        .write("joint_grade", "head", "8")
        .write("joint_lubricant", "head", "lubricated")
        .write("fastener_torque", "head left bolt 1 pass 1", "45")
        .write("fastener_torque", "head left bolt 1 pass 2", "70.1")
        .write("fastener_lubricant", "head left bolt 2", "cadmium")
        .write("fastener_torque", "head left bolt 2 pass 1", "45")
        .write("fastener_torque", "head left bolt 2 pass 2", "70.1");
    const FilledSheet sheet("fasteners", written);
    const double scatter = 2.0 * 2.88 / 34.18;
    const auto preload = sheet.figure("fastener_preload", "head left bolt 1");
    ASSERT_TRUE(preload);
    EXPECT_NEAR(preload->low / lbf, 0.96 * (1.0 - scatter) * 10683.0, 20.0);
    EXPECT_NEAR(preload->high / lbf, 1.04 * (1.0 + scatter) * 10683.0, 20.0);
    const auto share = sheet.figure("fastener_proof_share", "head left bolt 1");
    ASSERT_TRUE(share);
    EXPECT_NEAR(share->low, 75.0 * 0.96 * (1.0 - scatter), 0.1);
    EXPECT_NEAR(share->high, 75.0 * 1.04 * (1.0 + scatter), 0.1);
    // What is on the bolt itself goes before what is said of the joint.
    const double dry = 2.0 * 4.91 / 34.3; // Shigley, table 8-13
    EXPECT_NEAR(sheet.figure("fastener_preload", "head left bolt 2")->low / lbf,
                0.96 * (1.0 - dry) * 10683.0 * 0.18 / 0.16, 20.0);
    // Turned on by an angle, its torque says nothing any more.
    written.write("fastener_angle", "head left bolt 1 pass 3", "90");
    EXPECT_FALSE(FilledSheet("fasteners", written).figure("fastener_preload", "head left bolt 1"));
    EXPECT_TRUE(FilledSheet("fasteners", written).figure("fastener_preload", "head left bolt 2"));
}

TEST(FastenersSheet, AThreadThatMayBeCoarseOrFineIsPointedOut) {
    WrittenReadings written;
    written.write("joint_thread", "head", "7/16").write("joint_grade", "head", "8");
    const FilledSheet sheet("fasteners", written);
    EXPECT_FALSE(sheet.figure("joint_usual_preload", "head"));
    ASSERT_THAT(sheet.findings(), SizeIs(1));
    EXPECT_EQ(sheet.findings()[0].what, PointedOut::not_understood);
    EXPECT_EQ(sheet.findings()[0].other, "7/16");
}

} // namespace
} // namespace rodway
