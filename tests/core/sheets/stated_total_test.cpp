#include "core/sheets/stated_total.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace rodway {
namespace {

using Texts = std::vector<std::string>;

StatedTotal total_of(const Texts& parts, const std::string& total,
                     Dimension dimension = Dimension::none, const std::string& unit = "") {
    const auto found = check_total(parts, total, dimension, unit);
    EXPECT_TRUE(found.ok()) << (found.ok() ? "" : found.error().field);
    return found.ok() ? *found : StatedTotal{};
}
StatedTotal mean_of(const Texts& parts, const std::string& mean) {
    const auto found = check_mean(parts, mean, Dimension::none, "");
    EXPECT_TRUE(found.ok()) << (found.ok() ? "" : found.error().field);
    return found.ok() ? *found : StatedTotal{};
}
/// The texts that one part may have been meant as.
Texts meant(const StatedTotal& found, std::optional<std::size_t> part) {
    Texts texts;
    for (const LikelySlip& slip : found.slips) {
        if (slip.part == part) {
            texts.push_back(slip.text);
        }
    }
    return texts;
}
bool has(const Texts& texts, const std::string& text) {
    return std::find(texts.begin(), texts.end(), text) != texts.end();
}

// jniolon.classicpickup.com/compressionratio.html prints 4.036 + .0025 + .030 = 4.3925: they make
// 4.0685. 4.36 was meant for 4.036.
TEST(StatedTotal, AMagazinesSumThatIsNotTheSum) {
    const StatedTotal found =
        total_of({"4.036", ".0025", ".030"}, "4.3925", Dimension::length, "in");
    EXPECT_EQ(found.verdict, TotalVerdict::not_theirs);
    EXPECT_NEAR(found.own / 25.4, 4.0685, 1e-12);
    EXPECT_NEAR(found.stated_more_by / 25.4, 0.324, 1e-12);
    EXPECT_NEAR(found.rounding / 25.4, 0.0005 + 0.00005 + 0.0005 + 0.00005, 1e-12);
    ASSERT_EQ(meant(found, 0), Texts{"4.36"});
    EXPECT_EQ(found.slips.front().kind, SlipKind::digit_too_many);
    EXPECT_NEAR(found.slips.front().value / 25.4, 4.36, 1e-12);
    EXPECT_EQ(total_of({"4.036", ".0025", ".030"}, "4.0685", Dimension::length, "in").verdict,
              TotalVerdict::adds_up);
}

// popularhotrodding.com, 0910em: 542/548/545 printed with a mean of 548.3 (they make 545), and
// 334.2/344.5/334.2 with 334.3 (one mistyped: 334.5 makes it so).
TEST(StatedTotal, TwoMeansOfAContestThatAreNotTheMeans) {
    const StatedTotal one = mean_of({"542", "548", "545"}, "548.3");
    EXPECT_EQ(one.verdict, TotalVerdict::not_theirs);
    EXPECT_NEAR(one.own, 545.0, 1e-12);
    EXPECT_NEAR(one.stated_more_by, 3.3, 1e-12);
    // One digit of any of the three would do: none is proven, the likeliest first.
    EXPECT_TRUE(has(meant(one, 0), "552"));
    EXPECT_TRUE(has(meant(one, 1), "558"));
    EXPECT_TRUE(has(meant(one, 2), "555"));
    EXPECT_EQ(one.slips.front().text, "552"); // leaves 545 to 552
    const StatedTotal other = mean_of({"334.2", "344.5", "334.2"}, "334.3");
    EXPECT_EQ(other.verdict, TotalVerdict::not_theirs);
    ASSERT_FALSE(other.slips.empty());
    EXPECT_EQ(other.slips.front().part, 1u);
    EXPECT_EQ(other.slips.front().text, "334.5");
    EXPECT_EQ(other.slips.front().kind, SlipKind::digit_changed);
    // The same page's means that are true, to their own digits.
    EXPECT_EQ(mean_of({"673", "671", "668"}, "670.7").verdict, TotalVerdict::adds_up);
    EXPECT_EQ(mean_of({"401.5", "404", "402.8"}, "402.8").verdict, TotalVerdict::adds_up);
}

// chevyhiperformance.com 0906chp, balance: piston side at a half, both big ends and bearings, oil.
TEST(StatedTotal, ABobweightThatAddsUp) {
    const StatedTotal found =
        total_of({"994.2", "459.6", "459.6", "47.4", "47.4", "4"}, "2012.2", Dimension::mass, "g");
    EXPECT_EQ(found.verdict, TotalVerdict::adds_up);
    EXPECT_TRUE(found.slips.empty());
    EXPECT_NEAR(found.own, 2012.2, 1e-9);
}

TEST(StatedTotal, RoundedPartsMayMakeMoreThanTheirSum) {
    // Three thirds printed to two digits: 0.99, where the whole was 1.00.
    const StatedTotal thirds = total_of({".33", ".33", ".33"}, "1.00");
    EXPECT_EQ(thirds.verdict, TotalVerdict::rounding_explains);
    EXPECT_TRUE(thirds.slips.empty());
    EXPECT_NEAR(thirds.rounding, 0.02, 1e-12);
    EXPECT_EQ(total_of({".33", ".33", ".33"}, "1.01").verdict, TotalVerdict::rounding_explains);
    EXPECT_EQ(total_of({".33", ".33", ".33"}, "1.02").verdict, TotalVerdict::not_theirs);
    // Trailing zeros are digits: nothing was rounded away here.
    EXPECT_EQ(total_of({".3300", ".3300", ".3300"}, "1.00").verdict, TotalVerdict::not_theirs);
    EXPECT_EQ(total_of({"1.5", "2.5"}, "4").verdict, TotalVerdict::adds_up);
    EXPECT_EQ(total_of({"0.1", "0.2"}, "0.3").verdict, TotalVerdict::adds_up);
}

TEST(StatedTotal, EveryKindOfSlipIsFound) {
    struct Case {
        Texts parts;
        std::string total;
        std::size_t part;
        SlipKind kind;
        std::string text;
    };
    const Case cases[] = {
        {{"64.2", "8.43"}, "74.63", 0, SlipKind::digit_changed, "66.2"},
        {{"64.2", "8.43"}, "54.63", 0, SlipKind::digits_swapped, "46.2"},
        {{"664.2", "8.43"}, "72.63", 0, SlipKind::digit_too_many, "64.2"},
        {{"4.2", "8.43"}, "72.63", 0, SlipKind::digit_missing, "64.2"},
        {{"6.2", "8.43"}, "72.63", 0, SlipKind::digit_missing, "64.2"},
        {{"64.", "8.43"}, "72.63", 1, SlipKind::digit_changed, ""},
        {{"64.2", "84.3"}, "72.63", 1, SlipKind::point_moved, "8.43"},
        {{"64.2", "843"}, "72.63", 1, SlipKind::point_moved, "8.43"},
        {{"64.2", ".843"}, "72.63", 1, SlipKind::point_moved, "8.43"},
        {{"75", "843"}, "83.43", 1, SlipKind::point_moved, "8.43"},
    };
    for (const Case& one : cases) {
        if (one.text.empty()) {
            EXPECT_FALSE(check_total(one.parts, one.total, Dimension::none, "").ok());
            continue;
        }
        const StatedTotal found = total_of(one.parts, one.total);
        EXPECT_EQ(found.verdict, TotalVerdict::not_theirs) << one.text;
        const auto slip =
            std::find_if(found.slips.begin(), found.slips.end(), [&](const LikelySlip& likely) {
                return likely.part == one.part && likely.text == one.text;
            });
        ASSERT_NE(slip, found.slips.end()) << one.parts[0] << ' ' << one.parts[1];
        EXPECT_EQ(slip->kind, one.kind) << one.text;
    }
    // And of the figure itself.
    const StatedTotal figure = total_of({"64.2", "8.43"}, "76.23");
    ASSERT_EQ(meant(figure, std::nullopt), Texts{"72.63"});
    EXPECT_EQ(figure.slips.back().kind, SlipKind::digits_swapped);
}

// Whatever is offered makes the figure right to its own last digit, and differs from what stands.
TEST(StatedTotal, EverySlipOfferedIsTrue) {
    const Texts parts{"12.04", "3.6", "118", "0.75", "7.3"};
    std::size_t offered = 0;
    for (const std::string total : {"141.96", "231.69", "14.17", "150.7", "142", "96.4"}) {
        const StatedTotal found = total_of(parts, total);
        offered += found.slips.size();
        for (const LikelySlip& slip : found.slips) {
            Texts changed = parts;
            std::string stated = total;
            (slip.part ? changed[*slip.part] : stated) = slip.text;
            const StatedTotal again = total_of(changed, stated);
            EXPECT_EQ(again.verdict, TotalVerdict::adds_up) << slip.text;
            EXPECT_FALSE(again.own == found.own && again.stated == found.stated) << slip.text;
        }
    }
    EXPECT_GE(offered, 4u);
}

// 66.2 and 8.4 make 74.6: a digit's slip that comes near isn't offered.
TEST(StatedTotal, ASlipThatOnlyComesNearIsNotOffered) {
    EXPECT_FALSE(has(meant(total_of({"64.2", "8.4"}, "74.7"), 0), "66.2"));
    EXPECT_TRUE(has(meant(total_of({"64.2", "8.4"}, "74.6"), 0), "66.2"));
}

TEST(StatedTotal, AMistakeThatNoSingleSlipMakesHasNone) {
    const StatedTotal found = total_of({"1.11", "2.22"}, "77.77");
    EXPECT_EQ(found.verdict, TotalVerdict::not_theirs);
    EXPECT_TRUE(found.slips.empty());
}

TEST(StatedTotal, UnitsMayDifferAndStay) {
    const StatedTotal found = total_of({"4 in3", "10 cc"}, "72 cc", Dimension::volume, "cc");
    EXPECT_EQ(found.verdict, TotalVerdict::rounding_explains); // 4 in3 to the whole one
    EXPECT_EQ(total_of({"4.000 in3", "10.0 cc"}, "75.5 cc", Dimension::volume, "cc").verdict,
              TotalVerdict::adds_up);
    const StatedTotal wrong =
        total_of({"4.000 in3", "10.0 cc"}, "85.5 cc", Dimension::volume, "cc");
    EXPECT_TRUE(has(meant(wrong, 1), "20.0 cc"));
    EXPECT_TRUE(has(meant(wrong, std::nullopt), "75.5 cc"));
    EXPECT_EQ(total_of({"64,2", "8,4"}, "72,6").verdict, TotalVerdict::adds_up);
    EXPECT_TRUE(has(meant(total_of({"64,2", "8,4"}, "82,6"), 0), "74,2"));
}

TEST(StatedTotal, WhatIsOnlyAboutCannotBeTold) {
    EXPECT_EQ(total_of({"~64", "8"}, "90").verdict, TotalVerdict::cannot_tell);
    EXPECT_EQ(total_of({"64", "8"}, ">90").verdict, TotalVerdict::cannot_tell);
    EXPECT_TRUE(total_of({"~64", "8"}, "90").slips.empty());
    // An interval is known to half its width.
    EXPECT_EQ(total_of({"60-70", "8"}, "77").verdict, TotalVerdict::rounding_explains);
    EXPECT_EQ(total_of({"60-70", "8"}, "80").verdict, TotalVerdict::not_theirs);
}

TEST(StatedTotal, BadTextsAreErrorsThatNameThem) {
    const auto error = [](const Texts& parts, const std::string& total) {
        return check_total(parts, total, Dimension::none, "").error();
    };
    EXPECT_EQ(error({"1", "x"}, "2").field, "parts");
    EXPECT_EQ(error({"1", "x"}, "2").line, 2);
    EXPECT_EQ(error({"1", "2"}, "three").field, "total");
    EXPECT_EQ(check_mean({"1", "2"}, "three", Dimension::none, "").error().field, "mean");
    EXPECT_EQ(error({"1"}, "1").code, ErrorCode::too_few_rows);
    EXPECT_EQ(error(Texts(10001, "1"), "1").code, ErrorCode::out_of_range);
    EXPECT_EQ(error({"1", "1,250"}, "2").code, ErrorCode::not_an_amount); // one, or a thousand
    EXPECT_EQ(error({"1", ""}, "2").code, ErrorCode::empty_text);
}

} // namespace
} // namespace rodway
