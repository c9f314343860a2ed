#include "core/units/crank_arc.h"

#include <gtest/gtest.h>

#include <limits>

namespace rodway {
namespace {

CrankAngle deg(double value) {
    return CrankAngle::deg(value);
}

TEST(CrankArc, DegreesAheadNeverGoBack) {
    EXPECT_DOUBLE_EQ(degrees_ahead(deg(10.0), deg(30.0)), 20.0);
    EXPECT_DOUBLE_EQ(degrees_ahead(deg(30.0), deg(10.0)), 700.0);
    EXPECT_DOUBLE_EQ(degrees_ahead(deg(700.0), deg(20.0)), 40.0);
    EXPECT_DOUBLE_EQ(degrees_ahead(deg(-90.0), deg(1500.0)), 150.0);
}

TEST(CrankArc, RoundingDoesNotSendAnyoneRoundTheWholeCycle) {
    EXPECT_EQ(degrees_ahead(deg(0.1 + 0.2), deg(0.3)), 0.0); // 0.1 + 0.2 is a bit above 0.3
    EXPECT_EQ(degrees_ahead(deg(0.0), deg(720.0)), 0.0);
    EXPECT_NEAR(degrees_ahead(deg(0.3), deg(0.299)), 719.999, 1e-9); // a real step is one
}

TEST(CrankArc, HoldsBothItsEndsAndRunsAcrossZero) {
    const CrankArc arc{deg(700.0), 50.0};
    EXPECT_DOUBLE_EQ(arc.to().in_deg(), 30.0);
    EXPECT_DOUBLE_EQ(arc.middle().in_deg(), 5.0);
    for (const double in : {700.0, 719.0, 0.0, 30.0, 750.0}) {
        EXPECT_TRUE(arc.holds(deg(in))) << in;
    }
    for (const double out : {699.9, 30.1, 360.0}) {
        EXPECT_FALSE(arc.holds(deg(out))) << out;
    }
}

TEST(CrankArc, AnAngleThatIsNoNumberIsRefusedByItsField) {
    for (const double bad :
         {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
        const auto checked = check_crank_angle(deg(bad), "crank");
        ASSERT_FALSE(checked.ok());
        EXPECT_EQ(checked.error().code, ErrorCode::not_an_angle);
        EXPECT_EQ(checked.error().field, "crank");
        EXPECT_FALSE((CrankArc{deg(0.0), 720.0}).holds(deg(bad)));
    }
    EXPECT_TRUE(check_crank_angle(deg(-1e9), "crank").ok());
}

} // namespace
} // namespace rodway
