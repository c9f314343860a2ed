#include "core/build/bolt_of_part.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

constexpr double inch = 25.4;

class BoltOfPart : public ::testing::Test {
  protected:
    void take(const char* quantity, const char* position, const char* text) {
        Reading reading;
        reading.id = static_cast<std::int64_t>(readings_.size()) + 1;
        reading.build_id = 1;
        reading.quantity = quantity;
        reading.position = position;
        reading.text = text;
        reading.unit = "in";
        readings_.push_back(reading);
    }
    [[nodiscard]] std::vector<BoltInPlace> found(const PartRecord& part) const {
        const auto bolts = bolts_in_place(part, TakenReadings(readings_));
        EXPECT_TRUE(bolts.ok());
        return bolts ? *bolts : std::vector<BoltInPlace>();
    }
    static PartRecord bolt(const char* role, const char* length) {
        PartRecord part;
        part.item = "bolt";
        part.role = role;
        part.length = length;
        part.thread = "3/8-16";
        return part;
    }

    std::vector<Reading> readings_;
};

TEST_F(BoltOfPart, AnIntakeBoltBottomsWhereTheHoleIsShallow) {
    take("intake_bolt_grip", "left bolt 1", ".500");
    take("intake_hole_bottom", "left bolt 1", ".900");
    take("intake_thread_depth", "left bolt 1", ".800");
    take("intake_hole_to_passage", "left bolt 1", ".950");
    take("intake_bolt_grip", "left bolt 2", ".500");
    take("intake_hole_bottom", "left bolt 2", "1.100");
    const auto bolts = found(bolt("intake_bolt", "1.500"));
    ASSERT_EQ(bolts.size(), 2u);
    // 1.500 less .500 of grip is 1.000 into a hole of .900.
    EXPECT_NEAR(bolts[0].to_bottom_mm->middle(), -0.100 * inch, 1e-9);
    EXPECT_LT(bolts[0].to_bottom_mm->high, 0.0);
    EXPECT_NEAR(bolts[0].to_passage_mm->middle(), -0.050 * inch, 1e-9);
    EXPECT_NEAR(bolts[0].engaged_mm->middle(), 0.800 * inch, 1e-9);
    EXPECT_NEAR(*bolts[0].diameter_mm, 0.375 * inch, 1e-9);
    EXPECT_NEAR(bolts[1].to_bottom_mm->middle(), 0.100 * inch, 1e-9);
    EXPECT_GT(bolts[1].to_bottom_mm->low, 0.0);
    EXPECT_FALSE(bolts[1].engaged_mm.has_value());
    EXPECT_FALSE(bolts[1].to_passage_mm.has_value());
}

TEST_F(BoltOfPart, IsPutToTheBoltsItsPositionNames) {
    for (const char* position : {"left bolt 1", "left bolt 2", "right bolt 1"}) {
        take("intake_bolt_grip", position, ".500");
    }
    PartRecord part = bolt("intake_bolt", "1.500");
    EXPECT_EQ(found(part).size(), 3u);
    part.position = "left bolt 2, right bolt 1";
    const auto named = found(part);
    ASSERT_EQ(named.size(), 2u);
    EXPECT_EQ(named[0].position, "left bolt 2");
    EXPECT_EQ(named[1].position, "right bolt 1");
    part.position = "bolt 1"; // of both banks
    EXPECT_EQ(found(part).size(), 2u);
    part.position = "the middle ones";
    EXPECT_EQ(found(part).size(), 3u);
    part.position = "intake left bolt 1";
    EXPECT_EQ(found(part).size(), 1u);
    part.position = "head left bolt 1";
    EXPECT_EQ(found(part).size(), 1u); // the reading doesn't say of which joint it is
}

TEST_F(BoltOfPart, OfAHeadBoltTheHoleSaysWhatItMustGoThrough) {
    take("head_bolt_hole_depth", "head left hole 7", "1.250");
    PartRecord part = bolt("head_bolt", "4.000");
    const auto bolts = found(part);
    ASSERT_EQ(bolts.size(), 1u);
    EXPECT_NEAR(bolts[0].least_grip_mm->middle(), 2.750 * inch, 1e-9);
    EXPECT_FALSE(bolts[0].to_bottom_mm.has_value());
    part.position = "head left bolt 8";
    EXPECT_TRUE(found(part).empty());
}

TEST_F(BoltOfPart, SaysNothingWithoutALengthOrForAnotherPart) {
    take("intake_bolt_grip", "left bolt 1", ".500");
    PartRecord part = bolt("intake_bolt", "1.500");
    part.length.reset();
    EXPECT_TRUE(found(part).empty());
    EXPECT_TRUE(found(bolt("rocker_bolt", "1.500")).empty());
    part.length = "long";
    const auto refused = bolts_in_place(part, TakenReadings(readings_));
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().field, "length");
}

} // namespace
} // namespace rodway
