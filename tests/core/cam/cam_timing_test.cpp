#include "core/cam/cam_timing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>

#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_timing.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

double inches(double value) {
    return Length::inches(value).in_mm();
}

/// Cycloidal rise and fall of different lengths, cam degrees about full lift.
struct Shape {
    double full_mm = 9.0;
    double rise_deg = 60.0;
    double fall_deg = 60.0;

    [[nodiscard]] double share(double u) const { // lift over full lift, u from heel to peak
        return u <= 0.0 ? 0.0 : u - std::sin(2.0 * pi * u) / (2.0 * pi);
    }
    [[nodiscard]] double lift_mm(double cam_deg) const {
        return full_mm * share(1.0 - (cam_deg < 0.0 ? -cam_deg / rise_deg : cam_deg / fall_deg));
    }
    /// Cam degrees from full lift to a lift, on either flank.
    [[nodiscard]] double out_deg(double at_mm, bool rising) const {
        double low = 0.0;
        double high = 1.0;
        for (int halving = 0; halving < 60; ++halving) {
            const double middle = (low + high) / 2.0;
            (full_mm * share(middle) < at_mm ? low : high) = middle;
        }
        return (1.0 - low) * (rising ? rise_deg : fall_deg);
    }
};

CamLobes lobes_of(const Shape& shape, double centreline_crank_deg) {
    LiftTable table;
    table.resolution_mm = 0.001;
    for (double angle = -std::ceil(shape.rise_deg) - 3.0; angle <= shape.fall_deg + 4.0; ++angle) {
        table.rows.push_back({angle, std::round(shape.lift_mm(angle) * 1000.0) / 1000.0});
    }
    const auto lobe = Lobe::from_table(table);
    EXPECT_TRUE(lobe.ok());
    return CamLobes{*lobe, 14.0, 0.4, centreline_crank_deg};
}

ValveTiming timing_of(const Engine& engine, const ValvePosition& valve, double lift_mm,
                      LiftOf of = LiftOf::lobe) {
    const auto timing = valve_timing(engine, valve, {lift_mm, of});
    EXPECT_TRUE(timing.ok());
    EXPECT_EQ(timing->status, TimingStatus::answered) << position_name(valve);
    return *timing;
}

/// `deg` less a multiple of 720, next to zero.
double in_cycle_about_zero(double deg) {
    return std::remainder(deg, 720.0);
}

/// Sampled events must come no later than one step after the event and not before it, and so for
/// closing the other way round.
constexpr double sample_deg = 0.01;

/// Everything that `valve_timing` says of one valve against the samples. Tolerance: one step of the
/// samples.
void expect_as_sampled(const Engine& engine, const ValvePosition& valve, LiftOf of,
                       const std::vector<double>& lifts_mm) {
    const auto sampled = twins::sampled_lift(engine, valve, of, sample_deg);
    const double full_mm = twins::sampled_full_lift_mm(sampled);
    const double overlap_deg = engine.layout.firing_angle(valve.cylinder).in_deg() + 360.0;
    const double sign = valve.kind == ValveKind::intake ? 1.0 : -1.0;
    for (const double lift_mm : lifts_mm) {
        SCOPED_TRACE(position_name(valve) + (of == LiftOf::lobe ? " lobe " : " valve ") +
                     std::to_string(lift_mm));
        const auto timing = valve_timing(engine, valve, {lift_mm, of});
        ASSERT_TRUE(timing.ok());
        const auto seen = twins::sampled_events(sampled, lift_mm);
        ASSERT_EQ(timing->status, seen ? TimingStatus::answered : TimingStatus::lift_not_reached);
        if (!seen) {
            continue;
        }
        const ValveEvents& events = *timing->events;
        const double opens = opens_at(engine.layout, valve, events).in_deg();
        const double closes = closes_at(engine.layout, valve, events).in_deg();
        EXPECT_TRUE(opens >= 0.0 && opens < 720.0 && closes >= 0.0 && closes < 720.0);
        EXPECT_NEAR(in_cycle_about_zero(opens - seen->opens_deg), -sample_deg / 2.0,
                    sample_deg / 2.0 + 1e-6);
        EXPECT_NEAR(in_cycle_about_zero(closes - seen->closes_deg), sample_deg / 2.0,
                    sample_deg / 2.0 + 1e-6);
        EXPECT_NEAR(events.duration_crank_deg(), seen->closes_deg - seen->opens_deg,
                    2.0 * sample_deg + 1e-6);
        // In the trade's words: how far before or after its dead centre each event lies.
        const double own_opening_centre =
            valve.kind == ValveKind::intake ? overlap_deg : overlap_deg - 180.0;
        const double own_closing_centre =
            valve.kind == ValveKind::intake ? overlap_deg + 180.0 : overlap_deg;
        EXPECT_NEAR(in_cycle_about_zero(own_opening_centre - seen->opens_deg),
                    events.opens_crank_deg, sample_deg + 1e-6);
        EXPECT_NEAR(in_cycle_about_zero(seen->closes_deg - own_closing_centre),
                    events.closes_crank_deg, sample_deg + 1e-6);
        const auto middle_deg = [&](const twins::SampledEvents& found) {
            return sign *
                   in_cycle_about_zero((found.opens_deg + found.closes_deg) / 2.0 - overlap_deg);
        };
        EXPECT_NEAR(*timing->centreline_off_the_heel_crank_deg, middle_deg(*seen),
                    sample_deg + 1e-6);
        // Nearer to the heel than this, ramp and rounding leave no point worth the name.
        if (full_mm - lift_mm > 0.01) {
            const auto below = twins::sampled_events(sampled, full_mm - lift_mm);
            ASSERT_TRUE(timing->centreline_below_the_peak_crank_deg.has_value());
            // One step for the events, and one for the highest sample, which stands a little
            // beside the peak.
            EXPECT_NEAR(*timing->centreline_below_the_peak_crank_deg, middle_deg(*below),
                        2.0 * sample_deg);
        }
    }
}

