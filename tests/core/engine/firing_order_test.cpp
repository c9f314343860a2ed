#include "core/engine/firing_order.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

const std::vector<int> v8{1, 8, 4, 3, 6, 5, 7, 2};

// Spellings as builders write them (common practice, no source).
TEST(FiringOrder, ReadsEverySpellingOfOneOrder) {
    for (const char* text : {"18436572", "1-8-4-3-6-5-7-2", "1 8 4 3 6 5 7 2", "1,8,4,3,6,5,7,2",
                             "1, 8, 4, 3, 6, 5, 7, 2", " 1 - 8 - 4 - 3 - 6 - 5 - 7 - 2 "}) {
        const auto order = FiringOrder::parse(text, 8);
        ASSERT_TRUE(order.ok()) << text;
        EXPECT_EQ(order->cylinders(), v8) << text;
    }
    for (const char* text : {"18436572 LH", "1-8-4-3-6-5-7-2 RH", "1 8 4 3 6 5 7 2, left hand",
                             "1\u20138\u20134\u20133\u20136\u20135\u20137\u20132"}) {
        const auto order = FiringOrder::parse(text, 8);
        ASSERT_TRUE(order.ok()) << text;
        EXPECT_EQ(order->cylinders(), v8) << text;
    }
    EXPECT_EQ(FiringOrder::parse("1-12-5-8-3-10-6-7-2-11-4-9", 12)->cylinders().size(), 12u);
}

TEST(FiringOrder, SharesTheCycleEquallyFromCylinderOne) {
    const auto order = FiringOrder::parse("18436572", 8);
    for (std::size_t place = 0; place < v8.size(); ++place) {
        EXPECT_EQ(order->firing_angle(v8[place]).in_deg(), 90.0 * static_cast<double>(place));
    }
    // Written from another cylinder it is the same engine.
    const auto turned = FiringOrder::parse("43657218", 8);
    for (int cylinder = 1; cylinder <= 8; ++cylinder) {
        EXPECT_EQ(turned->firing_angle(cylinder), order->firing_angle(cylinder)) << cylinder;
    }
    EXPECT_EQ(FiringOrder::parse("153624", 6)->firing_angle(4).in_deg(), 600.0);
    EXPECT_EQ(FiringOrder::parse("132", 3)->firing_angle(3).in_deg(), 240.0);
    EXPECT_EQ(FiringOrder::parse("1", 1)->firing_angle(1).in_deg(), 0.0);
}

TEST(FiringOrder, NamesWhatIsWrong) {
    struct Wrong {
        const char* text;
        ErrorCode code;
        const char* cylinder;
    };
    const Wrong cases[] = {
        {"", ErrorCode::not_a_firing_order, ""},
        {"---", ErrorCode::not_a_firing_order, ""},
        {"LH", ErrorCode::not_a_firing_order, ""},
        {"LH 18436572", ErrorCode::not_a_firing_order, ""},
        {"18436572 LH RH", ErrorCode::not_a_firing_order, ""},
        {"1-8-x", ErrorCode::not_a_firing_order, ""},
        {"1/8/4/3/6/5/7/2", ErrorCode::not_a_firing_order, ""},
        {"184 36572", ErrorCode::not_a_firing_order, ""},
        {"18436512", ErrorCode::cylinder_twice, "1"},
        {"1843657", ErrorCode::cylinder_missing, "2"},
        {"18436579", ErrorCode::cylinder_unknown, "9"},
        {"10436572", ErrorCode::cylinder_unknown, "0"},
        {"1-8-4-3-6-5-7-2-2", ErrorCode::cylinder_twice, "2"},
        {"1-8-4-3-6-5-7-12", ErrorCode::cylinder_unknown, "12"},
    };
    for (const Wrong& wrong : cases) {
        const auto order = FiringOrder::parse(wrong.text, 8);
        ASSERT_FALSE(order.ok()) << wrong.text;
        EXPECT_EQ(static_cast<int>(order.error().code), static_cast<int>(wrong.code)) << wrong.text;
        EXPECT_EQ(order.error().field, "engine/firing_order");
        EXPECT_EQ(order.error().value, wrong.text);
        EXPECT_EQ(order.error().expected, wrong.cylinder) << wrong.text;
    }
}

} // namespace
} // namespace rodway
