#include "core/describe/dimension_worth.h"

#include <gtest/gtest.h>

#include "core/clearance/survey.h"
#include "tests/core/describe/measured_engine.h"

namespace rodway {
namespace {

double least_at(const SetUpFields& fields, const ValvePosition& valve) {
    for (const ValveClearance& line : *survey(*make_engine(fields))) {
        if (line.position == valve) {
            return line.found.minimum->clearance_mm;
        }
    }
    throw std::runtime_error("no such valve");
}

class DimensionWorthTest : public ::testing::Test {
  protected:
    [[nodiscard]] std::string path(const std::string& owner, const char* name) const {
        return described_path(owner, *dimension_called(name));
    }
    DescriptionWorth worth() {
        LobesMade made;
        return *description_worth(fields_, made);
    }
    static const SizeWorth* find(const DescriptionWorth& all, const std::string& owner,
                                 const char* name) {
        for (const SizeWorth& one : all.sizes) {
            if (one.size.owner == owner && one.dimension->name == name) {
                return &one;
            }
        }
        return nullptr;
    }
    SetUpFields fields_ = MeasuredEngine(demo_fields("inline-six")).fields();
};

// Slow and obvious: one size typed otherwise by hand, the whole engine surveyed again.
TEST_F(DimensionWorthTest, IsWhatTheClearanceChangesByWhenTheSizeIsTypedThatMuchOtherwise) {
    const auto all = worth();
    for (const auto& [owner, name] : std::vector<std::pair<std::string, const char*>>{
             {"intake", "ball_arm"}, {"exhaust", "tube_bore"}, {"4E", "gap_outboard_top"}}) {
        const SizeWorth* one = find(all, owner, name);
        ASSERT_NE(one, nullptr) << owner << ' ' << name;
        ASSERT_TRUE(one->worth_mm.has_value());
        double greatest = 0.0;
        for (const double way : {1.0, -1.0}) {
            SetUpFields other = fields_;
            other[path(owner, name)] = {plain_digits(one->size.value + way * one->size.doubt),
                                        "mm"};
            greatest = std::max(
                greatest, std::abs(least_at(other, one->valve) - least_at(fields_, one->valve)));
        }
        EXPECT_NEAR(*one->worth_mm, greatest, 1e-6) << owner << ' ' << name;
        EXPECT_GT(greatest, 1e-4);
    }
}

TEST_F(DimensionWorthTest, TheLargestComesFirstAndEachValveGetsTheRootOfTheSquares) {
    const auto all = worth();
    for (std::size_t at = 1; at < all.sizes.size(); ++at) {
        EXPECT_GE(*all.sizes[at - 1].worth_mm, *all.sizes[at].worth_mm);
    }
    ASSERT_EQ(all.valves.size(), 12U);
    // A valve's ± is at least its largest share, and at most the plain sum of all.
    const SizeWorth& first = all.sizes.front();
    for (const DescribedClearance& line : all.valves) {
        ASSERT_TRUE(line.clearance_mm && line.doubt_mm);
        EXPECT_NEAR(*line.clearance_mm, least_at(fields_, line.valve), 1e-9);
        if (line.valve == first.valve) {
            EXPECT_GE(*line.doubt_mm, *first.worth_mm);
        }
    }
}

TEST_F(DimensionWorthTest, WhatIsOnlyAssumedOfOneTubeIsWorthMoreAndOnlyThere) {
    const auto before = worth();
    for (const char* gap :
         {"gap_front_top", "gap_outboard_top", "gap_front_bottom", "gap_outboard_bottom"}) {
        fields_.erase(path("3I", gap));
    }
    const auto after = worth();
    const SizeWorth* assumed = find(after, "3I", "gap_outboard_top");
    ASSERT_NE(assumed, nullptr);
    EXPECT_EQ(assumed->size.stand, SizeStand::mate);
    EXPECT_EQ(assumed->size.from, "2I");
    for (std::size_t at = 0; at < after.valves.size(); ++at) {
        const bool is_3I = position_name(after.valves[at].valve) == "3I";
        const double grown = *after.valves[at].doubt_mm - *before.valves[at].doubt_mm;
        EXPECT_EQ(grown > 0.1, is_3I) << position_name(after.valves[at].valve) << ' ' << grown;
    }
}

TEST_F(DimensionWorthTest, WithoutAnyGapTheRodIsTakenToStandInTheMiddle) {
    for (auto at = fields_.begin(); at != fields_.end();) {
        at = at->first.find("/gap_") != std::string::npos ? fields_.erase(at) : std::next(at);
    }
    const auto all = worth();
    const SizeWorth* front = find(all, "3I", "gap_front_top");
    ASSERT_NE(front, nullptr);
    EXPECT_EQ(front->size.stand, SizeStand::assumed);
    EXPECT_NEAR(front->size.value, (0.5625 - 0.3125) / 2.0 * 25.4, 1e-6);
    EXPECT_NEAR(front->size.doubt, 0.030 * 25.4, 1e-9);
}

TEST_F(DimensionWorthTest, ASmallerStatedDoubtIsWorthLess) {
    const double before = *find(worth(), "exhaust", "tube_bore")->worth_mm;
    fields_[described_doubt_path("exhaust", *dimension_called("tube_bore"))] = {".0005", "in"};
    EXPECT_NEAR(*find(worth(), "exhaust", "tube_bore")->worth_mm, before / 4.0, before / 50.0);
}

} // namespace
} // namespace rodway
