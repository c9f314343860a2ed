#include "core/loads/spring_shims.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <random>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20260513;
constexpr double full_lift_mm = 13.0;

double thou(double value) {
    return Length::thou(value).in_mm();
}

/// Made-up: 400 N at 46 mm, 50 N/mm, bound at 29 mm: 4 mm left at full lift without a shim.
ValveSpring spring_of(double installed_mm = 46.0) {
    auto spring = *spring_from_rate(46.0, 400.0, 50.0);
    spring.installed_height_mm = installed_mm;
    spring.bind_height_mm = 29.0;
    spring.retainer_to_seal_mm = 15.0;
    return spring;
}
ShimAim load_aim(double low, double high, std::optional<double> target = {}) {
    return {ShimAim::Of::seat_load, low, high, target};
}
ShimAim height_aim(double low, double high) {
    return {ShimAim::Of::installed_height, low, high, {}};
}
ShimChoice chosen(const ValveSpring& spring, const ShimAim& aim, const ShimStock& stock = {}) {
    const auto choice = choose_shims(spring, aim, stock, full_lift_mm);
    EXPECT_TRUE(choice.ok());
    return *choice;
}

// Arithmetic: a .015 in shim shortens the spring by 0.381 mm and adds 19.05 N.
TEST(SpringShims, BringTheSeatLoadIntoItsBandWithTheFewestShims) {
    const ShimChoice choice = chosen(spring_of(), load_aim(430.0, 446.0)); // .030 in: 438.1 N
    EXPECT_EQ(choice.status, ShimStatus::in_band);
    EXPECT_EQ(choice.shims_mm, std::vector<double>{0.762}); // not two of .015
    EXPECT_NEAR(choice.stack_mm, 0.762, 1e-12);
    EXPECT_NEAR(choice.installed_height_mm, 45.238, 1e-9);
    EXPECT_NEAR(choice.seat_load_N, 438.1, 1e-9);
    EXPECT_TRUE(choice.bind_checked);
    EXPECT_NEAR(*choice.open.to_bind_mm, 4.0 - 0.762, 1e-9);
    // A shim under the spring leaves valve and retainer where they are.
    EXPECT_NEAR(*choice.open.retainer_to_seal_mm, 15.0 - full_lift_mm, 1e-12);
}

TEST(SpringShims, ASpringThatIsRightGetsNone) {
    const ShimChoice choice = chosen(spring_of(), load_aim(395.0, 405.0));
    EXPECT_EQ(choice.status, ShimStatus::in_band);
    EXPECT_TRUE(choice.shims_mm.empty());
    EXPECT_NEAR(choice.seat_load_N, 400.0, 1e-9);
}

TEST(SpringShims, InstalledHeightCanBeTheAim) {
    const ShimChoice choice = chosen(spring_of(46.8), height_aim(45.6, 45.7)); // -.045 in: 45.657
    EXPECT_EQ(choice.status, ShimStatus::in_band);
    EXPECT_EQ(choice.shims_mm, (std::vector<double>{0.762, 0.381}));
    EXPECT_NEAR(choice.installed_height_mm, 46.8 - thou(45.0), 1e-9);
}

TEST(SpringShims, AStackMayReachItsGreatestHeightAndNoMore) {
    // All that .060 in can do is 476.2 N.
    const ShimChoice choice = chosen(spring_of(), load_aim(500.0, 520.0));
    EXPECT_EQ(choice.status, ShimStatus::not_in_band);
    EXPECT_NEAR(choice.stack_mm, thou(60.0), 1e-12);
    EXPECT_EQ(choice.shims_mm.size(), 1u);
    ShimStock stock;
    stock.thicknesses_mm = {thou(15.0)};
    EXPECT_EQ(chosen(spring_of(), load_aim(470.0, 480.0), stock).shims_mm.size(), 4u);
    stock.most_in_a_stack = 3;
    EXPECT_EQ(chosen(spring_of(), load_aim(470.0, 480.0), stock).shims_mm.size(), 3u);
}

TEST(SpringShims, InTheBandComesBeforeNearTheTarget) {
    // The target stands at the band's edge: bare, 400 N, is nearer to it than .015 in, 419.05 N.
    ShimAim aim = load_aim(405.0, 450.0, 405.0);
    EXPECT_NEAR(chosen(spring_of(), aim).seat_load_N, 419.05, 1e-9);
    aim.target = 450.0;
    EXPECT_NEAR(chosen(spring_of(), aim).seat_load_N, 438.1, 1e-9);
}

TEST(SpringShims, BindAtFullLiftHoldsAStackBack) {
    ValveSpring spring = spring_of();
    spring.bind_height_mm = 30.9; // 2.1 mm left bare; .015 in leaves 1.719, .030 in 1.338 mm
    const ShimChoice held = chosen(spring, load_aim(430.0, 446.0));
    EXPECT_EQ(held.status, ShimStatus::held_by_bind);
    EXPECT_EQ(held.shims_mm, std::vector<double>{0.381});
    EXPECT_NEAR(*held.open.to_bind_mm, 1.719, 1e-9);
    EXPECT_EQ(chosen(spring, load_aim(600.0, 620.0)).status, ShimStatus::not_in_band);
    // A limit met exactly is met.
    spring.bind_height_mm = 33.0 - 0.762 - 1.524;
    EXPECT_EQ(chosen(spring, load_aim(430.0, 446.0)).status, ShimStatus::in_band);
    spring.bind_height_mm = 32.0;
    const ShimChoice none = chosen(spring, load_aim(430.0, 446.0));
    EXPECT_EQ(none.status, ShimStatus::binds_bare);
    EXPECT_TRUE(none.shims_mm.empty());
    EXPECT_NEAR(*none.open.to_bind_mm, 1.0, 1e-9);
    spring.bind_height_mm.reset();
    const ShimChoice unknown = chosen(spring, load_aim(430.0, 446.0));
    EXPECT_EQ(unknown.status, ShimStatus::in_band);
    EXPECT_FALSE(unknown.bind_checked);
    EXPECT_FALSE(unknown.open.to_bind_mm.has_value());
}

