#include "core/valvetrain/pushrod_length.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>

#include "core/units/length.h"

namespace rodway {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

double inches(double value) {
    return Length::inches(value).in_mm();
}
double in(double mm) {
    return Length::mm(mm).in_inches();
}

RodEnd ball(double diameter_in) {
    return {RodEndKind::ball, inches(diameter_in), {}};
}
RodEnd cup(double ball_diameter_in, double depth_in) {
    return {RodEndKind::cup, inches(ball_diameter_in), inches(depth_in)};
}

constexpr LengthMeasure centres{LengthDefinition::between_centres, {}};
constexpr LengthMeasure overall{LengthDefinition::overall, {}};
constexpr LengthMeasure effective{LengthDefinition::effective, {}};
LengthMeasure gauge(double hole_in) {
    return {LengthDefinition::gauge, inches(hole_in)};
}

double converted_in(double length_in, const RodEnds& ends, const LengthMeasure& from,
                    const LengthMeasure& to) {
    const auto converted = convert_length_mm(inches(length_in), ends, from, to);
    EXPECT_TRUE(converted.ok());
    return in(*converted);
}

// Worked by hand; 1e-9 in is the rounding of mm and back.
TEST(PushrodLength, BallsOfFiveSixteenths) {
    const RodEnds ends{ball(5.0 / 16.0), ball(5.0 / 16.0)};
    // The gauge's hole of .140 touches the ball √(.15625² - .07²) = .1396927 beyond its centre.
    const double chord = std::sqrt(5.0 / 32.0 * 5.0 / 32.0 - 0.07 * 0.07);
    EXPECT_NEAR(chord, 0.1396927, 5e-8);
    EXPECT_NEAR(converted_in(7.5, ends, centres, gauge(0.140)), 7.5 + 2.0 * chord, 1e-9);
    EXPECT_NEAR(converted_in(7.5, ends, centres, overall), 7.8125, 1e-9);
    EXPECT_NEAR(converted_in(7.8125, ends, overall, gauge(0.140)), 7.7793855, 5e-8);
    EXPECT_NEAR(converted_in(7.5, ends, centres, effective), 7.8125, 1e-9);
}

// A 5/16 ball below and a cup for a 3/8 ball above, .150 deep: its bottom lies .1875 below the
// ball's centre, its lip .150 above that.
TEST(PushrodLength, ACupEndsAtItsLipOrItsBottom) {
    const RodEnds ends{ball(5.0 / 16.0), cup(3.0 / 8.0, 0.150)};
    EXPECT_NEAR(converted_in(8.0, ends, centres, effective), 8.0 + 0.15625 - 0.1875, 1e-9);
    EXPECT_NEAR(converted_in(8.0, ends, centres, overall), 8.0 + 0.15625 - 0.0375, 1e-9);
    // Overall less the cup's depth is effective, whatever the balls.
    EXPECT_NEAR(converted_in(8.0, ends, overall, effective), 8.0 - 0.150, 1e-9);
    // A deep cup's lip stands beyond the centre.
    EXPECT_NEAR(converted_in(8.0, {ball(5.0 / 16.0), cup(3.0 / 8.0, 0.25)}, centres, overall),
                8.0 + 0.15625 + 0.0625, 1e-9);
}

TEST(PushrodLength, UpsideDownItIsAsLong) {
    const RodEnds ends{ball(5.0 / 16.0), cup(3.0 / 8.0, 0.150)};
    const RodEnds turned{ends.upper, ends.lower};
    for (const LengthMeasure& measure : {overall, effective, centres}) {
        EXPECT_EQ(*beyond_centres_mm(ends, measure), *beyond_centres_mm(turned, measure));
    }
}

TEST(PushrodLength, EveryConversionComesBack) {
    const std::uint64_t seed = 5;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (int time = 0; time < 1000; ++time) {
        const auto end = [&](bool cup_end) {
            const double diameter = between(5.0, 12.0);
            return RodEnd{cup_end ? RodEndKind::cup : RodEndKind::ball, diameter,
                          cup_end ? std::optional(between(0.2, 1.0) * diameter) : std::nullopt};
        };
        const bool cups = time % 2 == 1;
        const RodEnds ends{end(cups && time % 4 == 3), end(cups)};
        std::vector<LengthMeasure> measures{centres, overall, effective};
        if (!cups) {
            measures.push_back({LengthDefinition::gauge, between(1.0, 4.9)});
        }
        const double length = between(100.0, 300.0);
        for (const LengthMeasure& from : measures) {
            for (const LengthMeasure& to : measures) {
                const auto there = convert_length_mm(length, ends, from, to);
                ASSERT_TRUE(there.ok());
                const auto back = convert_length_mm(*there, ends, to, from);
                ASSERT_TRUE(back.ok());
                EXPECT_NEAR(*back, length, 1e-12 * length); // rounding
                // By way of a third it is the same.
                const auto middle = convert_length_mm(length, ends, from, overall);
                EXPECT_NEAR(*convert_length_mm(*middle, ends, overall, to), *there, 1e-11);
            }
        }
        if (!cups) {
            // Centres < gauge plane < tip, and a smaller hole seats nearer to the tip.
            const double wide = *beyond_centres_mm(ends, {LengthDefinition::gauge, 4.0});
            const double narrow = *beyond_centres_mm(ends, {LengthDefinition::gauge, 2.0});
            EXPECT_TRUE(0.0 < wide && wide < narrow && narrow < *beyond_centres_mm(ends, overall));
        }
    }
}

TEST(PushrodLength, RefusesEndsAndGaugesThatDoNotGoTogether) {
    const RodEnds balls{ball(5.0 / 16.0), ball(3.0 / 8.0)};
    struct Case {
        RodEnds ends;
        LengthMeasure measure;
        ErrorCode code;
        const char* field;
    };
    RodEnds no_depth{balls.lower, cup(3.0 / 8.0, 0.15)};
    no_depth.upper.cup_depth_mm.reset();
    const Case cases[] = {
        {balls, gauge(5.0 / 16.0), ErrorCode::out_of_range, "gauge_hole"}, // it would pass through
        {balls, gauge(0.33), ErrorCode::out_of_range, "gauge_hole"},
        {balls, gauge(0.0), ErrorCode::out_of_range, "gauge_hole"},
        {balls, gauge(nan), ErrorCode::out_of_range, "gauge_hole"},
        {balls, {LengthDefinition::gauge, {}}, ErrorCode::missing_field, "gauge_hole"},
        {{balls.lower, cup(0.375, 0.15)}, gauge(0.14), ErrorCode::not_a_choice, "upper/kind"},
        {no_depth, overall, ErrorCode::missing_field, "upper/cup_depth"},
        {{balls.lower, cup(0.375, 0.4)}, overall, ErrorCode::out_of_range, "upper/cup_depth"},
        {{cup(0.375, 0.0), balls.upper}, overall, ErrorCode::out_of_range, "lower/cup_depth"},
        {{ball(0.0), balls.upper}, centres, ErrorCode::out_of_range, "lower/ball_diameter"},
        {{balls.lower, ball(nan)}, overall, ErrorCode::out_of_range, "upper/ball_diameter"},
        {{balls.lower, ball(infinity)}, overall, ErrorCode::out_of_range, "upper/ball_diameter"},
    };
    for (const Case& known : cases) {
        const auto refused = beyond_centres_mm(known.ends, known.measure);
        ASSERT_FALSE(refused.ok()) << known.field;
        EXPECT_EQ(refused.error().code, known.code) << known.field;
        EXPECT_EQ(refused.error().field, known.field);
        EXPECT_FALSE(convert_length_mm(200.0, known.ends, overall, known.measure).ok());
    }
    EXPECT_TRUE(beyond_centres_mm(no_depth, effective).ok()); // its depth isn't asked for
    for (const double length : {nan, infinity, -1.0, 0.0, 5.0, 1001.0}) {
        const auto refused = convert_length_mm(length, balls, overall, centres);
        ASSERT_FALSE(refused.ok()) << length;
        EXPECT_EQ(refused.error().field, "length");
    }
}

TEST(SteppedLength, GivesBothNeighboursAndTheErrorLeft) {
    const auto stepped = round_to_step(inches(7.832), inches(0.050));
    ASSERT_TRUE(stepped.ok());
    EXPECT_NEAR(in(stepped->down_mm), 7.800, 1e-9);
    EXPECT_NEAR(in(stepped->up_mm), 7.850, 1e-9);
    EXPECT_NEAR(in(stepped->nearest_mm), 7.850, 1e-9);
    EXPECT_NEAR(in(stepped->left_mm), 0.018, 1e-9);
    const auto lower = round_to_step(inches(7.818), inches(0.050));
    EXPECT_NEAR(in(lower->nearest_mm), 7.800, 1e-9);
    EXPECT_NEAR(in(lower->left_mm), -0.018, 1e-9);
    EXPECT_NEAR(in(round_to_step(inches(7.825), inches(0.050))->nearest_mm), 7.850, 1e-9);
}

TEST(SteppedLength, AStockedLengthIsItsOwnNeighbourWhateverRoundingInchesMakes) {
    for (int steps = 1; steps < 300; ++steps) {
        const double length_mm = inches(steps * 0.050);
        const auto stepped = round_to_step(length_mm, inches(0.050));
        ASSERT_TRUE(stepped.ok());
        EXPECT_NEAR(stepped->down_mm, length_mm, 1e-9) << steps;
        EXPECT_NEAR(stepped->up_mm, length_mm, 1e-9) << steps;
        EXPECT_NEAR(stepped->left_mm, 0.0, 1e-9) << steps;
    }
    for (const auto& [length, step] :
         {std::pair{nan, 1.27}, std::pair{-1.0, 1.27}, std::pair{200.0, 0.0}, std::pair{200.0, nan},
          std::pair{infinity, 1.27}, std::pair{200.0, infinity}}) {
        EXPECT_FALSE(round_to_step(length, step).ok()) << length << ' ' << step;
    }
}

ValvePosition valve(int number) {
    return {(number + 1) / 2, number % 2 == 1 ? ValveKind::intake : ValveKind::exhaust, 1};
}

LengthSurvey survey_of(const std::vector<RequiredLength>& required,
                       const std::optional<Stock>& stock = {}) {
    const auto survey = survey_lengths(required, stock);
    EXPECT_TRUE(survey.ok());
    return *survey;
}

TEST(LengthSurvey, OneLengthThatSuitsAll) {
    // Wanted 200.0, 200.4 and 200.1; each may do with 0.5 shorter and 0.3 longer.
    const std::vector<RequiredLength> required{
        {valve(1), 200.0, 0.5, 0.3}, {valve(2), 200.4, 0.5, 0.3}, {valve(3), 200.1, 0.5, 0.3}};
    const LengthSurvey survey = survey_of(required);
    EXPECT_EQ(survey.shortest_mm, 200.0);
    EXPECT_EQ(survey.longest_mm, 200.4);
    EXPECT_NEAR(survey.spread_mm, 0.4, 1e-12);
    EXPECT_TRUE(survey.one_length_suits_all);
    EXPECT_NEAR(survey.best_single.centres_mm, 200.2, 1e-12);
    ASSERT_EQ(survey.best_single.valves.size(), 3u);
    // Valve 2 does with 199.9 to 200.7: from 200.2, 0.3 shorter and 0.5 longer.
    EXPECT_NEAR(survey.best_single.valves[1].shorter_left_mm, 0.3, 1e-9);
    EXPECT_NEAR(survey.best_single.valves[1].longer_left_mm, 0.5, 1e-9);
    EXPECT_NEAR(survey.best_single.valves[0].longer_left_mm, 0.1, 1e-9);
    EXPECT_EQ(survey.lengths_mm.size(), 1u);
    EXPECT_FALSE(survey.stocked_single.has_value());
}

TEST(LengthSurvey, TheMiddleGivesWayToWhatAllCanDoWith) {
    // Middle of what is wanted 202; but the first can take nothing above 200.5.
    const LengthSurvey survey =
        survey_of({{valve(1), 200.0, 1.0, 0.5}, {valve(2), 204.0, 4.0, 0.5}});
    EXPECT_TRUE(survey.one_length_suits_all);
    EXPECT_EQ(survey.best_single.centres_mm, 200.5);
}

TEST(LengthSurvey, WhereNoneSuitsAllTheBestSingleShowsWhoIsLeftOut) {
    const LengthSurvey survey =
        survey_of({{valve(1), 200.0, 0.2, 0.2}, {valve(2), 202.0, 0.2, 0.2}});
    EXPECT_FALSE(survey.one_length_suits_all);
    EXPECT_EQ(survey.best_single.centres_mm, 201.0);
    EXPECT_NEAR(survey.best_single.valves[0].longer_left_mm, -0.8, 1e-9);
    EXPECT_NEAR(survey.best_single.valves[1].shorter_left_mm, -0.8, 1e-9);
    EXPECT_EQ(survey.lengths_mm, (std::vector{200.0, 202.0}));
    EXPECT_EQ(survey.valves[1].centres_mm, 202.0);
}

TEST(LengthSurvey, StockIsCountedInItsOwnDefinition) {
    // Stocked overall in steps of .050, overall .3125 more than between centres. Wanted 7.480
    // between centres, so 7.7925 overall: 7.800 is the one, 7.4875 between centres.
    const Stock stock{inches(0.050), inches(0.3125)};
    const LengthSurvey survey =
        survey_of({{valve(1), inches(7.480), inches(0.020), inches(0.020)}}, stock);
    ASSERT_TRUE(survey.stocked_single.has_value());
    EXPECT_NEAR(in(survey.stocked_single->centres_mm), 7.4875, 1e-9);
    EXPECT_NEAR(in(survey.stocked_single->valves[0].longer_left_mm), 0.0125, 1e-9);
    EXPECT_NEAR(in(survey.stocked_single->valves[0].shorter_left_mm), 0.0275, 1e-9);
}

TEST(LengthSurvey, OfSeveralStockedLengthsTheNearestToTheMiddleIsTaken) {
    // Wanted 7.480 between centres, give or take .150: stocked are 7.3375, 7.3875, … 7.5875.
    const Stock stock{inches(0.050), inches(0.3125)};
    const LengthSurvey survey =
        survey_of({{valve(1), inches(7.480), inches(0.150), inches(0.150)}}, stock);
    ASSERT_TRUE(survey.stocked_single.has_value());
    EXPECT_NEAR(in(survey.stocked_single->centres_mm), 7.4875, 1e-9);
    ASSERT_EQ(survey.lengths_mm.size(), 1u);
    EXPECT_NEAR(in(survey.lengths_mm.front()), 7.4875, 1e-9);
}

TEST(LengthSurvey, AValveBetweenTwoStockedLengthsIsNamed) {
    const Stock stock{1.0, 0.0};
    const LengthSurvey survey =
        survey_of({{valve(1), 200.5, 0.2, 0.2}, {valve(2), 201.0, 0.2, 0.2}}, stock);
    EXPECT_EQ(survey.no_stocked_length, (std::vector{valve(1)}));
    EXPECT_FALSE(survey.stocked_single.has_value());
    EXPECT_EQ(survey.lengths_mm, (std::vector{201.0}));
    ASSERT_EQ(survey.valves.size(), 1u);
    EXPECT_EQ(survey.valves[0].valve, valve(2));
}

TEST(LengthSurvey, RefusesWhatIsNoLength) {
    const auto field = [](const RequiredLength& wrong, const std::optional<Stock>& stock = {}) {
        const auto refused = survey_lengths({wrong}, stock);
        EXPECT_FALSE(refused.ok());
        return refused.ok() ? std::string() : refused.error().field;
    };
    const RequiredLength good{valve(1), 200.0, 0.5, 0.5};
    EXPECT_EQ(field({valve(1), nan, 0.5, 0.5}), "centres");
    EXPECT_EQ(field({valve(1), 0.0, 0.5, 0.5}), "centres");
    EXPECT_EQ(field({valve(1), 200.0, -0.1, 0.5}), "may_be_shorter");
    EXPECT_EQ(field({valve(1), 200.0, 0.1, infinity}), "may_be_longer");
    EXPECT_EQ(field(good, Stock{0.0, 0.0}), "step");
    EXPECT_EQ(field(good, Stock{nan, 0.0}), "step");
    EXPECT_EQ(field(good, Stock{1.27, infinity}), "beyond_centres");
    EXPECT_EQ(survey_lengths({}).error().code, ErrorCode::too_few_rows);
    EXPECT_EQ(survey_lengths({good, good}).error().code, ErrorCode::duplicate_field);
}

/// Fewest of whole lengths from `low` to `high` with which every valve that can be served is: every
/// subset tried. The slow twin of the greedy choice.
std::size_t fewest_by_trying_all(const std::vector<RequiredLength>& required, int low, int high) {
    const auto serves = [](const RequiredLength& valve, int length) {
        return length >= valve.centres_mm - valve.may_be_shorter_mm - 1e-9 &&
               length <= valve.centres_mm + valve.may_be_longer_mm + 1e-9;
    };
    const int lengths = high - low + 1;
    std::size_t fewest = 1000;
    for (unsigned set = 0; set < (1u << lengths); ++set) {
        bool all = true;
        for (const RequiredLength& valve : required) {
            bool can = false;
            bool served = false;
            for (int at = 0; at < lengths; ++at) {
                can = can || serves(valve, low + at);
                served = served || ((set >> at & 1u) != 0 && serves(valve, low + at));
            }
            all = all && (served || !can);
        }
        if (all) {
            fewest = std::min(fewest, static_cast<std::size_t>(__builtin_popcount(set)));
        }
    }
    return fewest;
}

TEST(LengthSurvey, NoSmallerSetOfStockedLengthsDoes) {
    const std::uint64_t seed = 6;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    std::size_t seen[6] = {};
    for (int time = 0; time < 500; ++time) {
        const int valves = std::uniform_int_distribution<int>(1, 9)(random);
        std::vector<RequiredLength> required;
        for (int at = 1; at <= valves; ++at) {
            required.push_back(
                {valve(at), between(202.0, 208.0), between(0.0, 1.6), between(0.0, 1.6)});
        }
        const LengthSurvey survey = survey_of(required, Stock{1.0, 0.0});
        EXPECT_EQ(survey.lengths_mm.size(), fewest_by_trying_all(required, 200, 210))
            << "time " << time;
        ++seen[std::min<std::size_t>(5, survey.lengths_mm.size())];
        EXPECT_EQ(survey.valves.size() + survey.no_stocked_length.size(), required.size());
        EXPECT_TRUE(std::is_sorted(survey.lengths_mm.begin(), survey.lengths_mm.end()));
        for (const double length : survey.lengths_mm) {
            EXPECT_NEAR(length, std::round(length), 1e-9);
        }
        for (const FittedLength& fit : survey.valves) {
            EXPECT_GE(fit.shorter_left_mm, -1e-9); // rounding
            EXPECT_GE(fit.longer_left_mm, -1e-9);
            EXPECT_NE(std::find(survey.lengths_mm.begin(), survey.lengths_mm.end(), fit.centres_mm),
                      survey.lengths_mm.end());
        }
        EXPECT_TRUE(!survey.stocked_single || survey.lengths_mm.size() == 1);
    }
    EXPECT_TRUE(seen[1] > 20 && seen[2] > 20 && seen[3] > 20);
}

TEST(LengthSurvey, WithoutStockTheFewestAreNoMoreThanWithIt) {
    const std::uint64_t seed = 61;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    for (int time = 0; time < 300; ++time) {
        std::vector<RequiredLength> required;
        std::vector<double> tops;
        for (int at = 1; at <= 8; ++at) {
            required.push_back(
                {valve(at), between(202.0, 208.0), between(0.0, 1.6), between(0.0, 1.6)});
            tops.push_back(required.back().centres_mm + required.back().may_be_longer_mm);
        }
        const LengthSurvey survey = survey_of(required);
        EXPECT_EQ(survey.valves.size(), 8u);
        // A smallest set may always be moved up to upper limits of valves: try all sets of those.
        std::size_t fewest = 100;
        for (unsigned set = 1; set < 256u; ++set) {
            bool all = true;
            for (const RequiredLength& one : required) {
                bool served = false;
                for (std::size_t at = 0; at < 8; ++at) {
                    served = served || ((set >> at & 1u) != 0 &&
                                        tops[at] >= one.centres_mm - one.may_be_shorter_mm &&
                                        tops[at] <= one.centres_mm + one.may_be_longer_mm);
                }
                all = all && served;
            }
            if (all) {
                fewest = std::min(fewest, static_cast<std::size_t>(__builtin_popcount(set)));
            }
        }
        EXPECT_EQ(survey.lengths_mm.size(), fewest) << "time " << time;
        EXPECT_EQ(survey.one_length_suits_all, fewest == 1);
        for (const FittedLength& fit : survey.valves) {
            EXPECT_GE(std::min(fit.shorter_left_mm, fit.longer_left_mm), -1e-9); // rounding
        }
    }
}

} // namespace
} // namespace rodway
