#include "core/build/part_check.h"

#include <gtest/gtest.h>

#include <random>

namespace rodway {
namespace {

constexpr const char* today = "2026-11-30";
using Text = std::optional<std::string> PartRecord::*;

PartRecord bolt() {
    PartRecord part;
    part.item = "Head bolt";
    return part;
}

/// The field as it is kept, or what its refusal says.
std::string kept(Text field, const std::string& typed) {
    PartRecord part = bolt();
    part.*field = typed;
    const auto checked = checked_part(part, today);
    if (!checked) {
        return checked.error().expected.empty()
                   ? "error " + std::to_string(static_cast<int>(checked.error().code))
                   : checked.error().expected;
    }
    return ((*checked).*field).value_or("nothing");
}

TEST(PartCheck, KeepsWhatWasTypedInTheFormInWhichItIsRead) {
    EXPECT_EQ(kept(&PartRecord::cost, " $1,250 "), "1250.00");
    EXPECT_EQ(kept(&PartRecord::weight, "583.9"), "583.9 g");
    EXPECT_EQ(kept(&PartRecord::weight, "1.2 kg"), "1.2 kg");
    EXPECT_EQ(kept(&PartRecord::length, "2-1/2"), "2-1/2 in");
    EXPECT_EQ(kept(&PartRecord::length, "64 mm"), "64 mm");
    EXPECT_EQ(kept(&PartRecord::length, "2.500\""), "2.500\"");
    EXPECT_EQ(kept(&PartRecord::thread, "7/16-14"), "7/16-14");
    EXPECT_EQ(kept(&PartRecord::tightening, "45/65/65+90"), "45/65/65+90");
    EXPECT_EQ(kept(&PartRecord::tightening, "stretch .006"), "stretch .006");
    EXPECT_EQ(kept(&PartRecord::received, "2026-11-3"), "2026-11-03");
    EXPECT_EQ(kept(&PartRecord::promised, "2027-02-01"), "2027-02-01");
    EXPECT_EQ(kept(&PartRecord::supplier, "  \t "), "nothing");
    EXPECT_EQ(kept(&PartRecord::promised, "  "), "nothing");
}

TEST(PartCheck, PartsAFastenersSizeIntoThreadAndLength) {
    PartRecord part = bolt();
    part.thread = "3/8-16 x 2-1/2";
    const auto checked = checked_part(part, today);
    ASSERT_TRUE(checked.ok());
    EXPECT_EQ(checked->thread, "3/8-16");
    EXPECT_EQ(checked->length, "2.5 in");
    part.thread = "M10x1.25x50";
    EXPECT_EQ(checked_part(part, today)->length, "50 mm");
    // A length of its own is not written over.
    part.length = "45 mm";
    EXPECT_FALSE(checked_part(part, today).ok());
}

TEST(PartCheck, RefusesWhatIsSomethingElse) {
    EXPECT_EQ(kept(&PartRecord::cost, "-5"), "not_below_zero");
    EXPECT_EQ(kept(&PartRecord::cost, "12 lb"), "money");
    EXPECT_EQ(kept(&PartRecord::weight, "0"), "above_zero");
    EXPECT_EQ(kept(&PartRecord::weight, "-3 g"), "above_zero");
    EXPECT_NE(kept(&PartRecord::weight, "3 in"), "3 in");
    EXPECT_EQ(kept(&PartRecord::thread, "a big one"), "thread");
    EXPECT_EQ(kept(&PartRecord::tightening, "very"), "tightening_steps");
    EXPECT_EQ(kept(&PartRecord::length, "2.5-2.6"), "one_size");
    EXPECT_EQ(kept(&PartRecord::length, ">2.5"), "one_size");
    EXPECT_EQ(checked_part(
                  [] {
                      PartRecord part = bolt();
                      part.length = "50";
                      return part;
                  }(),
                  today)
                  .error()
                  .code,
              ErrorCode::unit_needed);
    EXPECT_EQ(kept(&PartRecord::marking, "A\tB"), "one_line");
    EXPECT_EQ(kept(&PartRecord::note, "first\nsecond"), "one_line");
    EXPECT_EQ(kept(&PartRecord::note, std::string(301, 'x')), "shorter");
    EXPECT_EQ(kept(&PartRecord::note, std::string(300, 'x')), std::string(300, 'x'));
    EXPECT_EQ(kept(&PartRecord::received, "2026-12-01"), "day_gone_by");
    EXPECT_EQ(kept(&PartRecord::received, "yesterday"),
              "error " + std::to_string(static_cast<int>(ErrorCode::not_a_date)));
    EXPECT_FALSE(checked_part(PartRecord{}, today).ok());
}

TEST(PartCheck, LengthsOutOfReachNameTheirLimitsInTheUnitTyped) {
    PartRecord part = bolt();
    part.length = "2.5 m";
    EXPECT_FALSE(checked_part(part, today).ok());
    part.length = "1200 mm";
    auto refused = checked_part(part, today);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(refused.error().limits->unit, "mm");
    part.length = "-2.5";
    refused = checked_part(part, today);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().limits->unit, "in");
}

TEST(PartCheck, DaysGoInTheOrderOfTheWork) {
    PartRecord part = bolt();
    part.ordered = "2026-11-10";
    part.measured = "2026-11-12";
    EXPECT_TRUE(checked_part(part, today).ok());
    part.received = "2026-11-09";
    auto refused = checked_part(part, today);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().field, "received");
    EXPECT_EQ(refused.error().expected, "day_order");
    part.received = "2026-11-11";
    part.fitted = "2026-11-11";
    EXPECT_EQ(checked_part(part, today).error().field, "fitted");
    part.fitted = "2026-11-12";
    EXPECT_TRUE(checked_part(part, today).ok());
}

