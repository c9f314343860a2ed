#include "core/build/part_role.h"

#include <gtest/gtest.h>

#include <set>

namespace rodway {
namespace {

TEST(PartRole, EachIsOneWordAndStandsOnce) {
    std::set<std::string_view> seen;
    for (const std::string_view role : part_roles()) {
        EXPECT_EQ(role.find_first_not_of("abcdefghijklmnopqrstuvwxyz_"), std::string_view::npos)
            << role;
        EXPECT_TRUE(seen.insert(role).second) << role;
        EXPECT_TRUE(is_part_role(role));
    }
    EXPECT_FALSE(is_part_role(""));
    EXPECT_FALSE(is_part_role("Piston"));
}

TEST(PartRole, ListsAreReadAndWritten) {
    const auto roles = parse_part_roles(" head_gasket ,head_bolt");
    ASSERT_TRUE(roles.ok());
    EXPECT_EQ(*roles, (std::vector<std::string>{"head_gasket", "head_bolt"}));
    EXPECT_EQ(part_roles_text(*roles), "head_gasket, head_bolt");
}

TEST(PartRole, WrongListsAreRefused) {
    EXPECT_EQ(parse_part_roles("").error().code, ErrorCode::empty_text);
    EXPECT_EQ(parse_part_roles("piston,").error().code, ErrorCode::empty_text);
    const Error unknown = parse_part_roles("piston, pistol").error();
    EXPECT_EQ(unknown.code, ErrorCode::not_a_choice);
    EXPECT_EQ(unknown.value, "pistol");
    EXPECT_NE(unknown.expected.find("piston"), std::string::npos);
    const Error twice = parse_part_roles("ring, piston, ring").error();
    EXPECT_EQ(twice.code, ErrorCode::duplicate_field);
    EXPECT_EQ(twice.value, "ring");
}

} // namespace
} // namespace rodway
