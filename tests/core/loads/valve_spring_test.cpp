#include "core/loads/valve_spring.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iostream>
#include <limits>
#include <random>

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20260512;
const double nan_mm = std::numeric_limits<double>::quiet_NaN();

// Made-up figures; the expected numbers below are arithmetic on them.
ValveSpring progressive() {
    ValveSpring spring;
    spring.installed_height_mm = 44.0;
    spring.loads = {{46.0, 400.0}, {40.0, 640.0}, {32.0, 1120.0}}; // 40, then 60 N/mm
    spring.bind_height_mm = 27.0;
    spring.retainer_to_seal_mm = 14.0;
    return spring;
}

void expect_error(const Result<Done>& checked, ErrorCode code, const std::string& field,
                  std::optional<int> line = {}) {
    ASSERT_FALSE(checked.ok()) << field;
    EXPECT_EQ(checked.error().code, code) << field;
    EXPECT_EQ(checked.error().field, field);
    EXPECT_EQ(checked.error().line, line) << field;
}

// Rounding only.
TEST(ValveSpring, LoadsRunStraightBetweenAndOnBeyondTheEndsButNeverPull) {
    const ValveSpring spring = progressive();
    EXPECT_DOUBLE_EQ(spring.seat_load_N(), 480.0);
    EXPECT_DOUBLE_EQ(spring.load_N(46.0), 400.0);
    EXPECT_DOUBLE_EQ(spring.load_N(40.0), 640.0);
    EXPECT_DOUBLE_EQ(spring.load_N(36.0), 880.0);
    EXPECT_DOUBLE_EQ(spring.load_N(32.0), 1120.0);
    EXPECT_DOUBLE_EQ(spring.load_N(30.0), 1240.0); // below: 60 N/mm goes on
    EXPECT_DOUBLE_EQ(spring.load_N(50.0), 240.0);  // above: 40 N/mm goes on
    EXPECT_DOUBLE_EQ(spring.load_N(56.0), 0.0);
    EXPECT_DOUBLE_EQ(spring.load_N(60.0), 0.0);
    EXPECT_DOUBLE_EQ(spring.free_height_mm(), 56.0);
}

TEST(ValveSpring, RateIsWhatTheNextBitOfLiftAdds) {
    const ValveSpring spring = progressive();
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(46.0), 40.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(40.5), 40.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(40.0), 60.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(32.0), 60.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(28.0), 60.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(52.0), 40.0);
    EXPECT_DOUBLE_EQ(spring.rate_N_per_mm(57.0), 0.0);
}

TEST(ValveSpring, AtFullLiftItTellsWhatIsLeft) {
    const SpringAtFullLift open = at_full_lift(progressive(), 13.0);
    EXPECT_DOUBLE_EQ(open.height_mm, 31.0);
    EXPECT_DOUBLE_EQ(open.load_N, 1180.0);
    EXPECT_DOUBLE_EQ(open.rate_N_per_mm, 60.0);
    EXPECT_DOUBLE_EQ(*open.to_bind_mm, 4.0);
    EXPECT_DOUBLE_EQ(*open.retainer_to_seal_mm, 1.0);
    const SpringAtFullLift too_far = at_full_lift(progressive(), 18.0);
    EXPECT_DOUBLE_EQ(*too_far.to_bind_mm, -1.0);
    EXPECT_DOUBLE_EQ(*too_far.retainer_to_seal_mm, -4.0);
    ValveSpring unknown = progressive();
    unknown.bind_height_mm.reset();
    unknown.retainer_to_seal_mm.reset();
    EXPECT_FALSE(at_full_lift(unknown, 13.0).to_bind_mm.has_value());
    EXPECT_FALSE(at_full_lift(unknown, 13.0).retainer_to_seal_mm.has_value());
}

