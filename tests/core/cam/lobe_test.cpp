#include "core/cam/lobe.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <random>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double pi = std::numbers::pi;

/// Cycloidal rise and fall of different lengths, about `peak_at` of the table's own degrees.
double law_mm(double angle, double full_mm, double rise_deg, double fall_deg) {
    const double u = 1.0 - (angle < 0.0 ? -angle / rise_deg : angle / fall_deg);
    return u <= 0.0 ? 0.0 : full_mm * (u - std::sin(2.0 * pi * u) / (2.0 * pi));
}

struct Shape {
    double full_mm = 9.0;
    double rise_deg = 60.0;
    double fall_deg = 60.0;
    double peak_at_deg = 0.0;
};

/// The table at given angles, to 0.001 mm.
LiftTable table_at(const Shape& shape, const std::vector<double>& angles) {
    LiftTable table;
    table.resolution_mm = 0.001;
    for (const double angle : angles) {
        const double lift =
            law_mm(angle - shape.peak_at_deg, shape.full_mm, shape.rise_deg, shape.fall_deg);
        table.rows.push_back({angle, std::round(lift * 1000.0) / 1000.0});
    }
    return table;
}

std::vector<double> every(double step, double from, double to) {
    std::vector<double> angles;
    for (int row = 0; from + row * step <= to + 1e-9; ++row) {
        angles.push_back(from + row * step);
    }
    return angles;
}

Lobe lobe_of(const LiftTable& table) {
    const auto lobe = Lobe::from_table(table);
    EXPECT_TRUE(lobe.ok());
    return *lobe;
}

/// Lift within a few roundings of the law, all the way round. Where the law isn't smooth, at the
/// peak of two flanks of different lengths, smoothing costs more.
void expect_follows(const Lobe& lobe, const Shape& shape, double tolerance_mm) {
    EXPECT_NEAR(lobe.full_lift_mm(), shape.full_mm, tolerance_mm);
    for (double angle = -179.0; angle <= 180.0; angle += 0.5) {
        EXPECT_NEAR(lobe.lift_mm(CamAngle::deg(angle)),
                    law_mm(angle, shape.full_mm, shape.rise_deg, shape.fall_deg), tolerance_mm)
            << "at " << angle;
    }
}

TEST(Lobe, LiftVelocityAccelerationAndJerkAreContinuousEverywhere) {
    const Lobe lobe = lobe_of(table_at({}, every(1.0, -65.0, 65.0)));
    LobeMotion before = lobe.at(CamAngle::deg(-80.0));
    double steepest = 0.0;
    for (double angle = -80.0; angle <= 80.0; angle += 0.01) {
        const LobeMotion here = lobe.at(CamAngle::deg(angle));
        // A step of 0.01° changes each by no more than its derivative's greatest allows; a kink or
        // a jump in the acceleration (a spline of lower order) would be a hundred times that.
        EXPECT_NEAR(here.lift, before.lift, 0.0031);
        EXPECT_NEAR(here.velocity, before.velocity, 0.03);
        EXPECT_NEAR(here.acceleration, before.acceleration, 0.3);
        EXPECT_NEAR(here.jerk, before.jerk, 30.0);
        steepest = std::max(steepest, here.velocity);
        before = here;
    }
    EXPECT_NEAR(steepest, 2.0 * 9.0 / radians(60.0), 0.02); // closed form: cycloidal 2·h/β
}

TEST(Lobe, MotionIsTheDerivativeOfItsLiftPerRadian) {
    const Lobe lobe = lobe_of(table_at({}, every(1.0, -65.0, 65.0)));
    const double h = 0.01;
    for (double angle = -64.0; angle < 64.0; angle += 0.7) {
        const LobeMotion below = lobe.at(CamAngle::deg(angle - h));
        const LobeMotion here = lobe.at(CamAngle::deg(angle));
        const LobeMotion above = lobe.at(CamAngle::deg(angle + h));
        const double step = 2.0 * radians(h);
        EXPECT_NEAR(here.velocity, (above.lift - below.lift) / step, 1e-4); // central difference
        EXPECT_NEAR(here.acceleration, (above.velocity - below.velocity) / step, 1e-2);
        EXPECT_NEAR(here.jerk, (above.acceleration - below.acceleration) / step, 1.0);
    }
}

