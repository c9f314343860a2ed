#include "core/fasteners/tightening_order.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <numbers>
#include <random>

namespace rodway {
namespace {

std::vector<BoltPosition> circle(int bolts) {
    std::vector<BoltPosition> positions;
    for (int at = 0; at < bolts; ++at) {
        const double angle = 2.0 * std::numbers::pi * at / bolts;
        positions.push_back({at + 1, 50.0 * std::cos(angle), 50.0 * std::sin(angle)});
    }
    return positions;
}

/// Two rows of five, numbered along the first row and then the second.
std::vector<BoltPosition> head(double along_mm, double across_mm) {
    std::vector<BoltPosition> positions;
    for (int at = 0; at < 10; ++at) {
        positions.push_back({at + 1, along_mm * (at % 5), across_mm * (at / 5)});
    }
    return positions;
}

// Star patterns of wheels and flanges: common practice, no source.
TEST(TighteningOrder, GoesCrosswiseAroundACircle) {
    EXPECT_EQ(*order_from_centre(circle(4)), (std::vector<int>{1, 3, 2, 4}));
    EXPECT_EQ(*order_from_centre(circle(5)), (std::vector<int>{1, 3, 5, 2, 4}));
    EXPECT_EQ(*order_from_centre(circle(6)), (std::vector<int>{1, 4, 2, 5, 3, 6}));
    EXPECT_EQ(*order_from_centre(circle(8)), (std::vector<int>{1, 5, 3, 7, 2, 6, 4, 8}));
}

TEST(TighteningOrder, GoesFromTheMiddleOutwardsAlongAHead) {
    const auto order = *order_from_centre(head(100.0, 80.0));
    ASSERT_EQ(order.size(), 10u);
    EXPECT_EQ(std::vector<int>(order.begin(), order.begin() + 2), (std::vector<int>{3, 8}));
    std::vector<int> inner(order.begin() + 2, order.begin() + 6);
    std::sort(inner.begin(), inner.end());
    EXPECT_EQ(inner, (std::vector<int>{2, 4, 7, 9}));
    // Across the middle in turn: 2 and 9, 4 and 7, 1 and 10, 5 and 6 lie opposite.
    for (std::size_t at = 0; at < order.size(); at += 2) {
        EXPECT_EQ(order[at] + order[at + 1], 11) << at;
    }
    EXPECT_EQ(*order_from_centre({{1, 0, 0}, {2, 90, 0}, {3, 180, 0}, {4, 270, 0}}),
              (std::vector<int>{2, 3, 1, 4}));
    EXPECT_EQ(*order_from_centre({{1, 0, 0}, {2, 90, 0}, {3, 180, 0}}),
              (std::vector<int>{2, 1, 3}));
    EXPECT_EQ(*order_from_centre({{7, 3, 4}}), (std::vector<int>{7}));
}

// Properties that the rule promises, on layouts that are their own mirror image.
TEST(TighteningOrder, EveryBoltOncePairsOppositeNeverInwards) {
    constexpr std::uint64_t seed = 20261130;
    std::cout << "seed " << seed << '\n';
    std::mt19937_64 random(seed);
    std::uniform_real_distribution<double> place(-200.0, 200.0);
    for (int round = 0; round < 300; ++round) {
        const int pairs = 2 + static_cast<int>(random() % 6);
        const double shift_mm = place(random);
        std::vector<BoltPosition> bolts;
        for (int pair = 0; pair < pairs; ++pair) {
            const double x = 20.0 + std::abs(place(random));
            const double y = place(random);
            bolts.push_back({2 * pair + 1, x + shift_mm, y});
            bolts.push_back({2 * pair + 2, -x + shift_mm, -y});
        }
        std::shuffle(bolts.begin(), bolts.end(), random);
        const auto order = order_from_centre(bolts);
        if (!order) { // two bolts at one place
            continue;
        }
        std::vector<int> sorted = *order;
        std::sort(sorted.begin(), sorted.end());
        ASSERT_EQ(sorted.size(), bolts.size());
        const auto from_middle = [&](int number) {
            const auto& bolt = *std::find_if(bolts.begin(), bolts.end(),
                                             [&](const auto& each) { return each.bolt == number; });
            return std::hypot(bolt.x_mm - shift_mm, bolt.y_mm);
        };
        double greatest_mm = 0.0;
        for (std::size_t at = 0; at < sorted.size(); ++at) {
            ASSERT_EQ(sorted[at], static_cast<int>(at) + 1);
            greatest_mm = std::max(greatest_mm, from_middle(sorted[at]));
        }
        for (std::size_t at = 0; at + 2 < order->size(); at += 2) {
            // Equal distances are those within a twentieth of the greatest.
            EXPECT_LT(from_middle((*order)[at]),
                      from_middle((*order)[at + 2]) + 0.05 * greatest_mm + 1e-9);
            const double apart =
                std::abs(from_middle((*order)[at]) - from_middle((*order)[at + 1]));
            EXPECT_LE(apart, 0.05 * greatest_mm + 1e-9);
        }
    }
}

TEST(TighteningOrder, DrawingsThatCannotBeAreRefused) {
    EXPECT_EQ(order_from_centre({}).error().code, ErrorCode::too_few_rows);
    const auto twice = order_from_centre({{1, 0, 0}, {2, 50, 0}, {1, 90, 0}});
    EXPECT_EQ(twice.error().code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.error().field, "bolt");
    EXPECT_EQ(twice.error().line, 3);
    EXPECT_EQ(order_from_centre({{1, 0, 0}, {2, 0.5, 0}}).error().field, "position");
    EXPECT_EQ(order_from_centre({{0, 0, 0}}).error().field, "bolt");
    EXPECT_EQ(order_from_centre({{1, std::nan(""), 0}}).error().code, ErrorCode::not_a_number);
}

TEST(TighteningOrder, AShopsOwnOrderHasEveryBoltOnce) {
    const std::vector<int> bolts{1, 2, 3, 4, 10};
    for (const char* text : {"3-2-10-1-4", "3 2 10 1 4", "3,2,10,1,4", " 3 - 2 > 10 > 1 , 4"}) {
        const auto order = parse_tightening_order(text, bolts);
        ASSERT_TRUE(order.ok()) << text;
        EXPECT_EQ(*order, (std::vector<int>{3, 2, 10, 1, 4})) << text;
    }
    const auto wrong = [&](const char* text) {
        return parse_tightening_order(text, bolts).error();
    };
    EXPECT_EQ(wrong("3-2-10-1").code, ErrorCode::missing_field);
    EXPECT_EQ(wrong("3-2-10-1").field, "order/4");
    EXPECT_EQ(wrong("3-2-10-1-4-2").code, ErrorCode::duplicate_field);
    EXPECT_EQ(wrong("3-2-10-1-4-2").field, "order/2");
    EXPECT_EQ(wrong("3-2-10-1-5").code, ErrorCode::not_a_choice);
    EXPECT_EQ(wrong("3-2-10-1-5").value, "5");
    EXPECT_EQ(wrong("3-2-10-1-5").expected, "1 2 3 4 10");
    EXPECT_EQ(wrong("3-2-a-1-4").code, ErrorCode::not_a_number);
    EXPECT_EQ(wrong("321041").code, ErrorCode::not_a_choice); // run together it isn't split
    EXPECT_EQ(wrong(" - ").code, ErrorCode::empty_text);
}

} // namespace
} // namespace rodway