TEST(ValveSpring, CheckNamesWhatIsWrong) {
    EXPECT_TRUE(check_spring(progressive()).ok());
    const auto with = [](auto&& change) {
        ValveSpring spring = progressive();
        change(spring);
        return check_spring(spring);
    };
    using E = ErrorCode;
    expect_error(with([](auto& s) { s.loads.resize(1); }), E::too_few_rows, "loads");
    expect_error(with([](auto& s) { s.loads.clear(); }), E::too_few_rows, "loads");
    expect_error(with([](auto& s) { s.loads[1].height_mm = 46.0; }), E::order_wrong, "loads", 2);
    expect_error(with([](auto& s) { s.loads[2].load_N = 640.0; }), E::order_wrong, "loads", 3);
    expect_error(with([](auto& s) { s.loads[0].load_N = -1.0; }), E::out_of_range, "loads", 1);
    expect_error(with([](auto& s) { s.loads[1].load_N = nan_mm; }), E::not_a_number, "loads", 2);
    expect_error(with([](auto& s) { s.installed_height_mm = 0.0; }), E::out_of_range,
                 "installed_height");
    expect_error(with([](auto& s) { s.installed_height_mm = nan_mm; }), E::not_a_number,
                 "installed_height");
    expect_error(with([](auto& s) { s.bind_height_mm = 32.5; }), E::out_of_range, "bind_height");
    EXPECT_TRUE(with([](auto& s) { s.bind_height_mm = 32.0; }).ok());
    expect_error(with([](auto& s) {
                     s.loads = {{60.0, 1.0}, {50.0, 2.0}};
                     s.bind_height_mm = 45.0;
                 }),
                 E::out_of_range, "bind_height");
    expect_error(with([](auto& s) { s.retainer_to_seal_mm = -0.1; }), E::out_of_range,
                 "retainer_to_seal");
    expect_error(with([](auto& s) { s.wire = SpringWire{}; }), E::out_of_range, "wire/wire");
}

TEST(ValveSpring, CheckOfAWireNamesEveryField) {
    const SpringWire good{5.0, 30.0, 4.5, 6.5, 77200.0, 7.85e-9};
    EXPECT_TRUE(check_wire(good).ok());
    const auto with = [&](auto&& change) {
        SpringWire wire = good;
        change(wire);
        return check_wire(wire);
    };
    using E = ErrorCode;
    expect_error(with([](auto& w) { w.wire_mm = 0.4; }), E::out_of_range, "wire");
    expect_error(with([](auto& w) { w.wire_mm = nan_mm; }), E::not_a_number, "wire");
    expect_error(with([](auto& w) { w.mean_diameter_mm = 9.9; }), E::out_of_range, "mean_diameter");
    expect_error(with([](auto& w) { w.active_coils = 0.0; }), E::out_of_range, "active_coils");
    expect_error(with([](auto& w) { w.total_coils = 4.0; }), E::out_of_range, "total_coils");
    expect_error(with([](auto& w) { w.shear_modulus_MPa = 77.2; }), E::out_of_range,
                 "shear_modulus");
    expect_error(with([](auto& w) { w.density_t_per_mm3 = 7850.0; }), E::out_of_range, "density");
}

