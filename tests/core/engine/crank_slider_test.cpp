#include "core/engine/crank_slider.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <numbers>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20260511;

CrankSlider slider_of(double stroke_mm, double rod_mm, double offset_mm = 0.0) {
    const auto slider = CrankSlider::make(stroke_mm, rod_mm, offset_mm);
    EXPECT_TRUE(slider.ok());
    return *slider;
}

CrankAngle deg(double value) {
    return CrankAngle::deg(value);
}

/// Second method: places, from the two triangles of the mechanism, by the crank pin's own angle.
struct Places {
    Vec2 crank_pin_mm;
    Vec2 piston_pin_mm;
};
Places places(double stroke_mm, double rod_mm, double offset_mm, double crank_pin_rad) {
    const double r = stroke_mm / 2.0;
    const Vec2 crank_pin(r * std::sin(crank_pin_rad), r * std::cos(crank_pin_rad));
    const double across = offset_mm - crank_pin.x();
    return {crank_pin, {offset_mm, crank_pin.y() + std::sqrt(rod_mm * rod_mm - across * across)}};
}

struct Random {
    double stroke_mm, rod_mm, offset_mm;
};
Random random_crank(std::mt19937_64& random) {
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    Random made{};
    made.stroke_mm = 40.0 + 160.0 * unit(random);
    made.rod_mm = made.stroke_mm * (0.75 + 1.75 * unit(random));
    made.offset_mm = made.rod_mm * 0.2 * (2.0 * unit(random) - 1.0);
    return made;
}

// Tolerance: rounding of some 300 mm.
TEST(CrankSlider, TopAndBottomAreWhereThePistonIsHighestAndLowest) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    for (int round = 0; round < 200; ++round) {
        const Random made = random_crank(random);
        const CrankSlider slider = slider_of(made.stroke_mm, made.rod_mm, made.offset_mm);
        double highest = -1e9;
        double lowest = 1e9;
        for (int step = 0; step < 3600; ++step) {
            const double turned = step * std::numbers::pi / 1800.0;
            const double height =
                places(made.stroke_mm, made.rod_mm, made.offset_mm, turned).piston_pin_mm.y();
            highest = std::max(highest, height);
            lowest = std::min(lowest, height);
        }
        // A tenth of a degree's step misses an end by at most (1 + 2)·r·(0.05°)²/2 = 0.00012 mm.
        EXPECT_NEAR(slider.top_height_mm(), highest, 2e-4);
        EXPECT_NEAR(slider.travel_mm(), highest - lowest, 4e-4);
        EXPECT_GE(slider.top_height_mm(), highest - 1e-10);
        EXPECT_GE(slider.travel_mm(), highest - lowest - 1e-10);
        EXPECT_NEAR(slider.piston(deg(0.0)).from_top_mm, 0.0, 1e-10);
        EXPECT_NEAR(slider.piston(deg(0.0)).velocity_mm_per_rad, 0.0, 1e-10);
        EXPECT_NEAR(slider.piston(slider.bottom()).from_top_mm, slider.travel_mm(), 1e-10);
        EXPECT_NEAR(slider.piston(slider.bottom()).velocity_mm_per_rad, 0.0, 1e-10);
    }
}

// Central differences of the second method's places; their own error, a step of 1e-4 rad squared
// and rounding over it squared, is some 1e-5 of the throw.
TEST(CrankSlider, EveryPointOfTheRodMovesAsItsPlacesSay) {
    std::cout << "seed " << seed + 1 << '\n';
    std::mt19937_64 random(seed + 1);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    const double h = 1e-4;
    for (int round = 0; round < 500; ++round) {
        const Random made = random_crank(random);
        const CrankSlider slider = slider_of(made.stroke_mm, made.rod_mm, made.offset_mm);
        const double after_top = 720.0 * (unit(random) - 0.5);
        const double share = round % 3 == 0 ? 1.0 : unit(random);
        const double top_rad = std::asin(made.offset_mm / (made.rod_mm + made.stroke_mm / 2.0));
        const auto place = [&](double more_rad) -> Vec2 {
            const Places at = places(made.stroke_mm, made.rod_mm, made.offset_mm,
                                     top_rad + radians(after_top) + more_rad);
            return (1.0 - share) * at.crank_pin_mm + share * at.piston_pin_mm;
        };
        const RodPointMotion point = slider.on_rod(deg(after_top), share);
        EXPECT_NEAR((point.place_mm - place(0.0)).norm(), 0.0, 1e-10);
        const Vec2 velocity = (place(h) - place(-h)) / (2.0 * h);
        const Vec2 acceleration = (place(h) - 2.0 * place(0.0) + place(-h)) / (h * h);
        EXPECT_NEAR((point.velocity_mm_per_rad - velocity).norm(), 0.0, 1e-4);
        EXPECT_NEAR((point.acceleration_mm_per_rad2 - acceleration).norm(), 0.0, 1e-3);
        if (share == 1.0) {
            const PistonMotion piston = slider.piston(deg(after_top));
            EXPECT_NEAR(piston.from_top_mm, slider.top_height_mm() - place(0.0).y(), 1e-10);
            EXPECT_NEAR(piston.velocity_mm_per_rad, -velocity.y(), 1e-4);
            EXPECT_NEAR(piston.acceleration_mm_per_rad2, -acceleration.y(), 1e-3);
        }
    }
}

