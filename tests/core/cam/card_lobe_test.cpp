#include "core/cam/card_lobe.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "core/cam/lobe.h"
#include "core/units/length.h"
#include "tests/core/demo_set_ups.h"

namespace rodway {
namespace {

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

constexpr double card_lifts_in[] = {0.006, 0.020, 0.050, 0.100, 0.200};

/// One hill: from the nose down both flanks the lift never rises.
void expect_one_hill(const Lobe& lobe) {
    for (double angle = 0.0; angle < 175.0; angle += 0.25) {
        const double lift = lobe.lift_mm(CamAngle::deg(angle));
        ASSERT_LE(lobe.lift_mm(CamAngle::deg(angle + 0.25)), lift + 1e-6) << angle;
        ASSERT_NEAR(lift, lobe.lift_mm(CamAngle::deg(-angle)), 1e-6) << angle;
    }
}

// Several hundred cards that some lobe has: two to five durations, exact or rounded to whole or
// half degrees as cards are. Lobes of the laws, .300 to .430 in, for rollers and flat tappets.
TEST(CardLobe, HitsEveryCardThatALobeHas) {
    const std::uint64_t seed = 20260;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    constexpr MotionLaw laws[] = {MotionLaw::cycloidal, MotionLaw::polynomial_345,
                                  MotionLaw::polynomial_4567, MotionLaw::modified_sine,
                                  MotionLaw::modified_trapezoid};
    constexpr int cards = 400;
    double worst_deg = 0.0;
    double sum_mm = 0.0;
    for (int card = 0; card < cards; ++card) {
        const int law = card % 6;
        const double peak = Length::inches(0.300 + 0.130 * share(random)).in_mm();
        const CamAngle flank = CamAngle::deg(56.0 + 30.0 * share(random));
        const FlatTappetLaw flat{0.16 + 0.10 * share(random), 0.42 + 0.14 * share(random),
                                 0.20 + 0.50 * share(random)};
        const auto original = law < 5 ? Lobe::from_law(laws[law], peak, flank, flank)
                                      : Lobe::from_law(flat, peak, flank);
        ASSERT_TRUE(original.ok());
        std::vector<double> lifts(std::begin(card_lifts_in), std::end(card_lifts_in));
        std::shuffle(lifts.begin(), lifts.end(), random);
        lifts.resize(static_cast<std::size_t>(2 + card / 6 % 4));
        const double rounding = card % 3 / 2.0;
        std::vector<CardDuration> durations;
        for (const double lift_in : lifts) {
            const double lift = Length::inches(lift_in).in_mm();
            double crank_deg = duration_deg(*original, lift);
            if (rounding > 0.0) {
                crank_deg = std::round(crank_deg / rounding) * rounding;
            }
            durations.push_back({lift, crank_deg});
        }
        const auto lobe = Lobe::from_card(peak, durations);
        ASSERT_TRUE(lobe.ok()) << "card " << card;
        EXPECT_TRUE(lobe->estimated());
        EXPECT_NEAR(lobe->full_lift_mm(), peak, 1e-6);
        for (const CardDuration& duration : durations) {
            const double miss =
                std::abs(duration_deg(*lobe, duration.lobe_lift_mm) - duration.crank_deg);
            EXPECT_LT(miss, 0.05) << "card " << card; // what is promised
            worst_deg = std::max(worst_deg, miss);
        }
        expect_one_hill(*lobe);
        double worst_mm = 0.0;
        for (double angle = 0.0; angle < 90.0; angle += 0.5) {
            worst_mm = std::max(worst_mm, std::abs(lobe->lift_mm(CamAngle::deg(angle)) -
                                                   original->lift_mm(CamAngle::deg(angle))));
        }
        sum_mm += worst_mm;
    }
    const double mean_in = Length::mm(sum_mm / cards).in_inches();
    std::cout << cards << " cards: worst duration " << worst_deg
              << " crank deg, worst lift between them " << mean_in << " in on average\n";
    // Least jerk alone, with no law as a body, misses by 0.011 in on average (measured by this
    // project on the same cards).
    EXPECT_LT(mean_in, 0.008);
}

// The demo's own cams, the exhaust's flanks 3° apart: what a card says of them.
TEST(CardLobe, HitsTheDemoCamsCards) {
    for (const char* name : demo_names) {
        const Engine engine = demo_engine(name);
        for (const Lobe* original : {&engine.intake.lobe, &engine.exhaust.lobe}) {
            std::vector<CardDuration> durations;
            for (const double lift_in : card_lifts_in) {
                const double lift = Length::inches(lift_in).in_mm();
                durations.push_back({lift, std::round(duration_deg(*original, lift))});
            }
            const auto lobe = Lobe::from_card(original->full_lift_mm(), durations);
            ASSERT_TRUE(lobe.ok()) << name;
            for (const CardDuration& duration : durations) {
                EXPECT_NEAR(duration_deg(*lobe, duration.lobe_lift_mm), duration.crank_deg, 0.05);
            }
            expect_one_hill(*lobe);
        }
    }
}

// Cards whose numbers a smooth law would hardly have are still hit: invented ones.
TEST(CardLobe, HitsOddCardsThatOneHillCanHave) {
    const std::vector<std::pair<double, double>> cards[] = {
        {{0.006, 280.0}, {0.020, 268.0}, {0.050, 236.0}},
        {{0.006, 280.0}, {0.020, 268.0}, {0.050, 236.0}, {0.100, 214.0}},
        {{0.006, 280.0}, {0.020, 256.0}, {0.050, 230.0}, {0.200, 144.0}},
        {{0.004, 310.0}, {0.050, 220.0}}, // a long ramp
    };
    for (const auto& card : cards) {
        for (const double peak_in : {0.320, 0.370, 0.420}) {
            std::vector<CardDuration> durations;
            for (const auto& [lift_in, crank_deg] : card) {
                durations.push_back({Length::inches(lift_in).in_mm(), crank_deg});
            }
            const auto lobe = Lobe::from_card(Length::inches(peak_in).in_mm(), durations);
            ASSERT_TRUE(lobe.ok()) << card.front().second << " peak " << peak_in;
            for (const CardDuration& duration : durations) {
                EXPECT_NEAR(duration_deg(*lobe, duration.lobe_lift_mm), duration.crank_deg, 0.05);
            }
            expect_one_hill(*lobe);
        }
    }
}

// Cards read wrong by up to eight degrees a duration: what no law has, one hill often still can.
// Such a card is hit exactly or refused, and most are hit; those whose flank would turn back if it
// were only bent (some three in ten) have it held.
TEST(CardLobe, HitsOrRefusesCardsReadWrongByDegrees) {
    const std::uint64_t seed = 606;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    int made = 0;
    constexpr int cards = 100;
    for (int card = 0; card < cards; ++card) {
        const double peak = Length::inches(0.300 + 0.130 * share(random)).in_mm();
        const CamAngle flank = CamAngle::deg(58.0 + 25.0 * share(random));
        const auto original = Lobe::from_law(
            all_motion_laws[static_cast<std::size_t>(2 + card % 5)], peak, flank, flank);
        std::vector<CardDuration> durations;
        for (const double lift_in : card_lifts_in) {
            const double lift = Length::inches(lift_in).in_mm();
            const double read = duration_deg(*original, lift) + 8.0 * (2.0 * share(random) - 1.0);
            durations.push_back({lift, read});
        }
        const auto lobe = Lobe::from_card(peak, durations);
        if (!lobe.ok()) {
            EXPECT_TRUE(lobe.error().code == ErrorCode::not_a_lobe ||
                        lobe.error().code == ErrorCode::order_wrong);
            continue;
        }
        ++made;
        for (const CardDuration& duration : durations) {
            EXPECT_NEAR(duration_deg(*lobe, duration.lobe_lift_mm), duration.crank_deg, 0.05);
        }
        expect_one_hill(*lobe);
    }
    std::cout << made << " of " << cards << " cards made\n";
    EXPECT_GE(made, 85); // 70 if none is held (measured)
}

TEST(CardLobe, ACurveIsSymmetricAboutItsPeak) {
    const auto curve = card_curve(9.0, {{0.5, 270.0}, {1.27, 228.0}});
    ASSERT_TRUE(curve.ok());
    EXPECT_NEAR(curve->first(), -curve->last(), 1e-9);
    EXPECT_NEAR(curve->at(0.0)[0], 9.0, 1e-9);
    EXPECT_NEAR(curve->at(0.0)[1], 0.0, 1e-9);
}

} // namespace
} // namespace rodway
