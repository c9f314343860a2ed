#include "core/cam/lobe.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>

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

/// The lobe of a law's table, to 0.001 mm, cut to the rows from one angle to another.
Lobe cut_lobe(const Shape& shape, double first_deg, double last_deg) {
    return lobe_of(table_at(shape, every(1.0, first_deg, last_deg)));
}

TEST(Lobe, RampsThatTheTableLacksAreAddedAndSaidToBe) {
    const Shape shape; // cycloidal, 9 mm, 60° a flank
    // The first rows stand at about 0.17 and 0.43 mm (0.007 and 0.017 in).
    const Lobe lobe = cut_lobe(shape, -52.0, 49.0);
    EXPECT_TRUE(lobe.ramps_estimated());
    EXPECT_FALSE(lobe.estimated());
    EXPECT_TRUE(lobe.smoothing()->opening_ramp_estimated);
    EXPECT_TRUE(lobe.smoothing()->closing_ramp_estimated);
    // Where the measuring ends; the nose of this law is flat: its place is known to some 0.1°.
    EXPECT_NEAR(lobe.measured_span().opening.in_deg(), -52.0, 0.1);
    EXPECT_NEAR(lobe.measured_span().closing.in_deg(), 49.0, 0.1);
    EXPECT_LT(lobe.span().opening.in_deg(), -54.0);
    EXPECT_GT(lobe.span().closing.in_deg(), 51.0);
    double before = 0.0;
    for (double angle = -100.0; angle < 0.0; angle += 0.1) { // rises all the way, from exactly zero
        const double lift = lobe.lift_mm(CamAngle::deg(angle));
        EXPECT_GE(lift, before - 1e-6) << angle;
        before = lift;
    }
    EXPECT_EQ(lobe.lift_mm(CamAngle::deg(-80.0)), 0.0);
    for (double angle = -58.0; angle <= 56.0; angle += 0.5) {
        const bool measured = angle > -52.0 && angle < 49.0;
        // Where it is measured as well as ever (the flat nose's place times the flank's 0.3 mm a
        // degree); on the ramps within 0.03 mm of this law's own: an estimate.
        EXPECT_NEAR(lobe.lift_mm(CamAngle::deg(angle)),
                    law_mm(angle, shape.full_mm, shape.rise_deg, shape.fall_deg),
                    measured ? 0.02 : 0.03)
            << angle;
    }
    const Lobe whole = cut_lobe(shape, -64.0, 64.0);
    EXPECT_FALSE(whole.ramps_estimated());
    EXPECT_EQ(whole.measured_span().opening.in_deg(), whole.span().opening.in_deg());
    EXPECT_EQ(whole.measured_span().closing.in_deg(), whole.span().closing.in_deg());
}

TEST(Lobe, ADialsZeroErrorIsTakenOffAndReported) {
    LiftTable table = table_at({}, every(1.0, -70.0, 70.0));
    for (LiftRow& row : table.rows) {
        row.lift_mm -= 0.08;
    }
    const Lobe lobe = lobe_of(table);
    EXPECT_NEAR(lobe.smoothing()->zero_shift_mm, -0.08, 1e-9);
    EXPECT_FALSE(lobe.ramps_estimated());
    expect_follows(lobe, {}, 0.02); // 0.02 mm: where the flat nose is highest
}

TEST(Lobe, ReportsTheWorstRowAndItsAngle) {
    const Shape shape{9.0, 60.0, 60.0, 100.0};
    LiftTable table = table_at(shape, every(1.0, 35.0, 165.0));
    table.rows[30].lift_mm += 0.015; // at 65°, on the flank: a slip that the check lets pass
    const Lobe lobe = lobe_of(table);
    const SmoothingReport& report = *lobe.smoothing();
    EXPECT_EQ(report.worst_row, 31);
    EXPECT_NEAR(report.worst_at.in_deg(), -35.0, 0.2); // the flat nose's place
    EXPECT_GT(report.worst_residual_mm, 0.007);
    EXPECT_LT(report.worst_residual_mm, 0.015);
    EXPECT_EQ(report.residual_rms_mm, lobe.residual_mm());
    EXPECT_GE(report.noise_mm, report.residual_rms_mm);
    EXPECT_EQ(report.rows, 131); // heel rows up to 6° from the ramp, and no more: 5° here
}

TEST(Lobe, RunoutOfAWholeTurnLeavesAHeelOfZero) {
    LiftTable table = table_at({}, every(1.0, -179.0, 180.0));
    for (LiftRow& row : table.rows) {
        row.lift_mm += 0.0127 * std::sin(radians(row.cam_deg) + 1.0); // 0.001 in from low to high
    }
    const Lobe lobe = lobe_of(table);
    EXPECT_GT(lobe.span().opening.in_deg(), -72.0);
    EXPECT_LT(lobe.span().closing.in_deg(), 72.0);
    EXPECT_EQ(lobe.lift_mm(CamAngle::deg(120.0)), 0.0);
    EXPECT_GT(lobe.smoothing()->heel_wander_mm, 0.015);
    EXPECT_LT(lobe.smoothing()->rows, 140);
}