TEST(Lobe, HeelIsExactlyZeroBeyondItsSpan) {
    const Lobe lobe = lobe_of(table_at({}, every(1.0, -62.0, 62.0)));
    const Flanks span = lobe.span();
    EXPECT_NEAR(span.opening.in_deg(), -63.0, 0.5);
    EXPECT_NEAR(span.closing.in_deg(), 63.0, 0.5);
    for (double beyond = 0.0; beyond < 110.0; beyond += 0.5) {
        for (const CamAngle angle : {span.opening - CamAngle::deg(beyond + 1e-9),
                                     span.closing + CamAngle::deg(beyond + 1e-9)}) {
            EXPECT_EQ(lobe.lift_mm(angle), 0.0);
            EXPECT_EQ(lobe.at(angle).velocity, 0.0);
            EXPECT_EQ(lobe.at(angle).acceleration, 0.0);
        }
    }
    double least = 1.0;
    for (double angle = -70.0; angle <= 70.0; angle += 0.01) {
        least = std::min(least, lobe.lift_mm(CamAngle::deg(angle)));
    }
    EXPECT_EQ(least, 0.0); // never below the heel, whatever smoothing does
}

TEST(Lobe, FullLiftStandsAtZeroAndIsItsGreatest) {
    const Lobe lobe = lobe_of(table_at({9.0, 60.0, 60.0, 37.3}, every(1.0, -30.0, 105.0)));
    EXPECT_NEAR(lobe.at(CamAngle::deg(0.0)).velocity, 0.0, 1e-9);
    EXPECT_EQ(lobe.lift_mm(CamAngle::deg(0.0)), lobe.full_lift_mm());
    for (double angle = -60.0; angle < 60.0; angle += 0.05) {
        EXPECT_LE(lobe.at(CamAngle::deg(angle)).lift, lobe.full_lift_mm() + 1e-12);
    }
}

TEST(Lobe, AnAngleCountsFromFullLiftWhereverTheTablesZeroStands) {
    const Shape shape{9.0, 60.0, 60.0, 211.0};
    const Lobe lobe = lobe_of(table_at(shape, every(1.0, 145.0, 280.0)));
    expect_follows(lobe, shape, 0.003); // rounding to 0.001 mm, smoothed
}

TEST(Lobe, AtLiftFindsBothFlanks) {
    const Shape shape{9.0, 55.0, 70.0, 12.0};
    const Lobe lobe = lobe_of(table_at(shape, every(1.0, -50.0, 90.0)));
    for (const double share : {0.001, 0.01, 0.1, 0.3, 0.5, 0.9, 0.999, 1.0}) {
        const double lift = share * lobe.full_lift_mm();
        const Flanks flanks = lobe.at_lift(lift);
        EXPECT_LE(flanks.opening.in_deg(), 0.0);
        EXPECT_GE(flanks.closing.in_deg(), 0.0);
        // 1e-9 mm: the angle's rounding times the greatest velocity.
        EXPECT_NEAR(lobe.lift_mm(flanks.opening), lift, 1e-9) << share;
        EXPECT_NEAR(lobe.lift_mm(flanks.closing), lift, 1e-9) << share;
        // The first and last angle at that lift: outside, the lobe stands lower.
        if (share < 1.0) {
            for (double out = 0.05; out < 20.0; out += 0.5) {
                EXPECT_LT(lobe.at(flanks.opening - CamAngle::deg(out)).lift, lift);
                EXPECT_LT(lobe.at(flanks.closing + CamAngle::deg(out)).lift, lift);
            }
        }
    }
}

