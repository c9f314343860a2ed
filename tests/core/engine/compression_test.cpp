#include "core/engine/compression.h"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <limits>
#include <numbers>
#include <random>

#include "tests/core/engine/cylinder_at_top.h"

namespace rodway {
namespace {

constexpr std::uint64_t seed = 20261129;
constexpr double nan_value = std::numeric_limits<double>::quiet_NaN();

Compression made(const CylinderAtTop& cylinder) {
    const auto compression = compression_of(cylinder);
    EXPECT_TRUE(compression.ok()) << (compression.ok() ? "" : compression.error().field);
    return compression.ok() ? *compression : Compression{};
}
WayToRatio way(const CylinderAtTop& cylinder, double ratio, const ChamberLoss& loss = {}) {
    const auto found = way_to_ratio(cylinder, ratio, loss);
    EXPECT_TRUE(found.ok());
    return found.ok() ? *found : WayToRatio{};
}

TEST(Compression, ADomeTakesRoomAwayAndADishGivesIt) {
    CylinderAtTop cylinder = plain_cylinder();
    const double dished_cc = made(cylinder).clearance_cc.value;
    cylinder.dish_cc = {};
    const double flat_cc = made(cylinder).clearance_cc.value;
    cylinder.dome_cc = Bounded::exactly(12.0);
    const double domed_cc = made(cylinder).clearance_cc.value;
    EXPECT_NEAR(dished_cc - flat_cc, 12.0, 1e-10);
    EXPECT_NEAR(flat_cc - domed_cc, 12.0, 1e-10);
    cylinder.crevice_cc = Bounded::exactly(1.5);
    EXPECT_NEAR(made(cylinder).clearance_cc.value - domed_cc, 1.5, 1e-10);
}

TEST(Compression, APistonThatStandsProudHasItsRoomTakenAway) {
    CylinderAtTop cylinder = plain_cylinder();
    const Compression below = made(cylinder);
    cylinder.deck_mm = inches(-0.005);
    const Compression proud = made(cylinder);
    EXPECT_NEAR(proud.deck_cc.value, -below.deck_cc.value, 1e-12);
    EXPECT_GT(proud.ratio.value, below.ratio.value);
    EXPECT_NEAR(proud.quench_mm->value, Length::inches(0.034).in_mm(), 1e-12);
    EXPECT_NEAR(below.quench_mm->value, Length::inches(0.044).in_mm(), 1e-12);
}

TEST(Compression, AGasketsVolumeMayBeStatedInsteadOfItsBore) {
    CylinderAtTop cylinder = plain_cylinder();
    const Compression by_bore = made(cylinder);
    cylinder.gasket.bore_mm.reset();
    cylinder.gasket.volume_cc = by_bore.gasket_cc;
    EXPECT_NEAR(made(cylinder).ratio.value, by_bore.ratio.value, 1e-12);
    EXPECT_TRUE(made(cylinder).quench_mm.has_value());
    cylinder.gasket.compressed_mm.reset();
    EXPECT_NEAR(made(cylinder).ratio.value, by_bore.ratio.value, 1e-12);
    EXPECT_FALSE(made(cylinder).quench_mm.has_value()); // not known, and never 0
    EXPECT_FALSE(way(cylinder, 10.5).gasket_mm.has_value());
    EXPECT_FALSE(way(cylinder, 10.5).quench_by_deck_mm.has_value());
}

TEST(Compression, AGasketThatStandsIntoTheCylinderIsToldOnlyIfItIsCertain) {
    CylinderAtTop cylinder = plain_cylinder();
    EXPECT_FALSE(made(cylinder).gasket_overhangs);
    cylinder.gasket.bore_mm = inches(4.029);
    EXPECT_TRUE(made(cylinder).gasket_overhangs);
    cylinder.gasket.bore_mm->high = Length::inches(4.031).in_mm();
    EXPECT_FALSE(made(cylinder).gasket_overhangs);
}

// By hand: 800 cc swept over 100 cc is 9:1; ±0.5 cc of chamber alone moves it to 800/100.5 + 1 and
// 800/99.5 + 1.
TEST(Compression, BoundsOfOneDoubtfulNumberAreTheRatiosAtItsEnds) {
    CylinderAtTop cylinder;
    const double bore_mm = 20.0 * std::sqrt(10.0 / std::numbers::pi); // 1000 mm²
    cylinder.size = {Bounded::exactly(bore_mm), Bounded::exactly(800.0)};
    cylinder.chamber_cc = Bounded::between(99.5, 100.5);
    cylinder.gasket.volume_cc = Bounded{};
    const Compression compression = made(cylinder);
    EXPECT_NEAR(compression.ratio.value, 9.0, 1e-12);
    EXPECT_NEAR(compression.ratio.low, 1.0 + 800.0 / 100.5, 1e-12);
    EXPECT_NEAR(compression.ratio.high, 1.0 + 800.0 / 99.5, 1e-12);
    // To 11:1 the room is to be 80 cc: 20 cc, ±0.5, come off.
    const WayToRatio to_eleven = way(cylinder, 11.0);
    EXPECT_NEAR(to_eleven.clearance_cc.value, 80.0, 1e-10);
    EXPECT_NEAR(to_eleven.take_off_cc.low, 19.5, 1e-10);
    EXPECT_NEAR(to_eleven.take_off_cc.high, 20.5, 1e-10);
    EXPECT_NEAR(to_eleven.deck_mm.value, 20.0, 1e-10);
    // What is left of the chamber doesn't depend on what it was.
    EXPECT_NEAR(to_eleven.chamber_left_cc.low, 80.0, 1e-10);
    EXPECT_NEAR(to_eleven.chamber_left_cc.high, 80.0, 1e-10);
}

// A cylinder somewhere within its bounds, by its volumes summed one by one.
double twin_ratio(double bore, double stroke, double chamber, double dome, double dish,
                  double gasket_bore, double gasket, double deck, double crevice) {
    const auto disc_cc = [](double d, double h) {
        return std::numbers::pi * (d / 2.0) * (d / 2.0) * h / 1000.0;
    };
    double over_cc = chamber + dish + crevice;
    over_cc += disc_cc(gasket_bore, gasket);
    over_cc -= dome;
    over_cc += disc_cc(bore, deck);
    return (disc_cc(bore, stroke) + over_cc) / over_cc;
}

TEST(Compression, NoCylinderWithinTheBoundsHasARatioOutsideThem) {
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    int wide = 0;
    for (int round = 0; round < 300; ++round) {
        const auto about = [&](double from, double to, double most) {
            const double low = from + (to - from) * unit(random);
            return Bounded::between(low, low + most * unit(random));
        };
        CylinderAtTop c;
        c.size = {about(80.0, 110.0, 0.5), about(60.0, 110.0, 0.5)};
        c.chamber_cc = about(30.0, 90.0, 2.0);
        c.dome_cc = about(0.0, 35.0, 1.0); // a dome larger than the chamber too
        c.dish_cc = about(0.0, 10.0, 1.0);
        c.gasket.bore_mm = about(90.0, 112.0, 0.5);
        c.gasket.compressed_mm = about(0.5, 2.0, 0.2);
        c.deck_mm = about(-0.5, 6.0, 0.2);
        c.crevice_cc = about(0.0, 2.0, 0.2);
        const auto compression = compression_of(c);
        if (!compression) {
            continue;
        }
        ++wide;
        double least = 1e9;
        double most = 0.0;
        for (int inside = 0; inside < 200; ++inside) {
            const auto in = [&](const Bounded& of) {
                // Ends as often as anything between them.
                const double share = std::clamp(2.0 * unit(random) - 0.5, 0.0, 1.0);
                return of.low + share * (of.high - of.low);
            };
            const double there =
                twin_ratio(in(c.size.bore_mm), in(c.size.stroke_mm), in(c.chamber_cc),
                           in(c.dome_cc), in(c.dish_cc), in(*c.gasket.bore_mm),
                           in(*c.gasket.compressed_mm), in(c.deck_mm), in(c.crevice_cc));
            least = std::min(least, there);
            most = std::max(most, there);
        }
        EXPECT_GE(least, compression->ratio.low - 1e-12);
        EXPECT_LE(most, compression->ratio.high + 1e-12);
        // And no wider than need be: 200 tries of nine come more than half of the way.
        EXPECT_GT(most - least, 0.5 * (compression->ratio.high - compression->ratio.low));
    }
    EXPECT_GT(wide, 200);
}

TEST(Compression, EachWayByItselfBringsTheRatio) {
    const ChamberLoss loss{1.9, {}};
    for (const double ratio : {8.0, 9.5, 10.5, 12.0}) {
        const CylinderAtTop cylinder = plain_cylinder();
        const WayToRatio found = way(cylinder, ratio, loss);
        EXPECT_EQ(found.take_off_cc.value > 0.0, ratio > made(cylinder).ratio.value);

        CylinderAtTop ground = cylinder;
        ground.chamber_cc = found.chamber_left_cc;
        EXPECT_NEAR(made(ground).ratio.value, ratio, 1e-10);

        CylinderAtTop decked = cylinder;
        decked.deck_mm = found.deck_left_mm;
        EXPECT_NEAR(made(decked).ratio.value, ratio, 1e-10);
        EXPECT_NEAR(found.deck_mm.value + found.deck_left_mm.value, cylinder.deck_mm.value, 1e-10);
        EXPECT_NEAR(made(decked).quench_mm->value, found.quench_by_deck_mm->value, 1e-10);

        EXPECT_NEAR(found.head_mm->value * 1.9, found.take_off_cc.value, 1e-10);

        CylinderAtTop other_gasket = cylinder;
        other_gasket.gasket.compressed_mm = found.gasket_left_mm;
        if (found.gasket_left_mm->value < 0.0) {
            EXPECT_EQ(ratio, 12.0); // more than the whole gasket: said, not hidden
            EXPECT_EQ(compression_of(other_gasket).error().field, "gasket_compressed");
            continue;
        }
        EXPECT_NEAR(made(other_gasket).ratio.value, ratio, 1e-10);
        EXPECT_NEAR(made(other_gasket).quench_mm->value, found.quench_by_gasket_mm->value, 1e-10);
    }
}

TEST(Compression, AGasketByItsVolumeGetsThinnerInProportion) {
    CylinderAtTop cylinder = plain_cylinder();
    const WayToRatio by_bore = way(cylinder, 10.5);
    cylinder.gasket.volume_cc = made(cylinder).gasket_cc;
    cylinder.gasket.bore_mm.reset();
    EXPECT_NEAR(way(cylinder, 10.5).gasket_mm->value, by_bore.gasket_mm->value, 1e-12);
    // A volume without any thickness has no area.
    cylinder.gasket.compressed_mm = Bounded{0.5, 0.0, 1.0};
    EXPECT_FALSE(way(cylinder, 10.5).gasket_mm.has_value());
    EXPECT_TRUE(way(cylinder, 10.5).quench_by_deck_mm.has_value());
}

TEST(Compression, EveryCylinderGetsItsOwnWayToOneRatio) {
    std::vector<CylinderAtTop> cylinders(3, plain_cylinder());
    cylinders[1].chamber_cc = Bounded::exactly(62.8);
    cylinders[2].chamber_cc = Bounded::exactly(65.1);
    const auto survey = compression_survey(cylinders);
    ASSERT_TRUE(survey.ok());
    EXPECT_EQ(survey->lowest, 2u);
    EXPECT_EQ(survey->highest, 1u);
    EXPECT_NEAR(survey->spread.value,
                survey->cylinders[1].ratio.value - survey->cylinders[2].ratio.value, 1e-12);
    // All ground out to the lowest: what differs is what the chambers differ by.
    const auto ways = way_to_ratio(cylinders, survey->cylinders[2].ratio.value);
    ASSERT_TRUE(ways.ok());
    EXPECT_NEAR((*ways)[0].take_off_cc.value, -1.1, 1e-9);
    EXPECT_NEAR((*ways)[1].take_off_cc.value, -2.3, 1e-9);
    EXPECT_NEAR((*ways)[2].take_off_cc.value, 0.0, 1e-9);
}

TEST(Compression, SpreadThatDoubtAloneExplainsMayBeNone) {
    std::vector<CylinderAtTop> cylinders(2, plain_cylinder());
    cylinders[0].chamber_cc = Bounded{64.0, 63.0, 65.0};
    cylinders[1].chamber_cc = Bounded{65.0, 64.0, 66.0};
    const auto overlapping = compression_survey(cylinders);
    EXPECT_GT(overlapping->spread.value, 0.0);
    EXPECT_EQ(overlapping->spread.low, 0.0);
    cylinders[1].chamber_cc = Bounded{67.0, 66.0, 68.0};
    const auto apart = compression_survey(cylinders);
    EXPECT_NEAR(apart->spread.low, apart->cylinders[0].ratio.low - apart->cylinders[1].ratio.high,
                1e-12);
    EXPECT_GT(apart->spread.low, 0.0);
    EXPECT_NEAR(apart->spread.high, apart->cylinders[0].ratio.high - apart->cylinders[1].ratio.low,
                1e-12);
    // A lone doubtful cylinder doesn't differ from itself.
    EXPECT_EQ(compression_survey({cylinders[0]})->spread.high, 0.0);
}

TEST(Compression, BoringMillingAndDeckingDoWhatTheySay) {
    const CylinderAtTop cylinder = plain_cylinder();
    CompressionChange change;
    change.bore_over_mm = Length::thou(60.0).in_mm();
    change.head_milled_mm = Length::inches(0.125).in_mm();
    change.block_decked_mm = Length::thou(5.0).in_mm();
    change.loss.area_mm2 = 5000.0; // 5 cc for each mm
    const auto what_if = compression_if(cylinder, change);
    ASSERT_TRUE(what_if.ok());
    EXPECT_NEAR(what_if->cylinder.size.bore_mm.value, 4.090 * 25.4, 1e-10);
    EXPECT_NEAR(what_if->cylinder.chamber_cc.value, 64.0 - 3.175 * 5.0, 1e-10);
    EXPECT_NEAR(what_if->after.deck_cc.value, 0.0, 1e-10);
    const double twin = twin_ratio(4.090 * 25.4, 3.75 * 25.4, 64.0 - 15.875, 0.0, 12.0, 4.1 * 25.4,
                                   0.039 * 25.4, 0.0, 0.0);
    EXPECT_NEAR(what_if->after.ratio.value, twin, 1e-10);
    EXPECT_NEAR(what_if->ratio_gained, twin - made(cylinder).ratio.value, 1e-10);
    change.loss = {5.0, {}};
    EXPECT_NEAR(compression_if(cylinder, change)->after.ratio.value, twin, 1e-10);
    change.gasket = HeadGasket{inches(0.015), inches(4.0), {}};
    const auto thin = compression_if(cylinder, change);
    EXPECT_TRUE(thin->after.gasket_overhangs);
    EXPECT_GT(thin->after.ratio.value, twin);
    // Nothing changed, nothing gained.
    EXPECT_EQ(compression_if(cylinder, {})->ratio_gained, 0.0);
}

std::string field_of(const Result<Compression>& made) {
    return made.ok() ? "good" : made.error().field;
}

TEST(Compression, BadPartsAreErrorsThatNameThem) {
    const auto with = [](auto&& change) {
        CylinderAtTop cylinder = plain_cylinder();
        change(cylinder);
        return field_of(compression_of(cylinder));
    };
    EXPECT_EQ(with([](auto&) {}), "good");
    EXPECT_EQ(with([](auto& c) { c.size.bore_mm = Bounded::exactly(4.03); }), "bore");
    EXPECT_EQ(with([](auto& c) { c.chamber_cc = Bounded::exactly(-64.0); }), "chamber");
    EXPECT_EQ(with([](auto& c) { c.dome_cc = Bounded::exactly(-5.0); }), "dome");
    EXPECT_EQ(with([](auto& c) { c.dish_cc = Bounded::exactly(-5.0); }), "dish");
    EXPECT_EQ(with([](auto& c) { c.deck_mm = Bounded::exactly(nan_value); }), "deck");
    EXPECT_EQ(with([](auto& c) { c.crevice_cc = Bounded{1.0, 2.0, 3.0}; }), "crevice");
    EXPECT_EQ(with([](auto& c) { c.gasket.bore_mm.reset(); }), "gasket_bore");
    EXPECT_EQ(with([](auto& c) { c.gasket.compressed_mm.reset(); }), "gasket_compressed");
    EXPECT_EQ(with([](auto& c) { c.gasket.compressed_mm = inches(-0.01); }), "gasket_compressed");
    EXPECT_EQ(with([](auto& c) { c.gasket.volume_cc = Bounded::exactly(8.0); }), "gasket_bore");
    // No room left at one corner of what was measured.
    EXPECT_EQ(with([](auto& c) { c.dome_cc = Bounded{70.0, 70.0, 86.0}; }), "clearance");
    EXPECT_EQ(with([](auto& c) { c.chamber_cc = Bounded::exactly(9000.0); }), "clearance");
}

TEST(Compression, BadQuestionsAreErrorsThatNameThem) {
    const CylinderAtTop cylinder = plain_cylinder();
    EXPECT_EQ(way_to_ratio(cylinder, 1.0).error().field, "ratio");
    EXPECT_EQ(way_to_ratio(cylinder, 10.0, {0.0, {}}).error().field, "chamber_cc_per_mm");
    EXPECT_EQ(way_to_ratio(cylinder, 10.0, {{}, nan_value}).error().field, "chamber_area");
    EXPECT_EQ(way_to_ratio(cylinder, 10.0, {1.9, 1900.0}).error().field, "chamber_area");
    std::vector<CylinderAtTop> two(2, cylinder);
    two[1].chamber_cc = Bounded::exactly(-1.0);
    EXPECT_EQ(way_to_ratio(two, 10.0).error().line, 2);
    EXPECT_EQ(compression_survey(two).error().line, 2);
    EXPECT_EQ(compression_survey({}).error().code, ErrorCode::too_few_rows);
    const auto field = [&](const CompressionChange& change) {
        return compression_if(cylinder, change).error().field;
    };
    CompressionChange change;
    change.head_milled_mm = 0.5;
    EXPECT_EQ(field(change), "chamber_cc_per_mm"); // never guessed
    change.loss.cc_per_mm = 150.0;                 // more than the chamber holds
    EXPECT_EQ(field(change), "head_milled");
    change = {};
    change.bore_over_mm = -0.5;
    EXPECT_EQ(field(change), "bore_over");
    change = {};
    change.block_decked_mm = 11.0;
    EXPECT_EQ(field(change), "block_decked");
    EXPECT_EQ(compression_ratio(Bounded::exactly(800.0), Bounded{}).error().field, "clearance");
    EXPECT_EQ(compression_ratio(Bounded{}, Bounded::exactly(1.0)).error().field, "swept");
}

} // namespace
} // namespace rodway
