#include "core/bottom_end/reading_slip.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <random>

#include "core/units/length.h"

namespace rodway {
namespace {

double mm(double inches) {
    return Length::inches(inches).in_mm();
}

std::vector<DiameterReading> four(double size_in) {
    std::vector<DiameterReading> readings;
    for (int place = 0; place < 4; ++place) {
        const double wobble_in = 0.0001 * (place % 2);
        readings.push_back(
            {place / 2, place % 2, Interval::around(mm(size_in + wobble_in), mm(0.0001))});
    }
    return readings;
}

void shift(std::vector<DiameterReading>& readings, double by_in) {
    for (DiameterReading& reading : readings) {
        reading.diameter_mm = reading.diameter_mm + Interval::exactly(mm(by_in));
    }
}

/// Invented mains: journals 2.4480, bores .0026 wider.
std::vector<BearingReadings> mains(std::size_t count) {
    std::vector<BearingReadings> bearings(count);
    for (std::size_t at = 0; at < count; ++at) {
        const double own_in = 0.0001 * static_cast<double>(at % 3);
        bearings[at].bearing = "J" + std::to_string(at + 1);
        bearings[at].journal = four(2.4480 + own_in);
        bearings[at].bore = four(2.4506 + own_in);
    }
    return bearings;
}

BearingNominal nominal() {
    BearingNominal made;
    made.journal_mm = mm(2.4480);
    made.bore_mm = mm(2.4508);
    return made;
}

std::vector<SlipFinding> slips(const std::vector<BearingReadings>& bearings,
                               const BearingNominal& made = {},
                               SlipOf slip = SlipOf::inch_micrometer) {
    const auto found = find_slips(bearings, made, slip);
    EXPECT_TRUE(found.ok());
    return *found;
}

bool against(const SlipFinding& finding, SlipAgainst what) {
    return std::find(finding.against.begin(), finding.against.end(), what) != finding.against.end();
}

TEST(ReadingSlip, HonestReadingsHaveNone) {
    EXPECT_TRUE(slips(mains(5)).empty());
    EXPECT_TRUE(slips(mains(5), nominal()).empty());
    EXPECT_TRUE(slips(mains(1)).empty());
    EXPECT_TRUE(slips({}).empty());
    EXPECT_TRUE(slips(mains(5), nominal(), SlipOf::metric_micrometer).empty());
    // A journal worn .003 in, and one ground .010 under, are not a slip.
    auto bearings = mains(5);
    shift(bearings[1].journal, -0.003);
    shift(bearings[2].journal, -0.010);
    EXPECT_TRUE(slips(bearings, nominal()).empty());
}

// A thimble is .025 in a turn, a sleeve's numbers .100 in apart (from memory; every inch
// micrometer).
TEST(ReadingSlip, OneReadingAgainstItsMates) {
    for (const double slip_in : {0.025, -0.025, 0.100, -0.100}) {
        auto bearings = mains(1);
        auto& wrong = bearings[0].journal[2].diameter_mm;
        wrong = wrong + Interval::exactly(mm(slip_in));
        const auto found = slips(bearings);
        ASSERT_EQ(found.size(), 1u) << slip_in;
        EXPECT_EQ(found[0].suspect, SlipSuspect::readings);
        EXPECT_EQ(found[0].size, MeasuredSize::journal);
        EXPECT_EQ(found[0].bearing, "J1");
        EXPECT_EQ(found[0].readings, std::vector<std::size_t>{2});
        EXPECT_NEAR(found[0].too_large_mm, mm(slip_in), 1e-12);
        EXPECT_TRUE(against(found[0], SlipAgainst::mates));
    }
    // Off by something else, it is no slip.
    auto bearings = mains(1);
    bearings[0].journal[2].diameter_mm = Interval::exactly(mm(2.4480 - 0.015));
    EXPECT_TRUE(slips(bearings).empty());
}

TEST(ReadingSlip, HalfAgainstHalfIsDecidedByNominalOrTheOthers) {
    auto bearings = mains(5);
    auto& rear = bearings[3].bore;
    for (const std::size_t at : {std::size_t{2}, std::size_t{3}}) {
        rear[at].diameter_mm = rear[at].diameter_mm + Interval::exactly(mm(-0.025));
    }
    const auto by_mates = slips(bearings);
    ASSERT_EQ(by_mates.size(), 1u);
    EXPECT_EQ(by_mates[0].suspect, SlipSuspect::readings);
    EXPECT_EQ(by_mates[0].size, MeasuredSize::bore);
    EXPECT_EQ(by_mates[0].readings, (std::vector<std::size_t>{2, 3}));
    EXPECT_NEAR(by_mates[0].too_large_mm, mm(-0.025), 1e-12);
    const auto by_nominal = slips({bearings[3]}, nominal());
    ASSERT_EQ(by_nominal.size(), 1u);
    EXPECT_EQ(by_nominal[0].readings, (std::vector<std::size_t>{2, 3}));
    EXPECT_TRUE(against(by_nominal[0], SlipAgainst::nominal));
    // Alone, nothing says which half is right.
    const auto alone = slips({bearings[3]});
    ASSERT_EQ(alone.size(), 1u);
    EXPECT_EQ(alone[0].suspect, SlipSuspect::some_readings);
}

// "Bearing clearance looks wrong by exactly .025 or .100": which of the two was it?
TEST(ReadingSlip, AClearanceASlipTooLargeLeadsToTheJournalOrTheBore) {
    auto journal_wrong = mains(5);
    shift(journal_wrong[1].journal, -0.025);
    for (const BearingNominal& made : {BearingNominal{}, nominal()}) {
        const auto found = slips(journal_wrong, made);
        ASSERT_EQ(found.size(), 1u);
        EXPECT_EQ(found[0].bearing, "J2");
        EXPECT_EQ(found[0].suspect, SlipSuspect::whole_size);
        EXPECT_EQ(found[0].size, MeasuredSize::journal);
        EXPECT_NEAR(found[0].too_large_mm, mm(-0.025), 1e-12);
        EXPECT_TRUE(against(found[0], SlipAgainst::mates));
        EXPECT_TRUE(against(found[0], SlipAgainst::clearance));
        EXPECT_EQ(against(found[0], SlipAgainst::nominal), made.journal_mm.has_value());
    }
    auto bore_wrong = mains(5);
    shift(bore_wrong[4].bore, 0.100);
    const auto found = slips(bore_wrong);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].bearing, "J5");
    EXPECT_EQ(found[0].size, MeasuredSize::bore);
    EXPECT_NEAR(found[0].too_large_mm, mm(0.100), 1e-12);
}

