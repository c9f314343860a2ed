#include "app/work/shop_day.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

const QTimeZone berlin("Europe/Berlin");

// Clocks in Europe go forward on 2026-03-29 and back on 2026-10-25 at 01:00 UTC (Directive
// 2000/84/EC, articles 2 and 3).
TEST(ShopDay, HasTwentyThreeOrTwentyFiveHoursWhereClocksAreChanged) {
    const ShopDay spring = shop_day("2026-03-29T10:00:00Z", berlin);
    EXPECT_EQ(spring.day, "2026-03-29");
    EXPECT_EQ(spring.begins_utc, "2026-03-28T23:00:00Z");
    EXPECT_EQ(spring.ends_utc, "2026-03-29T22:00:00Z");
    EXPECT_EQ(seconds_between(spring.begins_utc, spring.ends_utc), 23 * 3600);
    const ShopDay autumn = shop_day("2026-10-25T10:00:00Z", berlin);
    EXPECT_EQ(seconds_between(autumn.begins_utc, autumn.ends_utc), 25 * 3600);
    EXPECT_EQ(seconds_between(shop_day("2026-06-01T10:00:00Z", berlin).begins_utc,
                              shop_day("2026-06-01T10:00:00Z", berlin).ends_utc),
              24 * 3600);
}

TEST(ShopDay, IsThatOfTheWallNotOfUtc) {
    EXPECT_EQ(shop_day("2026-01-31T22:59:59Z", berlin).day, "2026-01-31");
    EXPECT_EQ(shop_day("2026-01-31T23:00:00Z", berlin).day, "2026-02-01");
    const QTimeZone denver("America/Denver");
    EXPECT_EQ(shop_day("2026-03-01T06:59:59Z", denver).day, "2026-02-28");
    EXPECT_EQ(shop_day("2026-03-01T07:00:00Z", denver).day, "2026-03-01");
}

// Days follow each other without a gap or an overlap, through two years of changes.
TEST(ShopDay, OneEndsWhereTheNextBegins) {
    ShopDay day = shop_day("2026-01-01T12:00:00Z", berlin);
    for (int which = 0; which < 730; ++which) {
        const ShopDay next = shop_day(day.ends_utc, berlin);
        ASSERT_EQ(next.begins_utc, day.ends_utc);
        ASSERT_EQ(days_between(day.day, next.day), 1);
        day = next;
    }
}

} // namespace
} // namespace rodway
