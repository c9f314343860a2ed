#include "core/intake/face_feeler.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/units/angle.h"

namespace rodway {
namespace {

// Worked by hand: .5 less .1 mm over 50: 0.4583 degrees. Feelers leave .02 each.
TEST(FaceFeeler, TopAgainstBottomIsAnAngle) {
    const auto face =
        face_angle({Interval::about(0.5, 0.02), Interval::about(0.1, 0.02), {49.0, 51.0}}, 0.1);
    ASSERT_TRUE(face.ok());
    EXPECT_NEAR(face->open_more_at_top_mm.middle(), 0.4, 1e-12);
    EXPECT_NEAR(face->open_more_at_top_mm.half_width(), 0.04, 1e-12);
    EXPECT_TRUE(face->angle_rad.holds(radians(0.45836)));
    EXPECT_NEAR(face->angle_rad.low, std::atan(0.36 / 51.0), 1e-12);
    EXPECT_NEAR(face->angle_rad.high, std::atan(0.44 / 49.0), 1e-12);
    EXPECT_EQ(face->standing, FaceStanding::open_at_top);
}

TEST(FaceFeeler, TheSignSaysWhichEdgeIsOpen) {
    const auto at = [](double top, double bottom) {
        return face_angle({Interval::about(top, 0.02), Interval::about(bottom, 0.02), {50.0, 50.0}},
                          0.1)
            ->standing;
    };
    EXPECT_EQ(at(0.1, 0.5), FaceStanding::open_at_bottom);
    EXPECT_EQ(at(0.5, 0.5), FaceStanding::parallel) << "off alike is no angle";
    EXPECT_EQ(at(0.5, 0.39), FaceStanding::undecided); // .11 ± .04
    EXPECT_EQ(at(0.39, 0.5), FaceStanding::undecided);
}

TEST(FaceFeeler, BadReadingsAreNamed) {
    const Interval gap = Interval::exactly(0.5);
    const Interval width = Interval::exactly(50.0);
    EXPECT_EQ(face_angle({{-0.1, 0.5}, gap, width}, 0.1).error().field, "top");
    EXPECT_EQ(face_angle({gap, {0.5, 0.4}, width}, 0.1).error().field, "bottom");
    EXPECT_EQ(face_angle({gap, gap, {0.0, 50.0}}, 0.1).error().field, "width");
    EXPECT_EQ(face_angle({gap, gap, width}, std::nan("")).error().field, "tolerance");
}

} // namespace
} // namespace rodway