TEST(ReadingSlip, OfASingleBearingTheClearanceAloneSaysEither) {
    auto bearings = mains(1);
    shift(bearings[0].bore, 0.025);
    const auto found = slips(bearings);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].suspect, SlipSuspect::either);
    EXPECT_FALSE(found[0].size.has_value());
    EXPECT_NEAR(found[0].too_large_mm, mm(0.025), 1e-12);
    // What the journal is meant to be clears it: then it was the bore.
    BearingNominal journal_only;
    journal_only.journal_mm = mm(2.4480);
    const auto cleared = slips(bearings, journal_only);
    ASSERT_EQ(cleared.size(), 1u);
    EXPECT_EQ(cleared[0].suspect, SlipSuspect::whole_size);
    EXPECT_EQ(cleared[0].size, MeasuredSize::bore);
    EXPECT_NEAR(cleared[0].too_large_mm, mm(0.025), 1e-12);
    // A negative clearance of a slip less is found as well.
    shift(bearings[0].bore, -0.050);
    EXPECT_NEAR(slips(bearings)[0].too_large_mm, mm(-0.025), 1e-12);
}

// What the clearance should be is stated, or shown by two others at least; a set of loose bearings,
// .0270 in clear, has slipped only if it is to be as the trade usually has it.
TEST(ReadingSlip, WhatTheClearanceShouldBeIsSeenFromTheOthers) {
    for (const std::size_t count : {std::size_t{3}, std::size_t{5}}) {
        auto bearings = mains(count);
        for (BearingReadings& bearing : bearings) {
            shift(bearing.bore, 0.0244);
        }
        EXPECT_TRUE(slips(bearings).empty()) << count;
        EXPECT_EQ(slips({bearings[0]}).size(), 1u);
        BearingNominal stated;
        stated.clearance_mm = mm(0.0270);
        EXPECT_TRUE(slips({bearings[0]}, stated).empty());
    }
}

