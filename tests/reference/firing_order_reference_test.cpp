// Which valves stand on the heel at top dead centre firing, as two workshop manuals list them for
// valve setting: an eight of order 18726543 and a six of order 153624 (read in public pages of such
// manuals). A lobe of 320 crank degrees reproduces both lists for centrelines between 110 and 160.
#include <gtest/gtest.h>

#include <set>

#include "core/barring/open_valves.h"

namespace rodway {
namespace {

constexpr double duration_crank_deg = 320.0;

/// An engine of which only order and lobes matter: no train of it closes.
Engine engine(const char* order_text, int cylinders, double centreline_crank_deg) {
    const auto order = FiringOrder::parse(order_text, cylinders);
    EXPECT_TRUE(order.ok());
    const auto lobe = Lobe::from_card(9.0, {{heel_mm, duration_crank_deg}, {1.27, 260.0}});
    EXPECT_TRUE(lobe.ok());
    const CamLobes lobes{*lobe, 14.2, 0.4, centreline_crank_deg};
    Engine made{.intake = lobes, .exhaust = lobes};
    for (int number = 1; number <= cylinders; ++number) {
        made.layout.cylinders.push_back({number, 0, 0.0});
        made.layout.firing_angles.push_back(order->firing_angle(number));
        for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
            Train train;
            train.position = {number, kind, 1};
            made.trains.push_back(train);
        }
    }
    return made;
}

std::set<int> on_heel(const Engine& engine, double crank_deg, ValveKind kind) {
    std::set<int> cylinders;
    for (const ValveStanding& valve : valves_at(engine, CrankAngle::deg(crank_deg))) {
        if (valve.position.kind == kind && valve.on_heel) {
            cylinders.insert(valve.position.cylinder);
        }
    }
    return cylinders;
}

using Set = std::set<int>;

TEST(FiringOrderReference, ValvesToSetOnAnEight) {
    for (const double centreline : {112.0, 120.0}) {
        const Engine eight = engine("18726543", 8, centreline);
        EXPECT_EQ(on_heel(eight, 0.0, ValveKind::exhaust), (Set{1, 2, 7, 8}));
        EXPECT_EQ(on_heel(eight, 0.0, ValveKind::intake), (Set{1, 3, 4, 5}));
        EXPECT_EQ(on_heel(eight, 360.0, ValveKind::exhaust), (Set{3, 4, 5, 6}));
        EXPECT_EQ(on_heel(eight, 360.0, ValveKind::intake), (Set{2, 6, 7, 8}));
    }
    // The list has no room to spare: at 108 the intake of 8 and the exhaust of 3, 162 degrees from
    // full lift, would stand on the heel too.
    const Engine narrow = engine("18726543", 8, 108.0);
    EXPECT_EQ(on_heel(narrow, 0.0, ValveKind::intake), (Set{1, 3, 4, 5, 8}));
    EXPECT_EQ(on_heel(narrow, 0.0, ValveKind::exhaust), (Set{1, 2, 3, 7, 8}));
}

TEST(FiringOrderReference, ValvesToSetOnASix) {
    for (const double centreline : {108.0, 112.0}) {
        const Engine six = engine("153624", 6, centreline);
        EXPECT_EQ(on_heel(six, 0.0, ValveKind::intake), (Set{1, 2, 4}));
        EXPECT_EQ(on_heel(six, 0.0, ValveKind::exhaust), (Set{1, 3, 5}));
        EXPECT_EQ(on_heel(six, 360.0, ValveKind::intake), (Set{3, 5, 6}));
        EXPECT_EQ(on_heel(six, 360.0, ValveKind::exhaust), (Set{2, 4, 6}));
    }
}

} // namespace
} // namespace rodway