const std::vector<double> usual_lifts_mm{inches(0.006), inches(0.020), inches(0.050), 1.0,
                                         inches(0.100), inches(0.200), 30.0};

TEST(CamTiming, IsAsSampledForEveryValveOfEveryDemoEngine) {
    for (const char* name : demo_names) {
        SCOPED_TRACE(name);
        const Engine engine = demo_engine(name);
        for (const Train& train : engine.trains) {
            expect_as_sampled(engine, train.position, LiftOf::lobe, usual_lifts_mm);
            expect_as_sampled(engine, train.position, LiftOf::valve, usual_lifts_mm);
        }
    }
}

TEST(CamTiming, IsAsSampledForRandomAsymmetricLobes) {
    const std::uint64_t seed = 20240;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    Engine engine = demo_engine("v8-port-tubes");
    for (const Train& train : engine.trains) {
        const Shape shape{between(5.0, 9.5), between(45.0, 80.0), between(45.0, 80.0)};
        engine.own_lobes.emplace(train.position, lobes_of(shape, between(85.0, 130.0)));
    }
    for (const Train& train : engine.trains) {
        const double high = engine.lobes(train.position).lobe.full_lift_mm();
        const std::vector<double> lifts{between(0.05, 1.0), between(1.0, 4.0),
                                        between(0.5, 0.9) * high, between(1.1, 3.0) * high};
        expect_as_sampled(engine, train.position, LiftOf::lobe, lifts);
        expect_as_sampled(engine, train.position, LiftOf::valve, lifts);
    }
}

// Closed form of the law, solved here by itself. Tolerance, crank degrees: what smoothing a table
// to 0.001 mm does to flanks of different lengths, mostly to the place of full lift (0.05 to 0.1
// cam degrees, see lobe_test).
TEST(CamTiming, OnAnAsymmetricLobeTheTwoCentrelinesDifferByDegreesAndNeitherIsFullLift) {
    const Shape shape{9.0, 52.0, 74.0};
    const double lift_mm = inches(0.050);
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
        const auto timing =
            valve_timing(lobes_of(shape, 108.0), kind, nullptr, {lift_mm, LiftOf::lobe});
        ASSERT_TRUE(timing.ok());
        const auto middle_crank_deg = [&](double at_mm) {
            return shape.out_deg(at_mm, false) - shape.out_deg(at_mm, true);
        };
        // The long fall is the closing flank: the middle comes after full lift, which on the
        // exhaust side is nearer to top dead centre.
        const double later = kind == ValveKind::intake ? 1.0 : -1.0;
        const double off_heel = 108.0 + later * middle_crank_deg(lift_mm);
        const double below_peak = 108.0 + later * middle_crank_deg(9.0 - lift_mm);
        EXPECT_GT(std::abs(off_heel - below_peak), 8.0);
        EXPECT_GT(std::abs(below_peak - 108.0), 5.0);
        EXPECT_NEAR(*timing->centreline_off_the_heel_crank_deg, off_heel, 0.3);
        EXPECT_NEAR(*timing->centreline_below_the_peak_crank_deg, below_peak, 0.3);
        EXPECT_EQ(timing->centreline_at_full_lift_crank_deg, 108.0);
        EXPECT_NEAR(timing->events->duration_crank_deg(),
                    2.0 * (shape.out_deg(lift_mm, false) + shape.out_deg(lift_mm, true)), 0.3);
    }
}