TEST(SpringShims, AnEmptyShelfOrARefusedStackLeavesTheSpringAsItIs) {
    ShimStock stock;
    stock.thicknesses_mm.clear();
    EXPECT_TRUE(chosen(spring_of(), load_aim(430.0, 446.0), stock).shims_mm.empty());
    stock = {};
    stock.most_in_a_stack = 0;
    EXPECT_EQ(chosen(spring_of(), load_aim(430.0, 446.0), stock).status, ShimStatus::not_in_band);
    stock = {};
    stock.greatest_stack_mm = 0.0;
    EXPECT_TRUE(chosen(spring_of(), load_aim(430.0, 446.0), stock).shims_mm.empty());
}

// Slow twin: counts of each of three thicknesses, none to four, in three nested loops.
TEST(SpringShims, NoOtherStackIsBetter) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int seen[4] = {};
    for (int round = 0; round < 2000; ++round) {
        ValveSpring spring = spring_of(45.0 + 3.0 * unit(random));
        spring.bind_height_mm = 28.0 + 4.0 * unit(random);
        const double low = 350.0 + 150.0 * unit(random);
        const ShimAim aim = load_aim(low, low + 25.0 * unit(random));
        ShimStock stock;
        stock.thicknesses_mm = {0.2 + unit(random), 0.2 + unit(random), 0.2 + unit(random)};
        stock.greatest_stack_mm = 0.5 + 2.0 * unit(random);
        double best = 1e9;
        bool any_in_band = false;
        bool any_fits = false;
        for (int a = 0; a <= 4; ++a) {
            for (int b = 0; a + b <= 4; ++b) {
                for (int c = 0; a + b + c <= 4; ++c) {
                    const auto& t = stock.thicknesses_mm;
                    const double stack = a * t[0] + b * t[1] + c * t[2];
                    const double height = spring.installed_height_mm - stack;
                    if (stack > stock.greatest_stack_mm ||
                        height - full_lift_mm - *spring.bind_height_mm < stock.least_to_bind_mm) {
                        continue;
                    }
                    any_fits = true;
                    const double load = 400.0 + 50.0 * (46.0 - height);
                    any_in_band = any_in_band || (load >= aim.low && load <= aim.high);
                    best = std::min(best, std::abs(load - (aim.low + aim.high) / 2.0));
                }
            }
        }
        const ShimChoice choice = chosen(spring, aim, stock);
        ++seen[static_cast<int>(choice.status)];
        EXPECT_EQ(choice.status != ShimStatus::binds_bare, any_fits);
        if (!any_fits) {
            continue;
        }
        EXPECT_EQ(choice.status == ShimStatus::in_band, any_in_band);
        // The target is the band's middle, so the nearest is in the band if any is. Two stacks no
        // more than 0.001 N apart are as good as each other.
        EXPECT_NEAR(std::abs(choice.seat_load_N - (aim.low + aim.high) / 2.0), best, 2e-3);
    }
    for (const int times : seen) {
        EXPECT_GT(times, 20);
    }
}

TEST(SpringShims, BadNumbersAreErrorsThatNameThem) {
    const double nan_value = std::numeric_limits<double>::quiet_NaN();
    const auto field = [](const Result<ShimChoice>& made) {
        return made.ok() ? std::string("good") : made.error().field;
    };
    const auto with_stock = [&](auto&& change) {
        ShimStock stock;
        change(stock);
        return field(choose_shims(spring_of(), load_aim(430.0, 446.0), stock, full_lift_mm));
    };
    EXPECT_EQ(with_stock([](auto&) {}), "good");
    EXPECT_EQ(with_stock([](auto& s) { s.thicknesses_mm = {0.0}; }), "thicknesses");
    EXPECT_EQ(with_stock([&](auto& s) { s.thicknesses_mm = {0.4, nan_value}; }), "thicknesses");
    EXPECT_EQ(with_stock([](auto& s) { s.thicknesses_mm.assign(13, 0.4); }), "thicknesses");
    EXPECT_EQ(with_stock([](auto& s) { s.greatest_stack_mm = 21.0; }), "greatest_stack");
    EXPECT_EQ(with_stock([](auto& s) { s.most_in_a_stack = 7; }), "most_in_a_stack");
    EXPECT_EQ(with_stock([](auto& s) { s.most_in_a_stack = -1; }), "most_in_a_stack");
    EXPECT_EQ(with_stock([](auto& s) { s.least_to_bind_mm = -0.1; }), "least_to_bind");
    const auto with_aim = [&](const ShimAim& aim) {
        return field(choose_shims(spring_of(), aim, {}, full_lift_mm));
    };
    EXPECT_EQ(with_aim(load_aim(-1.0, 10.0)), "aim/low");
    EXPECT_EQ(with_aim(load_aim(446.0, 430.0)), "aim/high");
    EXPECT_EQ(with_aim(load_aim(430.0, 446.0, 450.0)), "aim/target");
    EXPECT_EQ(with_aim(height_aim(0.0, 45.0)), "aim/low");
    ValveSpring bad = spring_of();
    bad.loads.clear();
    EXPECT_EQ(field(choose_shims(bad, load_aim(430.0, 446.0), {}, full_lift_mm)), "loads");
    EXPECT_EQ(field(choose_shims(spring_of(), load_aim(430.0, 446.0), {}, nan_value)),
              "full_valve_lift");
}

} // namespace
} // namespace rodway
