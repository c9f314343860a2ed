#include "core/sheets/kinds/joint_log.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/core/sheets/sheet_readings.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

void write_pass(WrittenReadings& written, int pass, const char* text,
                const std::vector<int>& bolts) {
    for (const int bolt : bolts) {
        written.write("fastener_torque",
                      "head left bolt " + std::to_string(bolt) + " pass " + std::to_string(pass),
                      text);
    }
}

/// States of one bolt, counted from 1, step by step.
std::vector<BoltPassState> states(const JointLog& log, std::size_t bolt) {
    std::vector<BoltPassState> found;
    for (const JointMark& mark : log.marks[bolt - 1]) {
        found.push_back(mark.state);
    }
    return found;
}

class JointDrawingFacts : public ::testing::Test {
  protected:
    JointDrawingFacts() {
        written.write("joint_bolts", "head left", "4");
        written.write("joint_order", "head left", "3-2-4-1");
        written.write("joint_steps", "head left", "40 lb-ft, 60 lb-ft");
    }
    JointLog read() {
        const TakenReadings taken(written.all());
        EXPECT_THAT(taken.not_read(), IsEmpty());
        const auto joints = known_joints(taken, nullptr);
        EXPECT_THAT(joints, SizeIs(1));
        return read_joint_log(taken, joints.front());
    }
    WrittenReadings written;
};

TEST_F(JointDrawingFacts, BeforeTheFirstBoltTheOrderStandsAndEverythingWaits) {
    const JointLog log = read();
    EXPECT_TRUE(log.ordered);
    EXPECT_THAT(log.order, ElementsAre(2U, 1U, 3U, 0U));
    EXPECT_THAT(log.steps, SizeIs(2));
    for (std::size_t bolt = 1; bolt <= 4; ++bolt) {
        EXPECT_THAT(states(log, bolt), ElementsAre(BoltPassState::waiting, BoltPassState::waiting));
    }
    EXPECT_THAT(log.findings, IsEmpty());
}

// The order is 3, 2, 4, 1: with 3 and 4 done, 2 was left out and 1 still waits.
TEST_F(JointDrawingFacts, ABoltLeftOutIsMissedAndOneWhoseTurnComesLaterWaits) {
    write_pass(written, 1, "40", {3, 4});
    const JointLog log = read();
    EXPECT_EQ(log.marks[2][0].state, BoltPassState::done);
    EXPECT_EQ(log.marks[1][0].state, BoltPassState::missed);
    EXPECT_EQ(log.marks[3][0].state, BoltPassState::done);
    EXPECT_EQ(log.marks[0][0].state, BoltPassState::waiting);
    EXPECT_EQ(log.marks[1][1].state, BoltPassState::waiting);
}

TEST_F(JointDrawingFacts, OneDoneTwiceIsMarkedInItsPassOnly) {
    write_pass(written, 1, "40", {3, 2, 4, 1});
    write_pass(written, 2, "60", {3, 2, 2});
    const JointLog log = read();
    for (std::size_t bolt = 0; bolt < 4; ++bolt) {
        EXPECT_FALSE(log.marks[bolt][0].twice) << bolt;
        EXPECT_EQ(log.marks[bolt][1].twice, bolt == 1) << bolt;
    }
}

TEST_F(JointDrawingFacts, OneToAnotherTorqueThanItsStepIsOff) {
    write_pass(written, 1, "40", {3, 2, 4});
    write_pass(written, 1, "50", {1});
    EXPECT_THAT(states(read(), 1), ElementsAre(BoltPassState::differs, BoltPassState::waiting));
}

TEST(JointLogMarks, WithoutAnOrderWhatIsOpenInAPassThatWasBegunIsMissed) {
    WrittenReadings written;
    written.write("joint_bolts", "head left", "4");
    write_pass(written, 1, "40", {1, 4});
    const TakenReadings taken(written.all());
    const auto joints = known_joints(taken, nullptr);
    ASSERT_THAT(joints, SizeIs(1));
    const JointLog log = read_joint_log(taken, joints.front());
    EXPECT_FALSE(log.ordered);
    EXPECT_THAT(log.order, ElementsAre(0U, 1U, 2U, 3U));
    EXPECT_EQ(log.marks[1][0].state, BoltPassState::missed);
    EXPECT_EQ(log.marks[0][0].state, BoltPassState::done);
    // As what is pointed out says.
    ASSERT_THAT(log.findings, SizeIs(1));
    EXPECT_THAT(log.findings[0].positions,
                ElementsAre("head left bolt 2 pass 1", "head left bolt 3 pass 1"));
}

TEST(KnownJoints, ThoseOnlyCountedAreKnownButHaveNoLog) {
    WrittenReadings written;
    written.write("joint_bolts", "head left", "10");
    written.write("joint_bolts", "main", "2"); // of each cap: nobody said how many caps
    written.write("joint_bolts", "pan", "n/m");
    const TakenReadings taken(written.all());
    EXPECT_THAT(logged_joints(taken, nullptr), IsEmpty());
    const auto joints = known_joints(taken, nullptr);
    ASSERT_THAT(joints, SizeIs(1));
    EXPECT_EQ(joints[0].word, "head");
    EXPECT_THAT(joints[0].bolts, SizeIs(10));
    const JointLog log = read_joint_log(taken, joints[0]);
    EXPECT_THAT(log.steps, IsEmpty());
    EXPECT_THAT(log.marks, SizeIs(10));
}

} // namespace
} // namespace rodway