TEST(CamTiming, AValvesLiftAtItsEventsIsTheCheckingLift) {
    const Engine engine = demo_engine("v8-port-tubes");
    for (const Train& train : engine.trains) {
        const auto closing = Linkage::close(train);
        for (const double lift_mm : {0.01, 0.1, 1.0, 5.0, 10.0}) {
            const ValveTiming timing = timing_of(engine, train.position, lift_mm, LiftOf::valve);
            const auto pose = closing.linkage->at(*timing.lobe_lift_mm);
            // Rounding of the pose alone.
            EXPECT_NEAR(closing.linkage->gross_lift_mm(*pose) - train.valve.lash_mm, lift_mm, 1e-9);
        }
    }
}

TEST(CamTiming, AtNoLiftTheValveLeavesItsSeatWhereTheLashIsTakenUp) {
    const Engine engine = demo_engine("v8-port-tubes");
    const ValvePosition valve{3, ValveKind::exhaust, 1};
    const Train& train = *engine.train(valve);
    const auto closing = Linkage::close(train);
    const ValveTiming timing = timing_of(engine, valve, 0.0, LiftOf::valve);
    const auto pose = closing.linkage->at(*timing.lobe_lift_mm);
    EXPECT_GT(train.valve.lash_mm, 0.1);
    EXPECT_NEAR(closing.linkage->gross_lift_mm(*pose), train.valve.lash_mm, 1e-9); // rounding
    // Full lift less nothing is full lift itself.
    EXPECT_NEAR(*timing.centreline_below_the_peak_crank_deg,
                timing.centreline_at_full_lift_crank_deg, 0.01); // flat nose: √ of the rounding
}

TEST(CamTiming, AtOneCheckingLiftAValveWithARatioStaysOpenLongerThanItsLobe) {
    const Engine engine = demo_engine("v8-port-tubes");
    const ValvePosition valve{1, ValveKind::intake, 1};
    const double lobe = timing_of(engine, valve, inches(0.100)).events->duration_crank_deg();
    const double high =
        timing_of(engine, valve, inches(0.100), LiftOf::valve).events->duration_crank_deg();
    // Ratio 1.695, lash 0.018: 0.100 in of the valve is 0.070 in of the lobe.
    EXPECT_GT(high, lobe + 3.0);
    EXPECT_LT(high, timing_of(engine, valve, inches(0.050)).events->duration_crank_deg());
}

TEST(CamTiming, IsTheSameForEveryCylinderAndEitherTurningDirection) {
    for (const char* name : demo_names) {
        Engine engine = demo_engine(name);
        const auto first = cylinder_timing(engine, 1, {1.0, LiftOf::lobe});
        ASSERT_TRUE(first.ok());
        for (const Turning turning : {Turning::clockwise, Turning::counter_clockwise}) {
            engine.layout.turning = turning;
            for (const Cylinder& cylinder : engine.layout.cylinders) {
                const auto timing = cylinder_timing(engine, cylinder.number, {1.0, LiftOf::lobe});
                ASSERT_TRUE(timing.ok());
                EXPECT_EQ(timing->intake.events->opens_crank_deg,
                          first->intake.events->opens_crank_deg);
                EXPECT_EQ(timing->exhaust.events->closes_crank_deg,
                          first->exhaust.events->closes_crank_deg);
                const ValvePosition intake{cylinder.number, ValveKind::intake, 1};
                const double after_first =
                    (opens_at(engine.layout, intake, *timing->intake.events) -
                     opens_at(engine.layout, {1, ValveKind::intake, 1}, *first->intake.events) -
                     engine.layout.firing_angle(cylinder.number))
                        .in_deg();
                EXPECT_NEAR(in_cycle_about_zero(after_first), 0.0, 1e-9); // rounding
            }
        }
    }
}

