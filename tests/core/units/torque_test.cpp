#include "core/units/torque.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

// A pound-foot is 1.355818 N m (NIST SP 811, App. B, printed), 1.3558179483314004 exactly.
TEST(Torque, ConvertsByExactFootAndPound) {
    EXPECT_NEAR(Torque::lbf_ft(1.0).in_Nm(), 1.3558179483314004, 1e-15);
    EXPECT_DOUBLE_EQ(Torque::lbf_in(12.0).in_lbf_ft(), 1.0);
    EXPECT_DOUBLE_EQ(Torque::kgf_m(1.0).in_Nm(), 9.80665);
    EXPECT_DOUBLE_EQ(Torque::Nm(Torque::lbf_in(45.0).in_Nm()).in_lbf_in(), 45.0);
    EXPECT_DOUBLE_EQ(Torque::Nm(19.6133).in_kgf_m(), 2.0);
    EXPECT_DOUBLE_EQ((Torque::Nm(3.0) + Torque::Nm(1.0) * 2.0 - Torque::Nm(4.0) / 4.0).in_Nm(),
                     4.0);
    EXPECT_LT(-Torque::Nm(1.0), Torque());
}

} // namespace
} // namespace rodway
