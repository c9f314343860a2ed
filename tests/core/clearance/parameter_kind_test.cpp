#include "core/clearance/parameter_kind.h"

#include <gtest/gtest.h>

#include <set>

namespace rodway {
namespace {

TEST(ParameterKind, EveryKindHasANameOfItsOwnThatLeadsBackToIt) {
    std::set<std::string_view> names;
    for (const ParameterKind kind : parameter_kinds()) {
        EXPECT_EQ(parameter_called(parameter_name(kind)), kind);
        EXPECT_TRUE(names.insert(parameter_name(kind)).second);
    }
    EXPECT_EQ(parameter_kinds().back(), ParameterKind::obstacle_away);
    EXPECT_EQ(names.size(), static_cast<std::size_t>(ParameterKind::obstacle_away) + 1);
    EXPECT_FALSE(parameter_called(""));
    EXPECT_FALSE(parameter_called("lifter_heigh"));
}

} // namespace
} // namespace rodway