TEST(CamTiming, ACylindersPairHasItsOverlapAndItsSeparation) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        for (const double lift_mm : {0.15, 1.27, 4.0}) {
            for (const LiftOf of : {LiftOf::lobe, LiftOf::valve}) {
                const ValvePosition intake{2, ValveKind::intake, 1};
                const ValvePosition exhaust{2, ValveKind::exhaust, 1};
                const auto timing = cylinder_timing(engine, 2, {lift_mm, of});
                ASSERT_TRUE(timing.ok());
                // Overlap counted: samples in which both stand at the lift.
                const auto in = twins::sampled_lift(engine, intake, of, sample_deg);
                const auto out = twins::sampled_lift(engine, exhaust, of, sample_deg);
                int both = 0;
                for (std::size_t at = 0; at < in.lift_mm.size(); ++at) {
                    both += in.lift_mm[at] >= lift_mm && out.lift_mm[at] >= lift_mm ? 1 : 0;
                }
                EXPECT_NEAR(std::max(0.0, *timing->overlap_crank_deg), both * sample_deg,
                            2.0 * sample_deg);
                for (const CamFigures& figures :
                     {timing->at_full_lift, *timing->off_the_heel, *timing->below_the_peak}) {
                    EXPECT_NEAR(figures.lobe_separation_cam_deg,
                                (figures.intake_centreline_crank_deg +
                                 figures.exhaust_centreline_crank_deg) /
                                    2.0,
                                1e-12);
                    EXPECT_NEAR(figures.intake_centreline_crank_deg + figures.advance_crank_deg,
                                figures.lobe_separation_cam_deg, 1e-12);
                }
                EXPECT_EQ(timing->off_the_heel->intake_centreline_crank_deg,
                          *timing->intake.centreline_off_the_heel_crank_deg);
                EXPECT_EQ(timing->below_the_peak->exhaust_centreline_crank_deg,
                          *timing->exhaust.centreline_below_the_peak_crank_deg);
            }
        }
    }
    // The V8's centrelines are 106 and 112: separation 109, 3 advanced (arithmetic).
    const auto v8 = cylinder_timing(demo_engine("v8-port-tubes"), 1, {1.27, LiftOf::lobe});
    EXPECT_EQ(v8->at_full_lift.lobe_separation_cam_deg, 109.0);
    EXPECT_EQ(v8->at_full_lift.advance_crank_deg, 3.0);
}

TEST(CamTiming, HighOnTheNoseOverlapIsNegative) {
    const auto timing = cylinder_timing(demo_engine("v8-port-tubes"), 1, {6.0, LiftOf::lobe});
    ASSERT_TRUE(timing.ok());
    EXPECT_LT(*timing->overlap_crank_deg, -30.0);
}

TEST(CamTiming, SaysWhyThereAreNoEvents) {
    Engine engine = demo_engine("v8-port-tubes");
    const ValvePosition valve{1, ValveKind::intake, 1};
    const double full_mm = engine.lobes(valve).lobe.full_lift_mm();
    const auto status = [&](double lift_mm, LiftOf of) {
        const auto timing = valve_timing(engine, valve, {lift_mm, of});
        EXPECT_TRUE(timing.ok());
        EXPECT_EQ(timing->events.has_value(), timing->status == TimingStatus::answered);
        EXPECT_EQ(timing->events.has_value(), timing->lobe_lift_mm.has_value());
        EXPECT_EQ(timing->events.has_value(),
                  timing->centreline_off_the_heel_crank_deg.has_value());
        return timing->status;
    };
    EXPECT_EQ(status(full_mm, LiftOf::lobe), TimingStatus::answered);
    EXPECT_EQ(status(full_mm + 1e-9, LiftOf::lobe), TimingStatus::lift_not_reached);
    EXPECT_EQ(status(45.0, LiftOf::valve), TimingStatus::lift_not_reached);
    EXPECT_EQ(status(1e-4, LiftOf::lobe), TimingStatus::on_the_heel);
    EXPECT_EQ(status(least_checking_lobe_lift_mm, LiftOf::lobe), TimingStatus::answered);
    EXPECT_EQ(status(1e-4, LiftOf::valve), TimingStatus::answered); // above the lash

    engine.trains.front().valve.lash_mm = 0.0;
    ASSERT_EQ(engine.trains.front().position, valve);
    EXPECT_EQ(status(0.0, LiftOf::valve), TimingStatus::on_the_heel);
    EXPECT_EQ(status(1e-4, LiftOf::valve), TimingStatus::on_the_heel);

    engine.trains.front().rod.length_mm = 20.0;
    EXPECT_EQ(status(1.27, LiftOf::valve), TimingStatus::train_does_not_close);
    EXPECT_EQ(status(1.27, LiftOf::lobe), TimingStatus::answered);
    const auto unclosed = valve_timing(engine, valve, {1.27, LiftOf::valve});
    EXPECT_NE(unclosed->train, TrainStatus::answered);

    engine.trains.clear();
    EXPECT_EQ(status(1.27, LiftOf::valve), TimingStatus::no_train);
    EXPECT_EQ(status(1.27, LiftOf::lobe), TimingStatus::answered);
}

