#include "core/cam/degreeing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

namespace rodway {
namespace {

using testing::ElementsAre;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : random_(seed) { std::cout << "seed " << seed << '\n'; }
    double between(double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random_);
    }
    int among(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }
    /// The same mark of a wheel, written another way.
    double written(double mark_deg) {
        return std::remainder(mark_deg, 360.0) + 360.0 * (among(2) == 0 ? 0 : 1);
    }

  private:
    std::mt19937_64 random_;
};

TEST(PositiveStop, TopDeadCentreIsHalfwayWhereverTheWheelWrapsAndWhicheverWayCameFirst) {
    Dice dice(7);
    for (int time = 0; time < 2000; ++time) {
        const double mark = dice.between(-180.0, 180.0);
        const double stop = dice.between(nearest_stop_deg + 1e-9, furthest_stop_deg - 1e-9);
        const double one = dice.written(mark - stop);
        const double other = dice.written(mark + stop);
        for (const auto& found :
             {true_top_dead_centre(one, other), true_top_dead_centre(other, one)}) {
            ASSERT_TRUE(found.ok()) << one << ' ' << other;
            // Rounding of angles of a few hundred degrees.
            EXPECT_NEAR(std::remainder(found->mark_deg - mark, 360.0), 0.0, 1e-9);
            EXPECT_NEAR(found->stop_deg, stop, 1e-9);
            EXPECT_NEAR(std::abs(found->true_deg(one)), stop, 1e-9);
            EXPECT_NEAR(found->true_deg(one), -found->true_deg(other), 1e-9);
            EXPECT_TRUE(found->mark_deg > -180.0 && found->mark_deg <= 180.0);
        }
    }
}

TEST(PositiveStop, MarksEitherSideOfTheWheelsEndMeetThere) {
    const auto found = true_top_dead_centre(338.0, 19.5); // 22 before, 19.5 after
    ASSERT_TRUE(found.ok());
    EXPECT_EQ(found->mark_deg, -1.25);
    EXPECT_EQ(found->true_deg(338.0), -20.75);
    EXPECT_EQ(found->true_deg(-22.0), -20.75);
    EXPECT_EQ(found->true_deg(19.5), 20.75);
    const auto half_round = true_top_dead_centre(150.0, 200.0); // wheel put on any way
    EXPECT_EQ(half_round->mark_deg, 175.0);
    EXPECT_EQ(half_round->true_deg(200.0), 25.0);
}

TEST(PositiveStop, RefusesMarksThatTellNothing) {
    for (const auto& [one, other, field] :
         {std::tuple{10.0, 10.0, "stop_distance"}, std::tuple{10.0, 14.0, "stop_distance"},
          std::tuple{0.0, 180.0, "stop_distance"}, std::tuple{-88.0, 88.0, "stop_distance"},
          std::tuple{nan, 20.0, "stop_mark"}, std::tuple{20.0, infinity, "stop_mark"},
          std::tuple{-361.0, 20.0, "stop_mark"}, std::tuple{20.0, 721.0, "stop_mark"}}) {
        const auto refused = true_top_dead_centre(one, other);
        ASSERT_FALSE(refused.ok()) << one << ' ' << other;
        EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
        EXPECT_EQ(refused.error().field, field);
    }
}

TEST(FoundCentreline, RandomCamsComeBackThroughAWheelThatIsOff) {
    Dice dice(8);
    for (int time = 0; time < 2000; ++time) {
        const auto tdc = true_top_dead_centre(dice.between(-25.0, -20.0), dice.between(20.0, 25.0));
        ASSERT_TRUE(tdc.ok());
        const ValveKind kind = dice.among(2) == 0 ? ValveKind::intake : ValveKind::exhaust;
        const double centreline = dice.between(90.0, 125.0);
        const double middle = kind == ValveKind::intake ? centreline : -centreline;
        for (const CentrelineMethod method :
             {CentrelineMethod::off_the_heel, CentrelineMethod::below_the_peak}) {
            const double half = method == CentrelineMethod::off_the_heel ? dice.between(80.0, 160.0)
                                                                         : dice.between(10.0, 60.0);
            const double wheel = middle + tdc->mark_deg; // the wheel shows too much by its error
            const auto found = found_centreline(
                {kind, method, dice.written(wheel - half), dice.written(wheel + half)}, *tdc);
            ASSERT_TRUE(found.ok());
            EXPECT_EQ(found->kind, kind);
            EXPECT_EQ(found->method, method);
            EXPECT_NEAR(found->centreline_crank_deg, centreline, 1e-9); // rounding
            EXPECT_NEAR(found->between_marks_crank_deg, 2.0 * half, 1e-9);
            ASSERT_EQ(found->events.has_value(), method == CentrelineMethod::off_the_heel);
            if (found->events) {
                EXPECT_NEAR(found->events->duration_crank_deg(), 2.0 * half, 1e-9);
                EXPECT_NEAR(centreline_crank_deg(kind, *found->events), centreline, 1e-9);
            }
        }
    }
}