TEST(Lobe, AnAsymmetricTableKeepsItsFlanksApart) {
    const Shape shape{9.0, 52.0, 74.0, 0.0};
    const Lobe lobe = lobe_of(table_at(shape, every(1.0, -60.0, 80.0)));
    // The law's acceleration is continuous at the peak (zero on both sides), its jerk is not.
    // A flat nose's highest place is known to some 0.05°, at 0.35 mm a degree on the flank.
    expect_follows(lobe, shape, 0.02);
    const Flanks half = lobe.at_lift(4.5);
    EXPECT_NEAR(half.opening.in_deg(), -26.0, 0.05); // closed form: half lift at half the flank
    EXPECT_NEAR(half.closing.in_deg(), 37.0, 0.05);
}

TEST(Lobe, UnevenStepsAndMissingRowsGiveTheSameLobe) {
    const Shape shape;
    std::vector<double> uneven;
    for (double angle = -66.0; angle <= 66.0; angle += std::abs(angle) > 40.0 ? 1.0 : 2.0) {
        uneven.push_back(angle);
    }
    // 0.02 mm: where a flat nose is highest is known to some 0.05°.
    expect_follows(lobe_of(table_at(shape, uneven)), shape, 0.02);

    const std::uint64_t seed = 99;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::vector<double> missing;
    for (const double angle : every(1.0, -66.0, 66.0)) {
        if (std::abs(angle) > 60.0 || std::uniform_real_distribution<double>(0, 1)(random) > 0.15) {
            missing.push_back(angle);
        }
    }
    ASSERT_LT(missing.size(), 125u);
    expect_follows(lobe_of(table_at(shape, missing)), shape, 0.02);

    // A gap of six rows, as where a page was torn.
    std::vector<double> torn = every(1.0, -66.0, 66.0);
    torn.erase(torn.begin() + 36, torn.begin() + 42);
    expect_follows(lobe_of(table_at(shape, torn)), shape, 0.02);
}

TEST(Lobe, ResidualIsNoLargerThanTheNoiseTold) {
    const LiftTable table = table_at({}, every(1.0, -65.0, 65.0));
    const double rounding = 0.001 / std::sqrt(12.0); // JCGM 100, F.2.2.1: step/√12
    const auto close = Lobe::from_table(table, rounding);
    ASSERT_TRUE(close.ok());
    EXPECT_LE(close->residual_mm(), rounding);
    EXPECT_GT(close->residual_mm(), rounding / 3.0);
    const auto loose = Lobe::from_table(table, 0.02);
    ASSERT_TRUE(loose.ok());
    EXPECT_LE(loose->residual_mm(), 0.02);
    EXPECT_GT(loose->residual_mm(), 0.01);
    EXPECT_FALSE(close->estimated());
}

TEST(Lobe, PassesOnWhatIsWrongWithATable) {
    LiftTable table = table_at({}, every(1.0, -65.0, 65.0));
    std::swap(table.rows[20], table.rows[21]);
    const auto refused = Lobe::from_table(table);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, ErrorCode::order_wrong);
    EXPECT_EQ(refused.error().line, 22);
}

/// Degrees of crank that a lobe spends above a lift, by bisection on its lift: independent of
/// at_lift.
double duration_deg(const Lobe& lobe, double lift_mm) {
    const auto crossing = [&](double side) {
        double inside = 0.0;
        double outside = 170.0 * side;
        for (int halving = 0; halving < 80; ++halving) {
            const double middle = (inside + outside) / 2.0;
            (lobe.lift_mm(CamAngle::deg(middle)) > lift_mm ? inside : outside) = middle;
        }
        return inside;
    };
    return 2.0 * (crossing(1.0) - crossing(-1.0));
}

struct Card {
    double peak_in;
    std::vector<std::pair<double, double>> durations; ///< lobe lift in, crank degrees
};