TEST(CamTiming, BelowThePeakThereIsNoPointOnTheHeel) {
    const CamLobes lobes = lobes_of({9.0, 60.0, 60.0}, 108.0);
    const double full_mm = lobes.lobe.full_lift_mm();
    const auto high = valve_timing(lobes, ValveKind::intake, nullptr, {full_mm, LiftOf::lobe});
    EXPECT_TRUE(high->events.has_value());
    EXPECT_NEAR(high->events->duration_crank_deg(), 0.0, 0.01);
    EXPECT_FALSE(high->centreline_below_the_peak_crank_deg.has_value());
    const auto above = valve_timing(lobes, ValveKind::intake, nullptr, {12.0, LiftOf::lobe});
    EXPECT_EQ(above->status, TimingStatus::lift_not_reached);
    EXPECT_FALSE(above->centreline_below_the_peak_crank_deg.has_value());
}

TEST(CamTiming, SaysWhetherTheLobeIsAnEstimate) {
    const auto card = Lobe::from_card(9.0, {{0.15, 280.0}, {1.27, 228.0}});
    ASSERT_TRUE(card.ok());
    const auto timing = valve_timing(CamLobes{*card, 14.0, 0.4, 108.0}, ValveKind::intake, nullptr,
                                     {1.27, LiftOf::lobe});
    EXPECT_TRUE(timing->estimated);
    EXPECT_NEAR(timing->events->duration_crank_deg(), 228.0, 0.05); // promised by from_card
    EXPECT_NEAR(timing->events->opens_crank_deg, 6.0, 0.05);        // 114 - 108
    EXPECT_NEAR(timing->events->closes_crank_deg, 42.0, 0.05);      // 108 + 114 - 180
    EXPECT_FALSE(valve_timing(lobes_of({}, 108.0), ValveKind::intake, nullptr, {1.27, LiftOf::lobe})
                     ->estimated);
}

TEST(CamTiming, RefusesWhatIsNoCheckingLiftAndNoCylinder) {
    const Engine engine = demo_engine("flat-four");
    const ValvePosition valve{1, ValveKind::intake, 1};
    for (const LiftOf of : {LiftOf::lobe, LiftOf::valve}) {
        for (const double lift_mm : {nan, infinity, -infinity, -0.001, 51.0}) {
            const auto refused = valve_timing(engine, valve, {lift_mm, of});
            ASSERT_FALSE(refused.ok()) << lift_mm;
            EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
            EXPECT_EQ(refused.error().field, "checking_lift");
            EXPECT_TRUE(refused.error().limits.has_value());
            EXPECT_FALSE(cylinder_timing(engine, 1, {lift_mm, of}).ok());
        }
    }
    EXPECT_FALSE(valve_timing(engine, valve, {0.0, LiftOf::lobe}).ok());
    for (const int cylinder : {-1, 0, 5}) {
        const auto refused =
            valve_timing(engine, {cylinder, ValveKind::exhaust, 1}, {1.0, LiftOf::lobe});
        ASSERT_FALSE(refused.ok()) << cylinder;
        EXPECT_EQ(refused.error().code, ErrorCode::valve_unknown);
    }
}