// Worked by hand: the wheel shows 1.25 too little. Intake marks 24 BTDC and 41 ABDC (221) are truly
// 22.75 BTDC and 42.25 ABDC: centreline (180 + 42.25 - 22.75) / 2 = 99.75.
TEST(FoundCentreline, TakesTheWheelsErrorOffBothMarks) {
    const auto tdc = true_top_dead_centre(-22.0, 19.5);
    const auto intake =
        found_centreline({ValveKind::intake, CentrelineMethod::off_the_heel, -24.0, 221.0}, *tdc);
    ASSERT_TRUE(intake.ok());
    EXPECT_NEAR(intake->events->opens_crank_deg, 22.75, 1e-12);
    EXPECT_NEAR(intake->events->closes_crank_deg, 42.25, 1e-12);
    EXPECT_NEAR(intake->centreline_crank_deg, 99.75, 1e-12);
    // Exhaust: 61 BBDC (119 after, by the wheel) and 20 ATDC: truly 59.75 BBDC and 21.25 ATDC.
    const auto exhaust =
        found_centreline({ValveKind::exhaust, CentrelineMethod::off_the_heel, 119.0, 20.0}, *tdc);
    ASSERT_TRUE(exhaust.ok());
    EXPECT_NEAR(exhaust->events->opens_crank_deg, 59.75, 1e-12);
    EXPECT_NEAR(exhaust->events->closes_crank_deg, 21.25, 1e-12);
    EXPECT_NEAR(exhaust->centreline_crank_deg, 109.25, 1e-12); // (180 + 59.75 - 21.25) / 2
}

TEST(FoundCentreline, RefusesSwappedMarksAndWhatIsNoMark) {
    const TrueTopDeadCentre tdc{0.0, 20.0};
    for (const auto& [kind, opening, closing, field] :
         {std::tuple{ValveKind::intake, 240.0, -20.0, "centreline"}, // closing first
          std::tuple{ValveKind::exhaust, 20.0, -240.0, "centreline"},
          std::tuple{ValveKind::intake, 120.0, 20.0, "centreline"}, // an exhaust's
          std::tuple{ValveKind::intake, nan, 20.0, "opening_mark"},
          std::tuple{ValveKind::intake, 20.0, -infinity, "closing_mark"}}) {
        const auto refused =
            found_centreline({kind, CentrelineMethod::off_the_heel, opening, closing}, tdc);
        ASSERT_FALSE(refused.ok()) << opening << ' ' << closing;
        EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
        EXPECT_EQ(refused.error().field, field);
    }
    EXPECT_FALSE(found_centreline({ValveKind::intake, CentrelineMethod::off_the_heel, -20.0, 240.0},
                                  {nan, 20.0})
                     .ok());
}

TEST(CamStanding, SaysWhichWayAndHowFarToTurn) {
    FoundCentreline found;
    found.centreline_crank_deg = 104.0; // intake: 4 earlier than 108
    const auto intake = cam_standing(found, 108.0);
    ASSERT_TRUE(intake.ok());
    EXPECT_EQ(intake->advanced_crank_deg, 4.0);
    EXPECT_EQ(intake->turn_crank_deg, -4.0);
    EXPECT_EQ(intake->turn_cam_deg, -2.0);
    found.kind = ValveKind::exhaust; // 104 before top dead centre: 4 later than 108
    const auto exhaust = cam_standing(found, 108.0);
    EXPECT_EQ(exhaust->advanced_crank_deg, -4.0);
    EXPECT_EQ(exhaust->turn_crank_deg, 4.0);
    EXPECT_EQ(exhaust->turn_cam_deg, 2.0);
    for (const double specified : {nan, infinity, 53.0 - 20.0, 212.0}) {
        EXPECT_FALSE(cam_standing(found, specified).ok());
    }
    found.centreline_crank_deg = nan;
    EXPECT_FALSE(cam_standing(found, 108.0).ok());
}