TEST(Lobe, OddNumbersBesideATableDoNoHarm) {
    const double infinite = std::numeric_limits<double>::infinity();
    for (const double odd : {std::nan(""), infinite, -infinite, 0.0, -1.0, 1e300}) {
        LiftTable table = table_at({}, every(1.0, -65.0, 65.0));
        const auto told = Lobe::from_table(table, odd);
        if (told.ok()) {
            EXPECT_TRUE(std::isfinite(told->lift_mm(CamAngle::deg(10.0))));
        }
        table.resolution_mm = odd;
        const auto read = Lobe::from_table(table);
        if (read.ok()) {
            EXPECT_TRUE(std::isfinite(read->lift_mm(CamAngle::deg(10.0))));
        }
        EXPECT_TRUE(std::isfinite(
            lobe_of(table_at({}, every(1.0, -65.0, 65.0))).lift_mm(CamAngle::deg(odd))));
        EXPECT_FALSE(
            Lobe::from_law(MotionLaw::cycloidal, odd, CamAngle::deg(60.0), CamAngle::deg(60.0))
                .ok());
        EXPECT_FALSE(
            Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(odd), CamAngle::deg(60.0))
                .ok());
        EXPECT_FALSE(Lobe::from_law(FlatTappetLaw{}, 9.0, CamAngle::deg(odd)).ok());
    }
}

TEST(LawLobe, KeepsItsDwellAndItsFlanks) {
    const auto lobe = Lobe::from_law(MotionLaw::modified_sine, 8.5, CamAngle::deg(58.0),
                                     CamAngle::deg(71.0), CamAngle::deg(14.0));
    ASSERT_TRUE(lobe.ok());
    EXPECT_FALSE(lobe->estimated());
    EXPECT_FALSE(lobe->smoothing().has_value());
    EXPECT_EQ(lobe->residual_mm(), 0.0);
    for (double angle = -6.5; angle <= 6.5; angle += 0.5) {
        EXPECT_NEAR(lobe->lift_mm(CamAngle::deg(angle)), 8.5, 1e-6);
    }
    const Flanks half = lobe->at_lift(4.25);
    EXPECT_NEAR(half.opening.in_deg(), -7.0 - 29.0, 1e-4); // closed form: half way along the flank
    EXPECT_NEAR(half.closing.in_deg(), 7.0 + 35.5, 1e-4);
    // The spline reaches three of its steps, of a 160th of the flank, beyond the law.
    EXPECT_NEAR(lobe->span().opening.in_deg(), -7.0 - 58.0, 1.2);
    EXPECT_NEAR(lobe->span().closing.in_deg(), 7.0 + 71.0, 1.2);
}

TEST(LawLobe, NamesTheLimitThatIsMissed) {
    const auto lobe = Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(170.0),
                                     CamAngle::deg(170.0), CamAngle::deg(21.0));
    ASSERT_FALSE(lobe.ok());
    EXPECT_EQ(lobe.error().code, ErrorCode::out_of_range);
    EXPECT_EQ(lobe.error().field, "dwell");
    EXPECT_EQ(lobe.error().limits->high, 20.0);
    EXPECT_TRUE(Lobe::from_law(MotionLaw::cycloidal, 9.0, CamAngle::deg(170.0),
                               CamAngle::deg(170.0), CamAngle::deg(20.0))
                    .ok());
}

TEST(LawLobe, OfAFlatTappetsLawIsThatLaw) {
    const FlatTappetLaw law;
    const auto lobe = Lobe::from_law(law, 9.652, CamAngle::deg(80.0));
    ASSERT_TRUE(lobe.ok());
    const double beta = radians(80.0);
    for (double angle = -85.0; angle <= 85.0; angle += 0.31) {
        const LawMotion motion = law.at(1.0 - std::abs(angle) / 80.0);
        const LobeMotion here = lobe->at(CamAngle::deg(angle));
        const double side = angle < 0.0 ? 1.0 : -1.0;
        // 1e-5 of the law's peaks, 2e-3 of the acceleration's: corners rounded over a spline step.
        EXPECT_NEAR(here.lift, 9.652 * motion.lift, 1e-5 * 9.652);
        EXPECT_NEAR(here.velocity, side * 9.652 * motion.velocity / beta, 1e-3);
        EXPECT_NEAR(here.acceleration, 9.652 * motion.acceleration / (beta * beta), 0.05);
    }
}

// A motorcycle cam as published in a workshop's diary: calipered across the sides it shows 9.41 mm,
// its flanks having lifted 0.19 mm there; its true lift is 9.79 mm (figures as read).
TEST(LawLobe, CaliperingMissesWhatTheSidesHaveLifted) {
    const double lift = 9.79;
    double shorter =
        91.0; // the cycloidal flank that has lifted 0.19 mm at right angles to the nose
    double longer = 170.0;
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (shorter + longer) / 2.0;
        (law_mm(90.0, lift, middle, middle) < 0.19 ? shorter : longer) = middle;
    }
    const auto lobe =
        Lobe::from_law(MotionLaw::cycloidal, lift, CamAngle::deg(shorter), CamAngle::deg(shorter));
    ASSERT_TRUE(lobe.ok());
    EXPECT_NEAR(lobe->caliper_lift_error_mm(), 0.38, 1e-3); // the spline's rounding
    EXPECT_NEAR(lobe->full_lift_mm() - lobe->caliper_lift_error_mm(), 9.41, 1e-3);
    // Different flanks lift differently, and both count.
    const auto uneven =
        Lobe::from_law(MotionLaw::cycloidal, lift, CamAngle::deg(80.0), CamAngle::deg(shorter));
    EXPECT_NEAR(uneven->caliper_lift_error_mm(), 0.19, 1e-3);
    const auto mirrored =
        Lobe::from_law(MotionLaw::cycloidal, lift, CamAngle::deg(shorter), CamAngle::deg(80.0));
    EXPECT_NEAR(mirrored->caliper_lift_error_mm(), 0.19, 1e-3);
    const auto ordinary =
        Lobe::from_law(MotionLaw::cycloidal, lift, CamAngle::deg(80.0), CamAngle::deg(80.0));
    EXPECT_EQ(ordinary->caliper_lift_error_mm(), 0.0);
}

} // namespace
} // namespace rodway
