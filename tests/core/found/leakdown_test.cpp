#include "core/found/leakdown.h"

#include <gtest/gtest.h>

#include <cmath>

namespace rodway {
namespace {

Interval percent(double value) {
    return Interval::about(value, 1.0);
}

// Fresh 5 to 10 %, 20 % still usable (common practice, no source). Readings made up; worked by
// hand.
TEST(Leakdown, EachCylinderIsClassedAndSetBesideTheTightest) {
    const auto found = leakdown({{1, percent(8.0)},
                                 {2, percent(15.0)},
                                 {3, percent(30.0)},
                                 {4, percent(10.0)},
                                 {5, percent(20.0)},
                                 {6, percent(5.0)}});
    ASSERT_TRUE(found.ok());
    const LeakdownClass classes[] = {LeakdownClass::fresh,          LeakdownClass::usable,
                                     LeakdownClass::worn,           LeakdownClass::fresh_or_usable,
                                     LeakdownClass::usable_or_worn, LeakdownClass::fresh};
    for (std::size_t at = 0; at < 6; ++at) {
        EXPECT_EQ(found->cylinders[at].found, classes[at]) << at;
        EXPECT_EQ(found->cylinders[at].cylinder, static_cast<int>(at) + 1);
    }
    EXPECT_NEAR(found->spread_percent.low, 23.0, 1e-12);
    EXPECT_NEAR(found->spread_percent.high, 27.0, 1e-12);
    EXPECT_NEAR(found->mean_percent.middle(), 88.0 / 6.0, 1e-12);
    EXPECT_NEAR(found->mean_percent.half_width(), 1.0, 1e-12);
    EXPECT_EQ(found->least_percent, percent(5.0));
    EXPECT_EQ(found->greatest_percent, percent(30.0));
    EXPECT_NEAR(found->cylinders[2].above_least_percent.low, 23.0, 1e-12);
    EXPECT_NEAR(found->cylinders[5].above_least_percent.middle(), -3.0, 1e-12) << "the tightest";
}

TEST(Leakdown, TheBandsEndsAreWithinThemAndMayBeOthers) {
    const auto at = [](double value, const LeakdownBands& bands) {
        return leakdown({{1, Interval::exactly(value)}}, bands)->cylinders[0].found;
    };
    EXPECT_EQ(at(10.0, {}), LeakdownClass::fresh);
    EXPECT_EQ(at(20.0, {}), LeakdownClass::usable);
    EXPECT_EQ(at(20.5, {}), LeakdownClass::worn);
    EXPECT_EQ(at(10.0, {5.0, 8.0, FigureSource::shop}), LeakdownClass::worn);
    EXPECT_EQ(LeakdownBands{}.source, FigureSource::common_practice);
    // From fresh right over to worn: usable or worn says the worse of it.
    EXPECT_EQ(leakdown({{1, {5.0, 25.0}}})->cylinders[0].found, LeakdownClass::usable_or_worn);
}

TEST(Leakdown, BadReadingsAreNamed) {
    EXPECT_EQ(leakdown({}).error().code, ErrorCode::too_few_rows);
    const auto twice = leakdown({{1, percent(8.0)}, {1, percent(8.0)}});
    EXPECT_EQ(twice.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.error().line, 2);
    EXPECT_EQ(leakdown({{1, percent(101.0)}}).error().field, "percent");
    EXPECT_EQ(leakdown({{1, percent(std::nan(""))}}).error().code, ErrorCode::not_a_number);
    EXPECT_EQ(leakdown({{1, percent(8.0)}}, {20.0, 10.0, {}}).error().field, "bands/usable");
    EXPECT_EQ(leakdown({{1, percent(8.0)}}, {-1.0, 10.0, {}}).error().field, "bands/fresh");
}

} // namespace
} // namespace rodway