// An asymmetric lobe, its marks taken off the closed-form law of its flanks (cycloidal, rise 52 and
// fall 74 cam degrees; u is the share of a flank at 0.14 and at 0.86 of full lift), read by a wheel
// that is off by 3. Held against the figure of its own method the cam stands right; against the
// other's it would seem degrees off.
TEST(CamStanding, AnAsymmetricLobeIsHeldAgainstTheFigureOfItsOwnMethod) {
    const auto tdc = true_top_dead_centre(-17.0, 23.0);
    ASSERT_TRUE(tdc.ok());
    const double u_low = 0.2933;       // u - sin(2πu)/2π = 0.14, to four digits
    const double u_high = 1.0 - u_low; // by symmetry of the law
    const double full_lift_mark = 108.0 + 3.0;
    const auto found = [&](CentrelineMethod method, double u) {
        return *found_centreline(
            {ValveKind::intake, method, full_lift_mark - 2.0 * 52.0 * (1.0 - u),
             full_lift_mark + 2.0 * 74.0 * (1.0 - u)},
            *tdc);
    };
    const auto off_heel = found(CentrelineMethod::off_the_heel, u_low);
    const auto below_peak = found(CentrelineMethod::below_the_peak, u_high);
    const double specified_off_heel = 108.0 + (74.0 - 52.0) * (1.0 - u_low);
    const double specified_below_peak = 108.0 + (74.0 - 52.0) * u_low;
    EXPECT_NEAR(cam_standing(off_heel, specified_off_heel)->advanced_crank_deg, 0.0, 1e-9);
    EXPECT_NEAR(cam_standing(below_peak, specified_below_peak)->advanced_crank_deg, 0.0, 1e-9);
    EXPECT_LT(cam_standing(off_heel, specified_below_peak)->advanced_crank_deg, -8.0);
}

struct Read {
    int cylinder;
    ValveKind kind;
    double advanced;
};
constexpr ValveKind I = ValveKind::intake;
constexpr ValveKind E = ValveKind::exhaust;

std::vector<DegreedValve> degreed(const std::vector<Read>& reads) {
    std::vector<DegreedValve> valves;
    for (const Read& read : reads) {
        valves.push_back({{read.cylinder, read.kind, 1}, read.advanced});
    }
    return valves;
}

DegreeingFindings findings_of(const std::vector<Read>& reads,
                              double tolerance = usual_wheel_doubt_crank_deg) {
    const auto found = degreeing_findings(degreed(reads), tolerance);
    EXPECT_TRUE(found.ok());
    return *found;
}

TEST(DegreeingFindings, WithinToleranceEvenOnOneValve) {
    EXPECT_THAT(findings_of({{1, I, 0.6}}).findings,
                ElementsAre(DegreeingFinding::within_tolerance));
    EXPECT_THAT(findings_of({{1, I, 1.0}, {1, E, -1.0}, {4, I, -0.9}}).findings,
                ElementsAre(DegreeingFinding::within_tolerance));
    // Typed to a tenth, just at the tolerance: 0.1 + 0.2 is not 0.3 to a computer.
    EXPECT_THAT(findings_of({{1, I, 0.1 + 0.2}}, 0.3).findings,
                ElementsAre(DegreeingFinding::within_tolerance));
    EXPECT_THAT(findings_of({{1, I, 1.2}}).findings, ElementsAre(DegreeingFinding::cannot_tell));
}

TEST(DegreeingFindings, OneCylinderCannotTellAShiftFromItsOwnError) {
    EXPECT_THAT(findings_of({{1, I, 4.0}}).findings, ElementsAre(DegreeingFinding::cannot_tell));
    EXPECT_THAT(findings_of({{1, I, 4.0}, {1, E, 4.0}}).findings,
                ElementsAre(DegreeingFinding::cannot_tell));
    EXPECT_THAT(findings_of({{1, I, 4.0}, {1, E, 0.0}}).findings,
                ElementsAre(DegreeingFinding::cannot_tell));
    EXPECT_EQ(findings_of({{1, I, 4.0}, {1, E, 4.2}}).common_advanced_crank_deg, 4.1);
}

