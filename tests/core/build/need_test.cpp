#include "core/build/need.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "core/build/part_role.h"
#include "core/sheets/sheet_kinds.h"

namespace rodway {
namespace {

Error error_of(std::string_view text) {
    const auto needs = parse_needs(text);
    EXPECT_FALSE(needs.ok()) << text;
    return needs ? Error{} : needs.error();
}

TEST(Need, EveryKindIsReadFromItsWrittenForm) {
    const auto needs = parse_needs(
        "steps;sheet rod_clearance,lash ;  parts intake_gasket, intake_bolt; cures; clearance; "
        "closed temporary_part, risk; approvals");
    ASSERT_TRUE(needs.ok());
    const std::vector<Need> expected{
        {NeedKind::steps},
        {NeedKind::sheet, {"rod_clearance", "lash"}},
        {NeedKind::parts, {}, {"intake_gasket", "intake_bolt"}},
        {NeedKind::cures},
        {NeedKind::clearance},
        {NeedKind::closed, {}, {}, {OpenItemKind::temporary_part, OpenItemKind::risk}},
        {NeedKind::approvals},
    };
    EXPECT_EQ(*needs, expected);
    EXPECT_EQ(needs_text(*needs),
              "steps; sheet rod_clearance, lash; parts intake_gasket, intake_bolt; cures; "
              "clearance; closed temporary_part, risk; approvals");
}

TEST(Need, OrderIsKept) {
    EXPECT_EQ(needs_text(*parse_needs("approvals; steps")), "approvals; steps");
}

TEST(Need, ShopsOwnSheetsAreTakenByTheirWord) {
    EXPECT_EQ(parse_needs("sheet own_valve_tip_height")->front().sheets,
              std::vector<std::string>{"own_valve_tip_height"});
    EXPECT_EQ(error_of("sheet own_").code, ErrorCode::not_a_choice);
    EXPECT_EQ(error_of("sheet Own_tip").code, ErrorCode::not_a_choice);
}

TEST(Need, WhatIsWrongIsNamedWithWhatWouldBeAccepted) {
    struct Wrong {
        const char* text;
        ErrorCode code;
        const char* value;
        const char* among; ///< one of what is accepted
    };
    const std::vector<Wrong> wrongs{
        {"", ErrorCode::empty_text, "", "clearance"},
        {"steps;", ErrorCode::empty_text, "", "approvals"},
        {"steps;; cures", ErrorCode::empty_text, "", "cures"},
        {"step", ErrorCode::not_a_choice, "step", "steps"},
        {"Steps", ErrorCode::not_a_choice, "Steps", "steps"},
        {"steps; sheet", ErrorCode::missing_field, "sheet", ""},
        {"parts ", ErrorCode::missing_field, "parts", ""},
        {"closed", ErrorCode::missing_field, "closed", ""},
        {"sheet rod_clearence", ErrorCode::not_a_choice, "rod_clearence", "rod_clearance"},
        {"parts head_gaskets", ErrorCode::not_a_choice, "head_gaskets", "head_gasket"},
        {"closed temporary", ErrorCode::not_a_choice, "temporary", "temporary_part"},
        {"sheet lash,", ErrorCode::empty_text, "lash,", ""},
        {"steps now", ErrorCode::wrong_type, "steps now", "steps"},
        {"cures; steps; cures", ErrorCode::duplicate_field, "cures", ""},
        {"sheet lash, lash", ErrorCode::duplicate_field, "lash", ""},
        {"parts piston, ring, piston", ErrorCode::duplicate_field, "piston", ""},
        {"closed watch, watch", ErrorCode::duplicate_field, "watch", ""},
    };
    for (const Wrong& wrong : wrongs) {
        const Error error = error_of(wrong.text);
        EXPECT_EQ(error.code, wrong.code) << wrong.text;
        EXPECT_EQ(error.field, "needs") << wrong.text;
        EXPECT_EQ(error.value, wrong.value) << wrong.text;
        EXPECT_NE((" " + error.expected + " ").find(wrong.among), std::string::npos) << wrong.text;
    }
}

TEST(Need, EverySheetAndEveryRoleMayBeNeeded) {
    for (const SheetKind& kind : sheet_kinds()) {
        EXPECT_TRUE(parse_needs("sheet " + kind.id).ok()) << kind.id;
    }
    for (const std::string_view role : part_roles()) {
        EXPECT_TRUE(parse_needs("parts " + std::string(role)).ok()) << role;
    }
}

TEST(Need, WrittenThenReadIsTheSame) {
    std::mt19937 random(20261130);
    const auto upto = [&](std::size_t count) {
        return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
    };
    for (int round = 0; round < 500; ++round) {
        std::vector<NeedKind> kinds{NeedKind::steps,    NeedKind::sheet,     NeedKind::parts,
                                    NeedKind::cures,    NeedKind::clearance, NeedKind::closed,
                                    NeedKind::approvals};
        std::shuffle(kinds.begin(), kinds.end(), random);
        kinds.resize(1 + upto(kinds.size()));
        std::vector<Need> needs;
        for (const NeedKind kind : kinds) {
            Need need{kind};
            if (kind == NeedKind::sheet) {
                need.sheets = {sheet_kinds()[upto(sheet_kinds().size())].id, "own_tip"};
            } else if (kind == NeedKind::parts) {
                const std::size_t first = upto(part_roles().size() - 2);
                need.roles = {std::string(part_roles()[first]),
                              std::string(part_roles()[first + 2])};
            } else if (kind == NeedKind::closed) {
                need.items = {static_cast<OpenItemKind>(upto(3)), OpenItemKind::other};
            }
            needs.push_back(need);
        }
        const auto again = parse_needs(needs_text(needs));
        ASSERT_TRUE(again.ok()) << needs_text(needs);
        EXPECT_EQ(*again, needs) << needs_text(needs);
    }
}

} // namespace
} // namespace rodway
