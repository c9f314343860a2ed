#include "core/cam/motion_law.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

#include "core/cam/lobe.h"
#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

/// Places where a derivative of some law jumps, or its own derivative does.
constexpr double seams[] = {0.0, 0.125, 0.375, 0.5, 0.625, 0.875, 1.0};

bool near_seam(double u, double distance) {
    return std::any_of(std::begin(seams), std::end(seams),
                       [&](double seam) { return std::abs(u - seam) < distance; });
}

TEST(MotionLaw, RisesFromZeroToOneWithoutEndVelocity) {
    for (const MotionLaw law : all_motion_laws) {
        SCOPED_TRACE(static_cast<int>(law));
        EXPECT_EQ(law_motion(law, 0.0).lift, 0.0);
        EXPECT_EQ(law_motion(law, 1.0).lift, 1.0);
        EXPECT_NEAR(law_motion(law, 0.0).velocity, 0.0, 1e-15);
        EXPECT_NEAR(law_motion(law, 1.0).velocity, 0.0, 1e-15);
        if (acceleration_is_continuous(law)) {
            EXPECT_NEAR(law_motion(law, 0.0).acceleration, 0.0, 1e-12);
            EXPECT_NEAR(law_motion(law, 1.0).acceleration, 0.0, 1e-12);
        } else {
            EXPECT_GT(law_motion(law, 0.0).acceleration, 3.9);
        }
    }
}

// The mirror itself is how the second half is made; that both halves meet shows the first half to
// be right: lift ½, and no step in the velocity.
TEST(MotionLaw, HalvesMeetInTheMiddleAndMirrorEachOther) {
    for (const MotionLaw law : all_motion_laws) {
        SCOPED_TRACE(static_cast<int>(law));
        EXPECT_NEAR(law_motion(law, 0.5 - 1e-12).lift, 0.5, 1e-11);
        EXPECT_NEAR(law_motion(law, 0.5 - 1e-12).velocity, law_motion(law, 0.5 + 1e-12).velocity,
                    1e-10);
        for (double u = 0.013; u < 0.5; u += 0.037) {
            const LawMotion here = law_motion(law, u);
            const LawMotion there = law_motion(law, 1.0 - u);
            EXPECT_NEAR(here.lift + there.lift, 1.0, 1e-14);
            EXPECT_NEAR(here.velocity, there.velocity, 1e-13);
            EXPECT_NEAR(here.acceleration, -there.acceleration, 1e-12);
            EXPECT_NEAR(here.jerk, there.jerk, 1e-11);
        }
    }
}

/// Each derivative against the central difference of the one before. Tolerance: the difference's
/// own error, h²/6 of the derivative two further on (some 10⁴ at most), and rounding/h.
void expect_derivatives(const std::function<LawMotion(double)>& motion, double u) {
    const double h = 1e-5;
    const LawMotion below = motion(u - h);
    const LawMotion here = motion(u);
    const LawMotion above = motion(u + h);
    EXPECT_NEAR(here.velocity, (above.lift - below.lift) / (2.0 * h), 1e-7) << u;
    EXPECT_NEAR(here.acceleration, (above.velocity - below.velocity) / (2.0 * h), 1e-5) << u;
    EXPECT_NEAR(here.jerk, (above.acceleration - below.acceleration) / (2.0 * h), 1e-3) << u;
}

TEST(MotionLaw, DerivativesAreThoseOfTheLift) {
    for (const MotionLaw law : all_motion_laws) {
        SCOPED_TRACE(static_cast<int>(law));
        for (double u = 0.0031; u < 1.0; u += 0.0173) {
            if (!near_seam(u, 1e-4)) {
                expect_derivatives([&](double at) { return law_motion(law, at); }, u);
            }
        }
    }
}

TEST(MotionLaw, PeaksAreTheGreatestOfTheMotion) {
    for (const MotionLaw law : all_motion_laws) {
        SCOPED_TRACE(static_cast<int>(law));
        LawPeaks found{0.0, 0.0, 0.0};
        constexpr int looks = 40000;
        for (int look = 0; look <= looks; ++look) {
            const LawMotion motion = law_motion(law, static_cast<double>(look) / looks);
            found.velocity = std::max(found.velocity, motion.velocity);
            found.acceleration = std::max(found.acceleration, std::abs(motion.acceleration));
            found.jerk = std::max(*found.jerk, std::abs(motion.jerk));
        }
        const LawPeaks peaks = law_peaks(law);
        // Looking every 1/40000: a peak's curvature times a look squared, below 1e-7.
        EXPECT_NEAR(found.velocity, peaks.velocity, 1e-6);
        EXPECT_NEAR(found.acceleration, peaks.acceleration, 1e-6);
        EXPECT_EQ(peaks.jerk.has_value(), acceleration_is_continuous(law));
        if (peaks.jerk) {
            EXPECT_NEAR(*found.jerk, *peaks.jerk, 1e-5);
        }
    }
}