TEST(CrankSlider, TheRodsAngleIsItsOwnDerivativesIntegral) {
    std::cout << "seed " << seed + 2 << '\n';
    std::mt19937_64 random(seed + 2);
    std::uniform_real_distribution<double> unit(-360.0, 360.0);
    const double h_deg = 0.01;
    const double h = radians(h_deg);
    for (int round = 0; round < 500; ++round) {
        const Random made = random_crank(random);
        const CrankSlider slider = slider_of(made.stroke_mm, made.rod_mm, made.offset_mm);
        const double angle = unit(random);
        const RodMotion before = slider.rod(deg(angle - h_deg));
        const RodMotion here = slider.rod(deg(angle));
        const RodMotion after = slider.rod(deg(angle + h_deg));
        // Central differences: h²/6 of a third derivative of a few units.
        EXPECT_NEAR(here.velocity_rad_per_rad, (after.angle_rad - before.angle_rad) / (2.0 * h),
                    1e-6);
        EXPECT_NEAR(here.acceleration_rad_per_rad2,
                    (after.velocity_rad_per_rad - before.velocity_rad_per_rad) / (2.0 * h), 1e-6);
    }
    // The crank pin goes to the positive side as it passes the top.
    EXPECT_GT(slider_of(80.0, 140.0).rod(deg(45.0)).angle_rad, 0.0);
    EXPECT_LT(slider_of(80.0, 140.0).rod(deg(-45.0)).angle_rad, 0.0);
}

// Second method: the greatest speed of 3600 looks a turn. A look misses the greatest by at most
// |v''|·(0.05°)²/2, 1e-4 mm/rad here; and the speed there can't be beaten.
TEST(CrankSlider, ThePistonIsFastestAtTheRootsOfItsAccelerationAndThereIsOneEachWay) {
    std::cout << "seed " << seed + 3 << '\n';
    std::mt19937_64 random(seed + 3);
    for (int round = 0; round < 100; ++round) {
        const Random made = random_crank(random);
        const CrankSlider slider = slider_of(made.stroke_mm, made.rod_mm, made.offset_mm);
        double fastest = 0.0;
        double slowest = 0.0;
        int changes = 0;
        for (int step = 0; step < 3600; ++step) {
            const PistonMotion here = slider.piston(deg(step * 0.1));
            const PistonMotion next = slider.piston(deg(step * 0.1 + 0.1));
            fastest = std::max(fastest, here.velocity_mm_per_rad);
            slowest = std::min(slowest, here.velocity_mm_per_rad);
            changes +=
                (here.acceleration_mm_per_rad2 > 0.0) != (next.acceleration_mm_per_rad2 > 0.0);
        }
        EXPECT_EQ(changes, 2);
        const CrankAngle down = slider.fastest_going_down();
        const CrankAngle up = slider.fastest_going_up();
        EXPECT_GT(up, slider.bottom());
        EXPECT_LT(down, slider.bottom());
        EXPECT_NEAR(slider.piston(down).velocity_mm_per_rad, fastest, 1e-3);
        EXPECT_NEAR(slider.piston(up).velocity_mm_per_rad, slowest, 1e-3);
        EXPECT_GE(slider.piston(down).velocity_mm_per_rad, fastest - 1e-10);
        EXPECT_LE(slider.piston(up).velocity_mm_per_rad, slowest + 1e-10);
        EXPECT_NEAR(slider.piston(down).acceleration_mm_per_rad2, 0.0, 1e-9);
        EXPECT_NEAR(slider.piston(up).acceleration_mm_per_rad2, 0.0, 1e-9);
    }
}

// Mirror: an offset to one side, turned one way, is the other side turned the other way.
// Counted from the top the two ways differ by the angle cubed: at 10 degrees by 0.0015 mm.
TEST(CrankSlider, AnOffsetPinIsNotTheSameBothWays) {
    const CrankSlider one = slider_of(88.0, 145.0, 3.0);
    const CrankSlider other = slider_of(88.0, 145.0, -3.0);
    for (const double angle : {10.0, 75.0, 160.0, 250.0}) {
        EXPECT_NEAR(one.piston(deg(angle)).from_top_mm, other.piston(deg(-angle)).from_top_mm,
                    1e-10);
        EXPECT_GT(
            std::abs(one.piston(deg(angle)).from_top_mm - one.piston(deg(-angle)).from_top_mm),
            0.001);
    }
    EXPECT_GT(one.bottom().in_deg(), 180.5);
    EXPECT_LT(other.bottom().in_deg(), 179.5);
    EXPECT_GT(one.travel_mm(), 88.001);
    // One turn a second: up and down once.
    EXPECT_DOUBLE_EQ(one.mean_piston_speed_mm_per_s(60.0), 2.0 * one.travel_mm());
}

TEST(CrankSlider, RefusesWhatCannotBeACrankAndSaysWhich) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    const auto expect = [](const Result<CrankSlider>& made, ErrorCode code, const char* field) {
        ASSERT_FALSE(made.ok());
        EXPECT_EQ(made.error().code, code);
        EXPECT_EQ(made.error().field, field);
        EXPECT_TRUE(made.error().limits.has_value());
    };
    expect(CrankSlider::make(9.0, 145.0), ErrorCode::out_of_range, "stroke");
    expect(CrankSlider::make(nan, 145.0), ErrorCode::not_a_number, "stroke");
    expect(CrankSlider::make(88.0, 65.9), ErrorCode::out_of_range, "connecting_rod");
    expect(CrankSlider::make(88.0, infinity), ErrorCode::not_a_number, "connecting_rod");
    expect(CrankSlider::make(88.0, 145.0, 29.1), ErrorCode::out_of_range, "pin_offset");
    expect(CrankSlider::make(88.0, 145.0, nan), ErrorCode::not_a_number, "pin_offset");
    EXPECT_TRUE(CrankSlider::make(88.0, 66.0, -13.2).ok());
}

} // namespace
} // namespace rodway