TEST(DegreeingFindings, AllAlikeIsACommonShift) {
    for (const double shift : {4.0, -4.0}) {
        const auto found = findings_of({{1, I, shift}, {1, E, shift + 0.5}, {4, I, shift - 0.5}});
        EXPECT_THAT(found.findings, ElementsAre(DegreeingFinding::common_shift));
        EXPECT_EQ(found.common_advanced_crank_deg, shift);
        EXPECT_EQ(found.spread_crank_deg, 1.0);
        for (const ValveDeparture& valve : found.valves) {
            EXPECT_FALSE(valve.off);
            EXPECT_EQ(valve.own_crank_deg, valve.advanced_crank_deg - shift);
        }
    }
}

TEST(DegreeingFindings, IntakesAgainstExhaustsIsTheCamItself) {
    // Intakes 2 late, exhausts 2 early: 110 and 110 where 108 and 108 were wanted.
    const auto wide = findings_of({{1, I, -2.0}, {1, E, 2.0}, {4, I, -2.3}, {4, E, 2.1}});
    EXPECT_THAT(wide.findings, ElementsAre(DegreeingFinding::lobe_separation_off));
    EXPECT_NEAR(*wide.lobe_separation_error_cam_deg, 2.1, 1e-12); // (2.05 + 2.15) / 2
    EXPECT_NEAR(wide.common_advanced_crank_deg, -0.05, 1e-12);
    // Intakes 4 early, exhausts right: separation 2 too little, and the whole cam 2 advanced.
    const auto narrow = findings_of({{1, I, 4.0}, {1, E, 0.0}, {4, I, 4.0}, {4, E, 0.0}});
    EXPECT_THAT(narrow.findings,
                ElementsAre(DegreeingFinding::common_shift, DegreeingFinding::lobe_separation_off));
    EXPECT_EQ(narrow.lobe_separation_error_cam_deg, -2.0);
    EXPECT_EQ(narrow.common_advanced_crank_deg, 2.0);
    EXPECT_FALSE(findings_of({{1, I, 4.0}, {4, I, 4.0}}).lobe_separation_error_cam_deg.has_value());
}

TEST(DegreeingFindings, OneValveApartDoesNotPullTheRest) {
    const auto found = findings_of({{1, I, 0.0}, {3, I, 3.5}, {5, I, 0.2}, {7, I, -0.2}});
    EXPECT_THAT(found.findings, ElementsAre(DegreeingFinding::single_valve_off));
    EXPECT_EQ(found.common_advanced_crank_deg, 0.1); // median of -0.2, 0, 0.2, 3.5
    EXPECT_FALSE(found.valves[0].off);
    EXPECT_TRUE(found.valves[1].off);
    EXPECT_EQ(found.valves[1].valve, (ValvePosition{3, I, 1}));
    EXPECT_NEAR(found.valves[1].own_crank_deg, 3.4, 1e-12);
    // A shift of the cam and a bore that is off, both at once.
    EXPECT_THAT(findings_of({{1, I, 4.0}, {3, I, 8.0}, {5, I, 4.2}, {7, I, 4.0}}).findings,
                ElementsAre(DegreeingFinding::common_shift, DegreeingFinding::single_valve_off));
}

TEST(DegreeingFindings, OneCylinderApartShowsInBothItsValves) {
    const auto found = findings_of(
        {{1, I, 0.0}, {1, E, 0.1}, {2, I, 3.0}, {2, E, 3.2}, {3, I, 0.2}, {3, E, -0.1}});
    EXPECT_THAT(found.findings, ElementsAre(DegreeingFinding::single_valve_off));
    for (const ValveDeparture& valve : found.valves) {
        EXPECT_EQ(valve.off, valve.valve.cylinder == 2);
    }
}

TEST(DegreeingFindings, SaysWhenTheseValvesDoNotTell) {
    EXPECT_THAT(findings_of({{1, I, 0.0}, {4, I, 4.0}}).findings,
                ElementsAre(DegreeingFinding::cannot_tell)); // which of the two?
    EXPECT_THAT(findings_of({{1, I, 0.0}, {2, I, 0.0}, {3, I, 4.0}, {4, I, 4.0}}).findings,
                ElementsAre(DegreeingFinding::cannot_tell));
    // The only exhaust: its own error, or the lobe separation? The shift stays that of the intakes.
    const auto lone = findings_of({{1, I, 0.0}, {2, I, 0.0}, {3, I, 0.0}, {3, E, 4.0}});
    EXPECT_THAT(lone.findings, ElementsAre(DegreeingFinding::cannot_tell));
    EXPECT_EQ(lone.common_advanced_crank_deg, 0.0);
    EXPECT_TRUE(lone.valves[3].off);
}

