#include "core/engine/dynamic_compression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

#include "tests/core/engine/cylinder_at_top.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;

DynamicCompression made(const CylinderAtTop& cylinder, const Bounded& rod_mm,
                        const Bounded& closes_deg, double offset_mm = 0.0) {
    const auto found = dynamic_compression(cylinder, rod_mm, closes_deg, offset_mm);
    EXPECT_TRUE(found.ok()) << (found.ok() ? "" : found.error().field);
    return found.ok() ? *found : DynamicCompression{};
}

TEST(DynamicCompression, ShutAtBottomDeadCentreItIsTheWholeRatio) {
    const CylinderAtTop cylinder = plain_cylinder();
    const DynamicCompression found = made(cylinder, inches(5.7), Bounded{});
    EXPECT_NEAR(found.stroke_left_mm.value, cylinder.size.stroke_mm.value, 1e-10);
    EXPECT_NEAR(found.ratio.value, compression_of(cylinder)->ratio.value, 1e-10);
}

TEST(DynamicCompression, TheLaterTheValveShutsTheLessIsLeft) {
    const CylinderAtTop cylinder = plain_cylinder();
    double before = 100.0;
    for (const double closes_deg : {0.0, 30.0, 42.0, 60.0, 77.0}) {
        const double ratio = made(cylinder, inches(6.0), Bounded::exactly(closes_deg)).ratio.value;
        EXPECT_LT(ratio, before);
        before = ratio;
    }
    // A longer rod dwells less at the bottom.
    EXPECT_LT(made(cylinder, inches(7.0), Bounded::exactly(60.0)).stroke_left_mm.value,
              made(cylinder, inches(5.7), Bounded::exactly(60.0)).stroke_left_mm.value);
}

/// Piston below its top by the pin's height over the crank, an offset pin's own top found by the
/// two lengths in line.
double twin_left_mm(double stroke, double rod, double offset, double closes_deg) {
    const double r = stroke / 2.0;
    const double top = std::asin(offset / (rod + r));
    const double theta = top + (180.0 + closes_deg) * std::numbers::pi / 180.0;
    const double sideways = r * std::sin(theta) - offset;
    return std::sqrt(std::pow(rod + r, 2) - offset * offset) -
           (r * std::cos(theta) + std::sqrt(rod * rod - sideways * sideways));
}

TEST(DynamicCompression, NoEngineWithinTheBoundsIsOutsideThem) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const auto about = [&](double from, double to, double most) {
        const double low = from + (to - from) * unit(random);
        return Bounded::between(low, low + most * unit(random));
    };
    int over_bottom = 0;
    for (int round = 0; round < 400; ++round) {
        CylinderAtTop cylinder = plain_cylinder();
        cylinder.size.stroke_mm = about(70.0, 105.0, 0.5);
        cylinder.chamber_cc = about(55.0, 80.0, 2.0);
        const Bounded rod_mm = about(140.0, 170.0, 0.5);
        const Bounded closes_deg = about(-15.0, 80.0, 12.0);
        const double offset_mm = round % 2 == 0 ? 0.0 : 6.0 * unit(random) - 3.0;
        const DynamicCompression found = made(cylinder, rod_mm, closes_deg, offset_mm);
        over_bottom += closes_deg.low < 0.0 && closes_deg.high > 0.0;
        double least = 1e9;
        double most = 0.0;
        for (int inside = 0; inside < 200; ++inside) {
            const auto in = [&](const Bounded& of) {
                const double share = std::clamp(2.0 * unit(random) - 0.5, 0.0, 1.0);
                return of.low + share * (of.high - of.low);
            };
            const double left_mm =
                twin_left_mm(in(cylinder.size.stroke_mm), in(rod_mm), offset_mm, in(closes_deg));
            least = std::min(least, left_mm);
            most = std::max(most, left_mm);
        }
        EXPECT_GE(least, found.stroke_left_mm.low - 1e-9) << offset_mm;
        EXPECT_LE(most, found.stroke_left_mm.high + 1e-9) << offset_mm;
        EXPECT_GT(most - least, 0.8 * (found.stroke_left_mm.high - found.stroke_left_mm.low));
        EXPECT_NEAR(
            found.stroke_left_mm.value,
            twin_left_mm(cylinder.size.stroke_mm.value, rod_mm.value, offset_mm, closes_deg.value),
            1e-9);
    }
    EXPECT_GT(over_bottom, 20);
}

TEST(DynamicCompression, ItsRatioIsBoundedByChamberAndClosing) {
    CylinderAtTop cylinder = plain_cylinder();
    cylinder.chamber_cc = Bounded{64.0, 63.5, 64.5};
    const Bounded closes_deg{60.0, 58.0, 62.0};
    const DynamicCompression found = made(cylinder, inches(6.0), closes_deg);
    const auto alone = [&](double chamber_cc, double deg) {
        CylinderAtTop one = cylinder;
        one.chamber_cc = Bounded::exactly(chamber_cc);
        return made(one, inches(6.0), Bounded::exactly(deg)).ratio.value;
    };
    EXPECT_NEAR(found.ratio.low, alone(64.5, 62.0), 1e-10);
    EXPECT_NEAR(found.ratio.high, alone(63.5, 58.0), 1e-10);
    EXPECT_NEAR(found.ratio.value, alone(64.0, 60.0), 1e-10);
    EXPECT_NEAR(found.ratio.value,
                1.0 + found.swept_left_cc.value / compression_of(cylinder)->clearance_cc.value,
                1e-10);
}

TEST(DynamicCompression, BadInputIsAnErrorThatNamesIt) {
    const auto field = [](const Bounded& rod_mm, const Bounded& closes_deg, double offset_mm) {
        return dynamic_compression(plain_cylinder(), rod_mm, closes_deg, offset_mm).error().field;
    };
    const Bounded sixty = Bounded::exactly(60.0);
    EXPECT_EQ(field(Bounded::exactly(6.0), sixty, 0.0), "connecting_rod");
    EXPECT_EQ(field(Bounded{150.0, 160.0, 170.0}, sixty, 0.0), "connecting_rod");
    EXPECT_EQ(field(inches(6.0), Bounded::exactly(240.0), 0.0), "intake_closes"); // ATDC
    EXPECT_EQ(field(inches(6.0), sixty, 90.0), "pin_offset");
    CylinderAtTop cylinder = plain_cylinder();
    cylinder.size.stroke_mm = Bounded::exactly(3.75);
    EXPECT_EQ(dynamic_compression(cylinder, inches(6.0), sixty).error().field, "stroke");
    EXPECT_EQ(ratio_from(plain_cylinder(), Bounded::exactly(-1.0)).error().field, "stroke_left");
}

} // namespace
} // namespace rodway
