// Which valves may be set at top dead centre firing of cylinder 1, and a turn later, as two
// workshop pages list them: an eight of order 18726543 (Escalade 2002 5.3, myvehicle.help: E
// 1,2,7,8 and I 1,3,4,5; a turn later E 3,4,5,6 and I 2,6,7,8) and a six of order 153624
// (dodge-forum.eu, 44553: I 1-2-4 and E 1-3-5; then I 3-5-6 and E 2-4-6).
//
// The pages name neither lobe nor margin. A lobe off its heel for D crank degrees, at a centreline
// of C after (intake) or before (exhaust) overlap, rests at an angle with margin m if full lift is
// at least D/2 + m away. By arithmetic of the firing angles, the nearest of the eight's listed
// valves is 90 + C from full lift and the nearest of those not listed 270 - C; of the six's, 120 +
// C and 240 - C. So the lists come out for 270 - C - D/2 < m ≤ 90 + C - D/2 (eight) and 240 - C -
// D/2 < m ≤ 120 + C - D/2 (six): with D = 320, margins of 0 to 42 at 112 and of 0 to 50 at 120 for
// the eight, of 0 to 68 at 108 and of 0 to 72 at 112 for the six.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/barring/lash_stops.h"
#include "tests/core/barring/plain_engine.h"

namespace rodway {
namespace {

using Set = std::set<int>;

struct Lists {
    const char* order;
    int cylinders;
    Set intake, exhaust;             ///< at cylinder 1's firing top dead centre
    Set intake_later, exhaust_later; ///< 360 on
    double listed_deg;               ///< + C: the listed valve nearest to full lift
    double others_deg;               ///< - C: the nearest of the others
};

const Lists eight{"18726543",   8,    {1, 3, 4, 5}, {1, 2, 7, 8}, {2, 6, 7, 8},
                  {3, 4, 5, 6}, 90.0, 270.0};
const Lists six{"153624", 6, {1, 2, 4}, {1, 3, 5}, {3, 5, 6}, {2, 4, 6}, 120.0, 240.0};

Set of_kind(const std::vector<ValvePosition>& valves, ValveKind kind) {
    Set cylinders;
    for (const ValvePosition& valve : valves) {
        if (valve.kind == kind) {
            cylinders.insert(valve.cylinder);
        }
    }
    return cylinders;
}

std::vector<ValvePosition> settable(const Engine& engine, double crank_deg, double margin_deg) {
    const auto standings = lash_standing(engine, CrankAngle::deg(crank_deg), margin_deg);
    EXPECT_TRUE(standings.ok());
    std::vector<ValvePosition> valves;
    for (const LashStanding& standing : *standings) {
        if (standing.now) {
            valves.push_back(standing.valve);
        }
    }
    return valves;
}

bool comes_out(const Lists& lists, const Engine& engine, double margin_deg) {
    const auto first = settable(engine, 0.0, margin_deg);
    const auto later = settable(engine, 360.0, margin_deg);
    return of_kind(first, ValveKind::intake) == lists.intake &&
           of_kind(first, ValveKind::exhaust) == lists.exhaust &&
           of_kind(later, ValveKind::intake) == lists.intake_later &&
           of_kind(later, ValveKind::exhaust) == lists.exhaust_later;
}

/// The lists come out at the margin usual here, and over the whole range of margins that the
/// arithmetic above gives, and not beyond it.
void expect_lists(const Lists& lists, double centreline_crank_deg, double most_margin_deg) {
    SCOPED_TRACE(std::string(lists.order) + " at " + std::to_string(centreline_crank_deg));
    const Lobe lobe = smooth_lobe(320.0);
    const double duration = off_heel_deg(lobe);
    EXPECT_NEAR(duration, 320.0, 0.5); // smoothing of the table's foot
    const Engine engine = plain_engine(lists.order, lists.cylinders, lobe, centreline_crank_deg);
    EXPECT_TRUE(comes_out(lists, engine, usual_heel_margin_deg));

    const double most = lists.listed_deg + centreline_crank_deg - duration / 2.0;
    const double least = std::max(0.0, lists.others_deg - centreline_crank_deg - duration / 2.0);
    EXPECT_NEAR(most, most_margin_deg, 0.25); // half of what the duration is off
    // An asymmetric rounding of the lobe's two feet: some hundredths of a degree.
    constexpr double tolerance_deg = 0.1;
    EXPECT_TRUE(comes_out(lists, engine, most - tolerance_deg));
    EXPECT_FALSE(comes_out(lists, engine, most + tolerance_deg));
    EXPECT_TRUE(comes_out(lists, engine, least + tolerance_deg));
    if (least > tolerance_deg) {
        EXPECT_FALSE(comes_out(lists, engine, least - tolerance_deg));
    }
    // And these two stops are as few as can be, and the ones that are chosen.
    const auto answer = fewest_lash_stops(engine, CrankAngle{});
    ASSERT_TRUE(answer.ok());
    ASSERT_EQ(answer->stops.size(), 2u);
    EXPECT_EQ(answer->stops[0].firing_tdc_of, 1);
    EXPECT_NEAR(answer->stops[1].turn_deg, 360.0, 1e-9);
    EXPECT_EQ(of_kind(answer->stops[0].may_set, ValveKind::intake), lists.intake);
    EXPECT_EQ(of_kind(answer->stops[0].may_set, ValveKind::exhaust), lists.exhaust);
    EXPECT_EQ(of_kind(answer->stops[1].set, ValveKind::intake), lists.intake_later);
    EXPECT_EQ(of_kind(answer->stops[1].set, ValveKind::exhaust), lists.exhaust_later);
}

TEST(BarringReference, ValvesToSetOnAnEight) {
    expect_lists(eight, 112.0, 42.0);
    expect_lists(eight, 120.0, 50.0);
    // At 108 it takes a margin above 2: the intake of 8 and the exhaust of 3 only just rest.
    expect_lists(eight, 108.0, 38.0);
}

TEST(BarringReference, ValvesToSetOnASix) {
    expect_lists(six, 108.0, 68.0);
    expect_lists(six, 112.0, 72.0);
}

} // namespace
} // namespace rodway