// Invented cards of the usual sizes (common practice, no source).
TEST(CardLobe, HitsEveryDurationAndThePeakAndSaysItIsAnEstimate) {
    const Card cards[] = {
        {0.350, {{0.006, 280.0}, {0.050, 228.0}}},
        {0.380, {{0.020, 264.0}, {0.050, 236.0}, {0.200, 147.0}}},
        {0.300, {{0.004, 270.0}, {0.050, 214.0}}},
        {0.420, {{0.020, 290.0}, {0.050, 258.0}, {0.100, 222.0}, {0.200, 168.0}}},
        {0.270, {{0.050, 194.0}, {0.200, 92.0}}},
    };
    for (const Card& card : cards) {
        std::vector<CardDuration> durations;
        for (const auto& [lift, crank] : card.durations) {
            durations.push_back({Length::inches(lift).in_mm(), crank});
        }
        std::reverse(durations.begin(), durations.end()); // any order will do
        const auto lobe = Lobe::from_card(Length::inches(card.peak_in).in_mm(), durations);
        ASSERT_TRUE(lobe.ok()) << "peak " << card.peak_in;
        EXPECT_TRUE(lobe->estimated());
        EXPECT_EQ(lobe->residual_mm(), 0.0);
        EXPECT_NEAR(Length::mm(lobe->full_lift_mm()).in_inches(), card.peak_in, 1e-6);
        for (const CardDuration& duration : durations) {
            // 0.05° of crank is what is promised.
            EXPECT_NEAR(duration_deg(*lobe, duration.lobe_lift_mm), duration.crank_deg, 0.05);
        }
        for (double angle = 0.0; angle < 150.0; angle += 0.25) { // symmetric, and one hill
            const double lift = lobe->lift_mm(CamAngle::deg(angle));
            EXPECT_NEAR(lift, lobe->lift_mm(CamAngle::deg(-angle)), 1e-6);
            EXPECT_LE(lobe->lift_mm(CamAngle::deg(angle + 0.25)), lift + 1e-6);
        }
    }
}

TEST(CardLobe, RefusesWhatNoLobeCanHaveTogether) {
    using Durations = std::vector<CardDuration>;
    const std::pair<Durations, ErrorCode> cases[] = {
        {{}, ErrorCode::too_few_rows},
        {{{1.27, 228.0}}, ErrorCode::too_few_rows},
        {{{0.5, 200.0}, {1.27, 228.0}}, ErrorCode::order_wrong}, // longer above a higher lift
        {{{1.27, 228.0}, {1.27, 228.0}}, ErrorCode::order_wrong},
        {{{1.27, 228.0}, {1.27, 220.0}}, ErrorCode::order_wrong},
        {{{0.0, 280.0}, {1.27, 228.0}}, ErrorCode::not_a_lobe},
        {{{-0.1, 280.0}, {1.27, 228.0}}, ErrorCode::not_a_lobe},
        {{{0.5, 280.0}, {9.0, 20.0}}, ErrorCode::not_a_lobe},  // as high as the peak
        {{{0.5, 280.0}, {12.0, 20.0}}, ErrorCode::not_a_lobe}, // higher
        {{{0.5, 280.0}, {1.27, 0.0}}, ErrorCode::not_a_lobe},
        {{{0.5, 720.0}, {1.27, 228.0}}, ErrorCode::not_a_lobe},
        {{{0.5, 228.02}, {1.27, 228.0}, {8.9, 227.0}}, ErrorCode::not_a_lobe}, // a wall
    };
    int number = 0;
    for (const auto& [durations, code] : cases) {
        const auto lobe = Lobe::from_card(9.0, durations);
        ASSERT_FALSE(lobe.ok()) << "case " << number;
        EXPECT_EQ(static_cast<int>(lobe.error().code), static_cast<int>(code)) << "case " << number;
        ++number;
    }
    EXPECT_FALSE(Lobe::from_card(std::nan(""), {{0.5, 280.0}, {1.27, 228.0}}).ok());
    EXPECT_FALSE(Lobe::from_card(9.0, {{0.5, std::nan("")}, {1.27, 228.0}}).ok());
}

} // namespace
} // namespace rodway
