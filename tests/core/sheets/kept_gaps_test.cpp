#include "core/sheets/kept_gaps.h"

#include <gtest/gtest.h>

#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

using Fields = std::vector<std::string>;

Reading felt(std::int64_t id, std::optional<std::int64_t> set_up, const std::string& position,
             const std::string& text = ".008-.010") {
    Reading reading;
    reading.id = id;
    reading.set_up_id = set_up;
    reading.quantity = std::string(rod_gap_quantity);
    reading.position = position;
    reading.text = text;
    reading.unit = "in";
    return reading;
}

/// Three set-ups of the demo's V8: the second has a thicker intake gasket on one bank, the third,
/// in hand, other springs besides.
std::vector<SetUpRecord> three_set_ups() {
    SetUpFields fields = demo_fields("v8-port-tubes");
    std::vector<SetUpRecord> set_ups{{1, 1, "first", fields}};
    fields["banks/left/flange/gasket"] = {"0.075", "in"};
    set_ups.push_back({2, 1, "gasket", fields});
    fields["springs/intake/installed_height"] = {"1.9", "in"};
    set_ups.push_back({3, 1, "springs", fields});
    return set_ups;
}

const std::string intake = "3I/tube/rocker/3/heel";  // a tube in the intake, which is one casting
const std::string exhaust = "3E/tube/rocker/3/heel"; // a tube in the head

TEST(KeptGaps, HoldWhereNothingThatActsOnThemHasChangedSinceTheirSetUp) {
    const auto kept = kept_gaps({felt(1, 1, intake), felt(2, 1, exhaust), felt(3, 2, intake),
                                 felt(4, 3, "1I/tube/rocker/3/heel")},
                                three_set_ups());
    ASSERT_EQ(kept.size(), 4U);
    EXPECT_EQ(kept[0].standing, GapStanding::stale);
    EXPECT_EQ(kept[0].stale_fields, Fields{"banks/left/flange/gasket"});
    for (const std::size_t at : {1U, 2U, 3U}) {
        EXPECT_EQ(kept[at].standing, GapStanding::holds) << at;
        EXPECT_EQ(kept[at].stale_fields, Fields{}) << at;
        ASSERT_TRUE(kept[at].gap.has_value());
        EXPECT_EQ(kept[at].gap->name, std::to_string(at + 1));
    }
}

// The order in which set-ups are given says nothing: the highest number is in hand.
TEST(KeptGaps, TheSetUpInHandIsTheNewest) {
    std::vector<SetUpRecord> turned = three_set_ups();
    std::swap(turned[0], turned[2]);
    EXPECT_EQ(kept_gaps({felt(1, 1, intake)}, turned)[0].standing, GapStanding::stale);
    EXPECT_EQ(kept_gaps({felt(1, 3, intake)}, turned)[0].standing, GapStanding::holds);
}

TEST(KeptGaps, ALaterReadingAtTheSamePlaceCountsInstead) {
    const auto kept = kept_gaps({felt(1, 3, intake), felt(2, 3, "3I/tube/rocker/4/heel"),
                                 felt(3, 3, intake), felt(4, 3, intake)},
                                three_set_ups());
    EXPECT_EQ(kept[0].standing, GapStanding::taken_again);
    EXPECT_EQ(kept[0].taken_again_in, 4);
    EXPECT_EQ(kept[1].standing, GapStanding::holds);
    EXPECT_EQ(kept[2].standing, GapStanding::taken_again);
    EXPECT_EQ(kept[3].standing, GapStanding::holds);
    EXPECT_EQ(kept[3].taken_again_in, std::nullopt);
}

// One that says nothing any more takes nothing away from one that does.
TEST(KeptGaps, AStaleOrUnreadableReadingReplacesNone) {
    const auto kept = kept_gaps(
        {felt(1, 3, intake), felt(2, 1, intake), felt(3, 3, intake, "snug")}, three_set_ups());
    EXPECT_EQ(kept[0].standing, GapStanding::holds);
    EXPECT_EQ(kept[1].standing, GapStanding::stale);
    EXPECT_EQ(kept[2].standing, GapStanding::not_readable);
    ASSERT_TRUE(kept[2].error.has_value());
    EXPECT_EQ(kept[2].error->field, "text");
    EXPECT_FALSE(kept[2].gap.has_value());
}

TEST(KeptGaps, WithoutASetUpNothingIsKnownOfThem) {
    EXPECT_EQ(kept_gaps({felt(1, {}, intake)}, three_set_ups())[0].standing,
              GapStanding::set_up_not_known);
    EXPECT_EQ(kept_gaps({felt(1, 9, intake)}, three_set_ups())[0].standing,
              GapStanding::set_up_not_known);
    EXPECT_EQ(kept_gaps({felt(1, 1, intake)}, {})[0].standing, GapStanding::set_up_not_known);
}

TEST(KeptGaps, OtherQuantitiesAreNoGaps) {
    Reading other = felt(1, 3, "3I");
    other.quantity = "rod_clearance";
    EXPECT_TRUE(kept_gaps({other}, three_set_ups()).empty());
}

} // namespace
} // namespace rodway
