#include "core/engine/valve_position.h"

#include <gtest/gtest.h>

namespace rodway {
namespace {

TEST(ValvePosition, ReadsWhatBuildersWrite) {
    const std::pair<const char*, ValvePosition> cases[] = {
        {"3I", {3, ValveKind::intake, 1}},        {"3e", {3, ValveKind::exhaust, 1}},
        {"#3 intake", {3, ValveKind::intake, 1}}, {"5 ex", {5, ValveKind::exhaust, 1}},
        {"3I2", {3, ValveKind::intake, 2}},       {"12 exhaust", {12, ValveKind::exhaust, 1}},
        {"4 inlet", {4, ValveKind::intake, 1}},   {" 7 E ", {7, ValveKind::exhaust, 1}},
        {"6 exh", {6, ValveKind::exhaust, 1}},    {"2 In", {2, ValveKind::intake, 1}},
    };
    for (const auto& [text, position] : cases) {
        const auto read = parse_position(text);
        ASSERT_TRUE(read.ok()) << text;
        EXPECT_EQ(*read, position) << text;
    }
}

TEST(ValvePosition, ANameReadsBackAsItself) {
    for (int cylinder = 1; cylinder <= 16; ++cylinder) {
        for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
            for (int which = 1; which <= 3; ++which) {
                const ValvePosition position{cylinder, kind, which};
                EXPECT_EQ(*parse_position(position_name(position)), position);
            }
        }
    }
    EXPECT_EQ(position_name({3, ValveKind::exhaust, 1}), "3E");
    EXPECT_EQ(position_name({3, ValveKind::intake, 2}), "3I2");
}

TEST(ValvePosition, RefusesWhatIsNone) {
    for (const char* text : {"", "I", "3", "I3", "0I", "-3I", "100I", "3X", "3I0", "3I10", "3Ix",
                             "3 valve", "3IE", "99999999999999I"}) {
        const auto read = parse_position(text);
        ASSERT_FALSE(read.ok()) << text;
        EXPECT_EQ(read.error().code, ErrorCode::not_a_position) << text;
        EXPECT_EQ(read.error().value, text);
    }
}

TEST(ValvePosition, StandsByCylinderIntakeFirst) {
    const ValvePosition intake{2, ValveKind::intake, 1};
    const ValvePosition exhaust{2, ValveKind::exhaust, 1};
    EXPECT_LT(intake, exhaust);
    EXPECT_LT(exhaust, (ValvePosition{3, ValveKind::intake, 1}));
}

} // namespace
} // namespace rodway