TEST(MotionLaw, OutsideTheRiseItDwells) {
    for (const MotionLaw law : all_motion_laws) {
        for (const double u :
             {-1.0, -1e-9, std::nan(""), -std::numeric_limits<double>::infinity()}) {
            EXPECT_EQ(law_motion(law, u).lift, 0.0);
            EXPECT_EQ(law_motion(law, u).acceleration, 0.0);
        }
        for (const double u : {1.0 + 1e-9, 7.0, std::numeric_limits<double>::infinity()}) {
            EXPECT_EQ(law_motion(law, u).lift, 1.0);
            EXPECT_EQ(law_motion(law, u).velocity, 0.0);
        }
    }
}

TEST(FlatTappetLaw, IsAContinuousRiseWithConstantVelocity) {
    const std::uint64_t seed = 4711;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    for (int time = 0; time < 40; ++time) {
        FlatTappetLaw law;
        if (time > 0) {
            law = {0.1 + 0.2 * share(random), 0.3 + 0.3 * share(random), 0.1 + 0.9 * share(random)};
        }
        const double turns[] = {0.0, law.push, 1.0 - law.nose,
                                1.0 - law.nose * (1.0 - law.rounding)};
        EXPECT_EQ(law.at(0.0).lift, 0.0);
        EXPECT_NEAR(law.at(1.0).lift, 1.0, 1e-14);
        EXPECT_NEAR(law.at(1.0).velocity, 0.0, 1e-13);
        for (double u = 0.0041; u < 1.0; u += 0.0137) {
            if (std::none_of(std::begin(turns), std::end(turns),
                             [&](double turn) { return std::abs(u - turn) < 1e-4; })) {
                expect_derivatives([&](double at) { return law.at(at); }, u);
            }
        }
        for (const double turn : turns) {
            EXPECT_NEAR(law.at(turn + 1e-10).acceleration, law.at(turn - 1e-10).acceleration, 1e-6);
            EXPECT_NEAR(law.at(turn + 1e-10).lift, law.at(turn - 1e-10).lift, 1e-9);
        }
        // The steady velocity is the greatest, and holds from the push to the nose.
        EXPECT_NEAR(law.at((law.push + 1.0 - law.nose) / 2.0).velocity, law.peak_velocity(), 1e-12);
        for (double u = 0.0; u <= 1.0; u += 0.001) {
            EXPECT_LE(law.at(u).velocity, law.peak_velocity() + 1e-12);
            EXPECT_GE(law.at(u).velocity, -1e-12);
        }
    }
    EXPECT_EQ(FlatTappetLaw{}.at(std::nan("")).lift, 0.0);
    EXPECT_EQ(FlatTappetLaw{}.at(1.5).lift, 1.0);
}

/// A demo cam: which set-up and lobe, and the law's lift and flanks.
struct DemoCam {
    const char* set_up;
    const char* lobe;
    double lift_in;
    double rise_cam_deg;
    double fall_cam_deg;
};
constexpr DemoCam demo_cams[] = {
    {"v8-port-tubes", "intake", 0.380, 80.0, 80.0}, {"v8-port-tubes", "exhaust", 0.372, 81.0, 84.0},
    {"inline-six", "intake", 0.318, 76.0, 76.0},    {"inline-six", "exhaust", 0.318, 76.0, 76.0},
    {"flat-four", "intake", 0.300, 74.0, 74.0},     {"flat-four", "exhaust", 0.300, 74.0, 74.0},
};

// The demo's cams are this law. Tolerance: rounding to 0.0001 in, half a step, and a tenth of a
// step that the tables' own integration was off by.
TEST(FlatTappetLaw, TheDemoCamsAreMadeByIt) {
    for (const DemoCam& cam : demo_cams) {
        SCOPED_TRACE(std::string(cam.set_up) + " " + cam.lobe);
        const SetUpFields fields = demo_fields(cam.set_up);
        const TypedValue& value = fields.at(std::string("lobes/") + cam.lobe + "/lift_table");
        const auto table = lift_table_from_text(value.text, value.unit);
        ASSERT_TRUE(table.ok());
        ASSERT_GT(table->rows.size(), 150u);
        for (const LiftRow& row : table->rows) {
            const double flank = row.cam_deg < 0.0 ? cam.rise_cam_deg : cam.fall_cam_deg;
            const double law = FlatTappetLaw{}.at(1.0 - std::abs(row.cam_deg) / flank).lift;
            EXPECT_NEAR(Length::mm(row.lift_mm).in_inches(), cam.lift_in * law, 0.6e-4)
                << "at " << row.cam_deg;
        }
    }
}

// Lifters of 0.842 in follow up to 0.0073478 in a cam degree (FF-4 of a handbook's geometry); the
// base circles are 0.560 in.
TEST(FlatTappetLaw, TheDemoCamsSuitAFlatTappet) {
    for (const DemoCam& cam : demo_cams) {
        const double flank = std::min(cam.rise_cam_deg, cam.fall_cam_deg);
        EXPECT_LT(cam.lift_in * FlatTappetLaw{}.peak_velocity() / flank, 0.0073478);
        for (double u = 0.0; u <= 1.0; u += 0.001) {
            const LawMotion motion = FlatTappetLaw{}.at(u);
            EXPECT_GT(0.560 + cam.lift_in * (motion.lift + motion.acceleration /
                                                               (radians(flank) * radians(flank))),
                      0.1);
        }
    }
}

} // namespace
} // namespace rodway
