#include "core/fasteners/lubricant.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(Lubricant, ScatterOfPreloadIsTwoStandardDeviationsEitherWay) {
    const auto own = own_lubricant("assembly lube", 0.15, 0.10);
    ASSERT_TRUE(own.ok());
    EXPECT_EQ(own->source, FigureSource::shop);
    const NutFactor k = own->nut_factor();
    // Arithmetic: preload at one torque goes as 1/K, so from 0.8 to 1.2 of the likely one.
    EXPECT_NEAR(k.likely / k.high, 0.8, 1e-12);
    EXPECT_NEAR(k.likely / k.low, 1.2, 1e-12);
    EXPECT_EQ(k.likely, 0.15);
}

TEST(Lubricant, DryBoltsScatterMoreThanLubricatedOnes) {
    EXPECT_GT(lubricant_called("zinc")->scatter, lubricant_called("lubricated")->scatter);
    // Shigley, table 8-13, from memory: twenty dry bolts, mean 34.3, deviation 4.91 kN: 14.3 %.
    EXPECT_NEAR(lubricant_called("zinc")->scatter, 0.143, 5e-4);
    const auto unknown = lubricant_called("butter");
    EXPECT_EQ(unknown.error().code, ErrorCode::not_a_choice);
    EXPECT_EQ(unknown.error().expected, "plain_black zinc lubricated cadmium");
}

TEST(Lubricant, RefusesWhatNoLubricantIs) {
    EXPECT_EQ(own_lubricant("", 18.0, 0.1).error().field, "factor");
    EXPECT_EQ(own_lubricant("", 0.18, 8.4).error().field, "scatter"); // per cent typed
    EXPECT_EQ(lubricant_from_trials("", Torque::Nm(90.0), 12.0, {Force::N(3e4), Force::N(3e4)})
                  .error()
                  .code,
              ErrorCode::too_few_rows);
    const auto bad = lubricant_from_trials("", Torque::Nm(90.0), 12.0,
                                           {Force::N(3e4), Force::N(3e4), Force::N(34.0)});
    EXPECT_EQ(bad.error().field, "preload");
    EXPECT_EQ(bad.error().line, 3);
}

} // namespace
} // namespace rodway
