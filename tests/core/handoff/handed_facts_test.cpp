#include "core/handoff/handed_facts.h"

#include <gtest/gtest.h>

#include <map>

namespace rodway {
namespace {

std::map<std::string, std::string> by_name(const std::vector<HandedFact>& facts) {
    std::map<std::string, std::string> names;
    for (const HandedFact& fact : facts) names[fact.name] = fact.value;
    return names;
}

Reading reading(const char* quantity, const char* position, const char* text) {
    Reading one;
    one.quantity = quantity;
    one.position = position;
    one.text = text;
    return one;
}

TEST(HandedFacts, SayWhatCountsNow) {
    BuildFacts work;
    PartRecord fitted;
    fitted.id = 4;
    fitted.item = "Head bolts";
    fitted.size = "7/16";
    fitted.fitted = "2026-03-01";
    PartRecord ordered;
    ordered.id = 5;
    ordered.item = "Gasket";
    work.parts = {fitted, ordered};
    OpenItem item;
    item.id = 7;
    item.title = "Rear seal";
    work.open_items = {item};
    SignOff signed_off;
    signed_off.stage_id = 3;
    signed_off.subject = "Heads";
    signed_off.verdict = "passed";
    signed_off.signed_by = "MH";
    SignOff withdrawn = signed_off;
    withdrawn.stage_id = 9;
    withdrawn.withdrawn_at = "2026-03-02T10:00:00Z";
    work.sign_offs = {signed_off, withdrawn};
    ValveClearance line;
    line.position = {3, ValveKind::intake, 1};
    line.found.minimum = RodClearance{};
    line.found.minimum->clearance_mm = 0.254;
    const std::vector<Reading> readings{reading("lash_hot", "3I", ".026"),
                                        reading("lash_hot", "3I", ".028"),
                                        reading("oil_used", "", "20W-50")};
    const auto names = by_name(handed_facts({work, readings, {}, {line}}));
    // 0.254 mm is a hundredth of an inch (NIST SP 811: 25.4 mm to the inch).
    const std::map<std::string, std::string> wanted{
        {"clearance 3I", "0.0100 in"},  {"open_item 7", "Rear seal"},
        {"part 4", "Head bolts, 7/16"}, {"reading lash_hot 3I", ".028"},
        {"reading oil_used", "20W-50"}, {"stage 3", "Heads, passed, MH"}};
    EXPECT_EQ(names, wanted);
}

TEST(HandedFacts, ComeBackAsTheyWereKept) {
    const std::vector<HandedFact> facts{{"part 1", "two\nlines\tand a tab"}, {"stage 2", ""}};
    const auto back = read_handed_text(handed_text(facts));
    ASSERT_TRUE(back.ok());
    const std::vector<HandedFact> wanted{{"part 1", "two lines and a tab"}, {"stage 2", ""}};
    EXPECT_EQ(*back, wanted);
    EXPECT_TRUE(read_handed_text("")->empty());
}

TEST(HandedFacts, WordsThatAreNoFactsAreRefusedWithTheirLine) {
    const auto read = read_handed_text("part 1\tBolts\nLash .026 hot\n");
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.error().code, ErrorCode::wrong_format);
    EXPECT_EQ(read.error().line, 2);
}

TEST(HandedFacts, OnlyWhatDiffersIsAChange) {
    const std::vector<HandedFact> before{{"a", "1"}, {"b", "2"}, {"c", "3"}};
    const std::vector<HandedFact> now{{"b", "2"}, {"c", "4"}, {"d", "5"}};
    const auto changes = handed_changes(before, now);
    ASSERT_EQ(changes.size(), 3U);
    EXPECT_EQ(changes[0].name, "a");
    EXPECT_EQ(changes[0].before, "1");
    EXPECT_FALSE(changes[0].now.has_value());
    EXPECT_EQ(changes[1].name, "c");
    EXPECT_EQ(changes[1].before, "3");
    EXPECT_EQ(changes[1].now, "4");
    EXPECT_EQ(changes[2].name, "d");
    EXPECT_FALSE(changes[2].before.has_value());
    EXPECT_EQ(changes[2].now, "5");
}

} // namespace
} // namespace rodway