TEST(DegreeingFindings, ASpreadWithinTheDoubtOfTwoReadingsIsWithinTolerance) {
    // 2 apart: each within 1 of the middle, and the middle within 1 of what is wanted.
    EXPECT_THAT(findings_of({{1, I, 0.0}, {4, I, 1.9}}).findings,
                ElementsAre(DegreeingFinding::within_tolerance));
    EXPECT_THAT(findings_of({{1, I, 0.2}, {4, I, 2.1}}).findings,
                ElementsAre(DegreeingFinding::common_shift));
}

TEST(DegreeingFindings, TheToleranceCanBeChanged) {
    const std::vector<Read> reads{{1, I, 2.0}, {2, I, 2.0}, {3, I, 2.0}};
    EXPECT_THAT(findings_of(reads, 1.0).findings, ElementsAre(DegreeingFinding::common_shift));
    EXPECT_THAT(findings_of(reads, 2.0).findings, ElementsAre(DegreeingFinding::within_tolerance));
    EXPECT_EQ(findings_of(reads, 2.0).tolerance_crank_deg, 2.0);
}

// Random eights: a shift, a separation error and one bad valve, each there or not, with reading
// errors within ±0.4. Sizes well apart from the tolerance, so that the answer is certain.
TEST(DegreeingFindings, RandomEnginesAreSplitIntoWhatWasPutIn) {
    Dice dice(9);
    int seen[8] = {};
    for (int time = 0; time < 2000; ++time) {
        const int which = dice.among(8);
        ++seen[which];
        const auto sized = [&](bool there) {
            return there ? dice.between(2.0, 6.0) * (dice.among(2) == 0 ? 1.0 : -1.0) : 0.0;
        };
        const double shift = sized((which & 1) != 0);
        const double separation = sized((which & 2) != 0); // cam degrees too wide
        const double own = 2.0 * sized((which & 4) != 0);
        const int bad = dice.among(16);
        std::vector<Read> reads;
        for (int at = 0; at < 16; ++at) {
            const ValveKind kind = at % 2 == 0 ? I : E;
            const double advanced = shift + (kind == I ? -separation : separation) +
                                    (at == bad ? own : 0.0) + dice.between(-0.4, 0.4);
            reads.push_back({at / 2 + 1, kind, advanced});
        }
        const auto found = findings_of(reads);
        std::vector<DegreeingFinding> wanted;
        if ((which & 1) != 0) {
            wanted.push_back(DegreeingFinding::common_shift);
        }
        if ((which & 2) != 0) {
            wanted.push_back(DegreeingFinding::lobe_separation_off);
        }
        if ((which & 4) != 0) {
            wanted.push_back(DegreeingFinding::single_valve_off);
        }
        if (wanted.empty()) {
            wanted.push_back(DegreeingFinding::within_tolerance);
        }
        ASSERT_EQ(found.findings, wanted) << "time " << time;
        // A median of eight readings lies within their error.
        EXPECT_NEAR(found.common_advanced_crank_deg, shift, 0.4);
        EXPECT_NEAR(*found.lobe_separation_error_cam_deg, separation, 0.4);
        for (std::size_t at = 0; at < reads.size(); ++at) {
            EXPECT_EQ(found.valves[at].off, own != 0.0 && static_cast<int>(at) == bad);
        }
    }
    for (const int times : seen) {
        EXPECT_GT(times, 100);
    }
}

TEST(DegreeingFindings, RefusesWhatIsNotASetOfReadings) {
    const auto code = [](const std::vector<Read>& reads, double tolerance) {
        const auto refused = degreeing_findings(degreed(reads), tolerance);
        EXPECT_FALSE(refused.ok());
        return refused.error().code;
    };
    EXPECT_EQ(code({}, 1.0), ErrorCode::too_few_rows);
    EXPECT_EQ(code({{1, I, 0.0}, {1, I, 0.0}}, 1.0), ErrorCode::duplicate_field);
    EXPECT_EQ(code({{1, I, nan}}, 1.0), ErrorCode::out_of_range);
    EXPECT_EQ(code({{1, I, infinity}}, 1.0), ErrorCode::out_of_range);
    EXPECT_EQ(code({{1, I, 1.0}}, 0.0), ErrorCode::out_of_range);
    EXPECT_EQ(code({{1, I, 1.0}}, nan), ErrorCode::out_of_range);
}

} // namespace
} // namespace rodway
