#include "core/piston/least_of_row.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

ClearanceAtAngle exactly(double deg, double mm) {
    return {CrankAngle::deg(deg), Interval::exactly(mm)};
}

double parabola_mm(double deg) {
    return 2.0 + 0.004 * (deg - 8.3) * (deg - 8.3);
}

// Closed form: three points of a parabola give it back, evenly spaced or not, in any order.
TEST(LeastOfRow, FindsAParabolasBottom) {
    std::vector<ClearanceAtAngle> row;
    for (const double deg : {20.0, -10.0, 3.0, 11.0, 5.0}) {
        row.push_back(exactly(deg, parabola_mm(deg)));
    }
    const auto found = least_of_row(row);
    ASSERT_TRUE(found.ok());
    ASSERT_TRUE(found->least_mm);
    EXPECT_NEAR(found->least_mm->low, 2.0, 1e-9);
    EXPECT_NEAR(found->least_mm->high, parabola_mm(11.0), 1e-12);
    EXPECT_NEAR(found->after_overlap->in_deg(), 8.3, 1e-9);
    EXPECT_EQ(found->lowest, 3U);
}

TEST(LeastOfRow, SaysNothingWhereTheLeastStandsAtAnEnd) {
    const auto falling = least_of_row({exactly(0, 3), exactly(5, 2), exactly(10, 1.9)});
    ASSERT_TRUE(falling.ok());
    EXPECT_TRUE(falling->at_end);
    EXPECT_FALSE(falling->least_mm);
    EXPECT_EQ(falling->lowest, 2U);
    // As low as the last: it may go on falling.
    EXPECT_TRUE(least_of_row({exactly(0, 3), exactly(5, 2), exactly(10, 2)})->at_end);
    EXPECT_TRUE(least_of_row({exactly(0, 2), exactly(5, 2), exactly(10, 3)})->at_end);
    EXPECT_FALSE(
        least_of_row({exactly(0, 3), exactly(5, 2), exactly(10, 2), exactly(15, 3)})->at_end);
}

TEST(LeastOfRow, ATouchIsNotBelowNothing) {
    const auto found = least_of_row({exactly(0, 1), exactly(5, 0), exactly(10, 0.01)});
    EXPECT_EQ(found->least_mm->low, 0.0);
    EXPECT_EQ(found->least_mm->high, 0.0);
}

TEST(LeastOfRow, RefusesWhatIsNoRow) {
    EXPECT_EQ(least_of_row({exactly(0, 1), exactly(5, 0)}).error().code, ErrorCode::too_few_rows);
    const auto twice = least_of_row({exactly(0, 1), exactly(5, 0), exactly(0, 2)});
    EXPECT_EQ(twice.error().code, ErrorCode::order_wrong);
    EXPECT_EQ(twice.error().line, 3);
    EXPECT_EQ(least_of_row({exactly(0, 1), exactly(5, -1), exactly(9, 2)}).error().code,
              ErrorCode::out_of_range);
    EXPECT_EQ(least_of_row({exactly(0, 1), exactly(190, 1), exactly(9, 2)}).error().field, "angle");
}

} // namespace
} // namespace rodway