TEST(CardTiming, RandomCamsComeBackFromTheirEvents) {
    const std::uint64_t seed = 41;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (int time = 0; time < 1000; ++time) {
        const double intake = between(150.0, 330.0);
        const double exhaust = between(150.0, 330.0);
        const double separation = between(98.0, 118.0);
        const double advance = between(-8.0, 8.0);
        // Angles after the overlap's top dead centre; bottom dead centres at -180 and 180.
        const double intake_middle = separation - advance;
        const double exhaust_middle = -(separation + advance);
        CardEvents card{-(intake_middle - intake / 2.0), intake_middle + intake / 2.0 - 180.0,
                        -180.0 - (exhaust_middle - exhaust / 2.0), exhaust_middle + exhaust / 2.0};
        const auto figures = timing_from_events(card);
        ASSERT_TRUE(figures.ok());
        EXPECT_NEAR(*figures->intake_duration_crank_deg, intake, 1e-9);
        EXPECT_NEAR(*figures->exhaust_duration_crank_deg, exhaust, 1e-9);
        EXPECT_NEAR(*figures->intake_centreline_crank_deg, intake_middle, 1e-9);
        EXPECT_NEAR(*figures->exhaust_centreline_crank_deg, -exhaust_middle, 1e-9);
        EXPECT_NEAR(*figures->lobe_separation_cam_deg, separation, 1e-9);
        EXPECT_NEAR(*figures->advance_crank_deg, advance, 1e-9);
        EXPECT_NEAR(*figures->overlap_crank_deg, (intake + exhaust) / 2.0 - 2.0 * separation, 1e-9);
        // Moving the cam moves its advance and nothing else.
        const auto moved = timing_from_events(advanced(card, 4.0));
        EXPECT_NEAR(*moved->advance_crank_deg, advance + 4.0, 1e-9);
        EXPECT_NEAR(*moved->lobe_separation_cam_deg, separation, 1e-9);
        EXPECT_NEAR(*moved->overlap_crank_deg, *figures->overlap_crank_deg, 1e-9);
        EXPECT_NEAR(*moved->intake_duration_crank_deg, intake, 1e-9);
    }
}

TEST(CardTiming, WhatACardDoesNotGiveStaysEmpty) {
    const auto none = timing_from_events({});
    ASSERT_TRUE(none.ok());
    EXPECT_FALSE(none->intake_duration_crank_deg || none->exhaust_duration_crank_deg ||
                 none->intake_centreline_crank_deg || none->exhaust_centreline_crank_deg ||
                 none->lobe_separation_cam_deg || none->overlap_crank_deg ||
                 none->advance_crank_deg);
    const auto one = timing_from_events({{}, 42.0, 50.0, 12.0});
    ASSERT_TRUE(one.ok());
    EXPECT_FALSE(one->intake_duration_crank_deg || one->overlap_crank_deg ||
                 one->lobe_separation_cam_deg);
    EXPECT_EQ(one->exhaust_duration_crank_deg, 242.0);
    EXPECT_FALSE(advanced({{}, 42.0, {}, {}}, 4.0).intake_opens_crank_deg.has_value());
}

TEST(CardTiming, EventsOnTheOtherSideOfTheirDeadCentreAreNegative) {
    // Opens 8 after, closes 32 after bottom: 204, centreline 110 (arithmetic).
    const auto figures = timing_from_events({-8.0, 32.0, 32.0, -8.0});
    ASSERT_TRUE(figures.ok());
    EXPECT_EQ(figures->intake_duration_crank_deg, 204.0);
    EXPECT_EQ(figures->intake_centreline_crank_deg, 110.0);
    EXPECT_EQ(figures->exhaust_centreline_crank_deg, 110.0);
    EXPECT_EQ(figures->overlap_crank_deg, -16.0);
}

TEST(CardTiming, RefusesEventsThatNoValveHas) {
    const std::pair<CardEvents, const char*> cases[] = {
        {{200.0, 60.0, 60.0, 20.0}, "intake_opens"},
        {{20.0, nan, 60.0, 20.0}, "intake_closes"},
        {{20.0, 60.0, -infinity, 20.0}, "exhaust_opens"},
        {{20.0, 60.0, 60.0, -181.0}, "exhaust_closes"},
        {{-100.0, -80.0, 60.0, 20.0}, "intake_duration"},
        {{20.0, 60.0, -100.0, -100.0}, "exhaust_duration"},
    };
    for (const auto& [events, field] : cases) {
        const auto refused = timing_from_events(events);
        ASSERT_FALSE(refused.ok()) << field;
        EXPECT_EQ(refused.error().code, ErrorCode::out_of_range);
        EXPECT_EQ(refused.error().field, field);
    }
}

} // namespace
} // namespace rodway