// Rounding only: the line's second point is 1 mm down.
TEST(ValveSpring, FromRateFromTwoLoadsAndFromWireAreOneSpring) {
    const SpringWire wire{5.0, 30.0, 4.5, 6.5, 77200.0, 7.85e-9};
    const auto of_wire = spring_from_wire(wire, SpringEnds::ground, 55.0, 45.0);
    ASSERT_TRUE(of_wire.ok());
    EXPECT_DOUBLE_EQ(*of_wire->bind_height_mm, 32.5);
    EXPECT_DOUBLE_EQ(*spring_from_wire(wire, SpringEnds::unground, 55.0, 45.0)->bind_height_mm,
                     37.5);
    const double seat_N = of_wire->seat_load_N();
    EXPECT_NEAR(seat_N, 10.0 * spring_rate(wire), 1e-9);
    const auto of_rate = spring_from_rate(45.0, seat_N, spring_rate(wire));
    const auto of_loads = spring_from_two_loads({45.0, seat_N}, {33.0, of_wire->load_N(33.0)});
    ASSERT_TRUE(of_rate.ok() && of_loads.ok());
    EXPECT_TRUE(check_spring(*of_rate).ok());
    for (const double height : {60.0, 55.0, 50.0, 45.0, 44.5, 40.0, 33.0, 32.5}) {
        EXPECT_NEAR(of_rate->load_N(height), of_wire->load_N(height), 1e-8) << height;
        EXPECT_NEAR(of_loads->load_N(height), of_wire->load_N(height), 1e-8) << height;
    }
    EXPECT_EQ(of_rate->installed_height_mm, 45.0);
    EXPECT_FALSE(of_rate->bind_height_mm.has_value());
    EXPECT_DOUBLE_EQ(*of_wire->surge_Hz(), surge_frequency(spring_rate(wire), active_mass(wire)));
    EXPECT_FALSE(of_rate->surge_Hz().has_value());
}

TEST(ValveSpring, FromBadNumbersIsAnErrorThatNamesThem) {
    const SpringWire wire{5.0, 30.0, 4.5, 6.5, 77200.0, 7.85e-9};
    const auto field = [](const Result<ValveSpring>& made) {
        return made.ok() ? std::string("good") : made.error().field;
    };
    EXPECT_EQ(field(spring_from_rate(45.0, 400.0, 0.0)), "rate");
    EXPECT_EQ(field(spring_from_rate(45.0, 400.0, nan_mm)), "rate");
    EXPECT_EQ(field(spring_from_rate(45.0, -1.0, 50.0)), "seat_load");
    EXPECT_EQ(field(spring_from_rate(nan_mm, 400.0, 50.0)), "installed_height");
    EXPECT_EQ(field(spring_from_two_loads({45.0, 400.0}, {45.0, 900.0})), "loads");
    EXPECT_EQ(field(spring_from_two_loads({45.0, 900.0}, {35.0, 400.0})), "loads");
    EXPECT_EQ(field(spring_from_wire(SpringWire{}, SpringEnds::ground, 55.0, 45.0)), "wire");
    EXPECT_EQ(field(spring_from_wire(wire, SpringEnds::ground, 32.0, 45.0)), "free_height");
    EXPECT_EQ(field(spring_from_wire(wire, SpringEnds::ground, nan_mm, 45.0)), "free_height");
    EXPECT_EQ(field(spring_from_wire(wire, SpringEnds::ground, 55.0, 56.0)), "installed_height");
    EXPECT_EQ(field(spring_from_wire(wire, SpringEnds::unground, 55.0, 37.0)), "installed_height");
}

ValveSpring random_spring(std::mt19937_64& random) {
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    ValveSpring spring;
    spring.installed_height_mm = 40.0 + 10.0 * unit(random);
    double height = spring.installed_height_mm + 6.0 * (unit(random) - 0.5);
    double load = 50.0 + 500.0 * unit(random);
    const int count = 2 + static_cast<int>(4.0 * unit(random));
    for (int at = 0; at < count; ++at) {
        spring.loads.push_back({height, load});
        const double down = 0.5 + 4.0 * unit(random);
        height -= down;
        load += down * (10.0 + 60.0 * unit(random));
    }
    if (unit(random) < 0.7) {
        spring.bind_height_mm = spring.loads.back().height_mm - 3.0 * unit(random);
        spring.installed_height_mm =
            std::max(spring.installed_height_mm, *spring.bind_height_mm + 1.0);
    }
    return spring;
}