TEST(ReadingSlip, HousingAndShellsServeAsWell) {
    auto bearings = mains(3);
    for (BearingReadings& bearing : bearings) {
        bearing.housing = four(2.6412);
        bearing.shell_mm = Interval::exactly(mm(0.0953));
        bearing.bore.clear();
    }
    EXPECT_TRUE(slips(bearings).empty());
    shift(bearings[0].housing, -0.025);
    const auto found = slips(bearings);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].bearing, "J1");
    EXPECT_EQ(found[0].size, MeasuredSize::housing);
    EXPECT_TRUE(against(found[0], SlipAgainst::clearance));
}

// All five .025 under, with bearings to suit: a reground shaft, not five slips.
TEST(ReadingSlip, AShaftGroundUnderIsAnotherNominal) {
    auto bearings = mains(5);
    for (BearingReadings& bearing : bearings) {
        shift(bearing.journal, -0.025);
        shift(bearing.bore, -0.025);
    }
    const auto found = slips(bearings, nominal());
    ASSERT_EQ(found.size(), 2u); // journals and bores
    for (const SlipFinding& finding : found) {
        EXPECT_EQ(finding.suspect, SlipSuspect::nominal);
        EXPECT_TRUE(finding.bearing.empty());
        EXPECT_NEAR(finding.too_large_mm, mm(-0.025), 1e-12);
    }
    // One bearing alone: its clearance is as it should be, so its nominal is what is off.
    const auto one = slips({bearings[0]}, nominal());
    ASSERT_EQ(one.size(), 2u);
    EXPECT_EQ(one[0].suspect, SlipSuspect::nominal);
}

TEST(ReadingSlip, AMetricMicrometerSlipsHalfAMillimetre) {
    auto bearings = mains(5);
    shift(bearings[2].journal, 0.5 / 25.4);
    const auto found = slips(bearings, {}, SlipOf::metric_micrometer);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].bearing, "J3");
    EXPECT_NEAR(found[0].too_large_mm, 0.5, 1e-12);
    EXPECT_TRUE(slips(bearings).empty()); // .0197 in is no slip of an inch micrometer
}

TEST(ReadingSlip, AnyOneSlipAmongMainsIsFoundWhereItIs) {
    constexpr std::uint64_t seed = 20261205;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> honest_in(-0.0004, 0.0004);
    for (int round = 0; round < 500; ++round) {
        auto bearings = mains(5);
        for (BearingReadings& bearing : bearings) {
            for (auto* sizes : {&bearing.journal, &bearing.bore}) {
                for (DiameterReading& reading : *sizes) {
                    reading.diameter_mm =
                        reading.diameter_mm + Interval::exactly(mm(honest_in(random)));
                }
            }
        }
        const std::size_t at = random() % bearings.size();
        const bool journal = random() % 2 == 0;
        const double slip_in = (random() % 2 ? 0.025 : 0.100) * (random() % 2 ? 1.0 : -1.0);
        auto& sizes = journal ? bearings[at].journal : bearings[at].bore;
        const std::size_t reading = random() % 5; // 4: all of them
        if (reading == 4) {
            shift(sizes, slip_in);
        } else {
            sizes[reading].diameter_mm =
                sizes[reading].diameter_mm + Interval::exactly(mm(slip_in));
        }
        const auto found = slips(bearings);
        ASSERT_EQ(found.size(), 1u) << round;
        EXPECT_EQ(found[0].bearing, bearings[at].bearing);
        EXPECT_EQ(found[0].size, journal ? MeasuredSize::journal : MeasuredSize::bore);
        EXPECT_EQ(found[0].suspect, reading == 4 ? SlipSuspect::whole_size : SlipSuspect::readings);
        EXPECT_EQ(found[0].readings.size(), reading == 4 ? 4u : 1u);
        EXPECT_NEAR(found[0].too_large_mm, mm(slip_in), 1e-12);
    }
}

TEST(ReadingSlip, NamesWhatIsWrong) {
    BearingNominal made;
    made.journal_mm = 2.448; // inches typed
    EXPECT_EQ(find_slips(mains(2), made, SlipOf::inch_micrometer).error().field, "nominal/journal");
    made = {};
    made.clearance_mm = 2.5; // thousandths typed
    EXPECT_EQ(find_slips(mains(2), made, SlipOf::inch_micrometer).error().field,
              "nominal/clearance");
    auto bearings = mains(2);
    bearings[1].bore[0].diameter_mm = {3.0, 2.0};
    EXPECT_EQ(find_slips(bearings, {}, SlipOf::inch_micrometer).error().field, "bore");
}

} // namespace
} // namespace rodway