TEST(PartCheck, CountsAreWholeAndFewerThanTenThousand) {
    EXPECT_EQ(*parse_count(" 16 "), 16);
    EXPECT_EQ(*parse_count("9999"), 9999);
    for (const char* text : {"0", "-1", "1.5", "10000", "sixteen", "16 pcs", "1e2", ""}) {
        EXPECT_FALSE(parse_count(text).ok()) << text;
    }
}

TEST(PartCheck, WhateverIsTypedIsKeptAsItIsReadAgainOrRefusedWithItsField) {
    const unsigned seed = 20261130;
    std::mt19937 random(seed);
    const std::string signs = "0123456789.,-/+x$ \t\n\"'inmthouglbft>~e";
    const std::pair<const char*, Text> fields[] = {{"cost", &PartRecord::cost},
                                                   {"weight", &PartRecord::weight},
                                                   {"thread", &PartRecord::thread},
                                                   {"length", &PartRecord::length},
                                                   {"tightening", &PartRecord::tightening},
                                                   {"ordered", &PartRecord::ordered},
                                                   {"kept_until", &PartRecord::kept_until},
                                                   {"note", &PartRecord::note}};
    int kept_ones = 0;
    for (int round = 0; round < 40000; ++round) {
        std::string typed;
        const auto size = random() % 9;
        for (unsigned at = 0; at < size; ++at) {
            typed += signs[random() % signs.size()];
        }
        const auto& [name, field] = fields[random() % std::size(fields)];
        PartRecord part = bolt();
        part.*field = typed;
        const auto once = checked_part(part, today);
        if (!once) {
            EXPECT_EQ(once.error().field, name) << "seed " << seed << ": “" << typed << "”";
            continue;
        }
        ++kept_ones;
        const auto twice = checked_part(*once, today);
        ASSERT_TRUE(twice.ok()) << "seed " << seed << ": “" << typed << "”";
        EXPECT_EQ((*twice).*field, (*once).*field) << "seed " << seed << ": “" << typed << "”";
    }
    EXPECT_GT(kept_ones, 4000);
}

} // namespace
} // namespace rodway