// Slow twin: both springs asked by themselves at every height. Tolerance: rounding of some 5000 N,
// and places closer than 1e-7 mm taken as one, 1e-5 N.
TEST(ValveSpring, ANestCarriesWhatItsSpringsCarryTogetherAtEveryHeight) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int binding = 0;
    for (int round = 0; round < 500; ++round) {
        const ValveSpring outer = random_spring(random);
        ValveSpring inner = random_spring(random);
        const double step = 6.0 * unit(random) - 1.0;
        inner.installed_height_mm = 1000.0; // not used: the step gives it
        const auto nest = nested(outer, inner, step);
        inner.installed_height_mm = outer.installed_height_mm - step;
        if (!nest) {
            // Random bind heights may stand above the installed height: nothing else is wrong here.
            EXPECT_NE(nest.error().field.find("bind_height"), std::string::npos)
                << nest.error().field;
            continue;
        }
        EXPECT_TRUE(check_spring(*nest).ok());
        const double lowest = nest->bind_height_mm.value_or(20.0);
        for (int look = 0; look <= 400; ++look) {
            const double height = lowest + (80.0 - lowest) * look / 400.0;
            EXPECT_NEAR(nest->load_N(height), outer.load_N(height) + inner.load_N(height - step),
                        2e-5)
                << round << ' ' << height;
        }
        EXPECT_EQ(nest->installed_height_mm, outer.installed_height_mm);
        EXPECT_EQ(nest->bind_height_mm.has_value(),
                  outer.bind_height_mm.has_value() && inner.bind_height_mm.has_value());
        if (nest->bind_height_mm) {
            ++binding;
            EXPECT_EQ(*nest->bind_height_mm,
                      std::max(*outer.bind_height_mm, *inner.bind_height_mm + step));
        }
    }
    EXPECT_GT(binding, 100);
}

TEST(ValveSpring, ANestWithAStepHasTheInnersLoadAtItsOwnShorterHeight) {
    const auto outer = spring_from_two_loads({45.0, 400.0}, {35.0, 800.0}); // 40 N/mm
    const auto inner = spring_from_two_loads({41.0, 150.0}, {31.0, 350.0}); // 20 N/mm
    const auto nest = nested(*outer, *inner, 4.0);
    ASSERT_TRUE(nest.ok());
    EXPECT_NEAR(nest->seat_load_N(), 550.0, 1e-9);
    EXPECT_NEAR(nest->load_N(35.0), 1150.0, 1e-9);
    EXPECT_NEAR(nest->rate_N_per_mm(40.0), 60.0, 1e-9);
    EXPECT_NEAR(nested(*outer, *inner, 0.0)->seat_load_N(), 400.0 + 70.0, 1e-9);
    ValveSpring tall_seal = *outer;
    tall_seal.retainer_to_seal_mm = 13.0;
    ValveSpring inner_seal = *inner;
    inner_seal.retainer_to_seal_mm = 12.0;
    EXPECT_FALSE(nest->retainer_to_seal_mm.has_value());
    EXPECT_EQ(*nested(tall_seal, *inner, 4.0)->retainer_to_seal_mm, 13.0);
    EXPECT_EQ(*nested(*outer, inner_seal, 4.0)->retainer_to_seal_mm, 12.0);
    EXPECT_EQ(*nested(tall_seal, inner_seal, 4.0)->retainer_to_seal_mm, 12.0);
}

TEST(ValveSpring, ANestSaysWhichSpringIsWrong) {
    const ValveSpring good = progressive();
    ValveSpring bad = good;
    bad.loads.resize(1);
    EXPECT_EQ(nested(bad, good, 2.0).error().field, "outer/loads");
    EXPECT_EQ(nested(good, bad, 2.0).error().field, "inner/loads");
    EXPECT_EQ(nested(good, good, 25.0).error().field, "seat_step");
    EXPECT_EQ(nested(good, good, nan_mm).error().code, ErrorCode::not_a_number);
    // The inner would stand at 27 mm less a little: bound with the valve shut.
    EXPECT_EQ(nested(good, good, 17.5).error().field, "inner/bind_height");
}

} // namespace
} // namespace rodway
