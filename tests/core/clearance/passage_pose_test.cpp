#include "core/clearance/passage_pose.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

TEST(PassagePose, MovesAndLeansTheWayTheClockSays) {
    const Bore upright{Vec3(10, 20, 30), Vec3::UnitZ(), 80.0, 7.0};
    const Bore front = at_pose(upright, {1.0, 0.0, 0.0, 0.0});
    EXPECT_LT((front.centre_K - Vec3(9, 20, 30)).norm(), 1e-12); // 12 o'clock is -x
    const Bore side = at_pose(upright, {0.0, 1.0, 0.0, 0.0});
    EXPECT_LT((side.centre_K - Vec3(10, 21, 30)).norm(), 1e-12); // 3 o'clock is +y
    const Bore leaning = at_pose(upright, {0.0, 0.0, 0.02, -0.01});
    EXPECT_LT(leaning.axis_K.x(), -0.019);
    EXPECT_LT(leaning.axis_K.y(), -0.009);
    EXPECT_NEAR(leaning.axis_K.norm(), 1.0, 1e-15);
    EXPECT_EQ(leaning.centre_K, upright.centre_K);
}

TEST(PassagePose, AnObroundKeepsItsLongWaySquareToItsAxis) {
    Bore obround{Vec3::Zero(), Vec3::UnitZ(), 40.0, 6.0};
    obround.half_straight_mm = 3.0;
    obround.long_way_K = Vec3::UnitY();
    const Bore leaning = at_pose(obround, {0.0, 0.0, 0.0, 0.1});
    EXPECT_NEAR(leaning.long_way_K.dot(leaning.axis_K), 0.0, 1e-15);
    EXPECT_NEAR(leaning.long_way_K.norm(), 1.0, 1e-15);
    EXPECT_GT(leaning.long_way_K.y(), 0.99);
}

TEST(PassagePose, RefusesWhatNobodyCanHaveStated) {
    EXPECT_TRUE(check_stated_place({0.0, 0.0}).ok());
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(check_stated_place({nan, 0.01}).error().code, ErrorCode::not_a_number);
    EXPECT_EQ(check_stated_place({nan, 0.01}).error().field, "stated/sideways");
    EXPECT_EQ(check_stated_place({0.5, -0.01}).error().code, ErrorCode::out_of_range);
    EXPECT_EQ(check_stated_place({0.5, -0.01}).error().field, "stated/lean");
}

} // namespace
} // namespace rodway
