#include "app/words/plan_words.h"

#include <gtest/gtest.h>

#include <set>

#include "app/words/cautions.h"
#include "app/words/error_text.h"
#include "app/words/part_words.h"
#include "core/build/caution.h"
#include "core/build/part_role.h"

namespace rodway {
namespace {

QString text(std::string_view word) {
    return QString::fromUtf8(word.data(), static_cast<int>(word.size()));
}

TEST(CautionWords, EveryOneSaysWhatCanHurtAndDefersToMakersAndLocalRules) {
    std::set<QString> seen;
    for (const std::string_view key : cautions()) {
        const QString caution = words::caution(text(key));
        EXPECT_TRUE(caution.endsWith("Makers' instructions and local rules come first.")) << key;
        EXPECT_GT(caution.size(), 90) << key;
        EXPECT_TRUE(seen.insert(caution).second) << key;
    }
    EXPECT_TRUE(words::caution("no_such").isEmpty());
    EXPECT_TRUE(words::caution("").isEmpty());
    EXPECT_TRUE(words::caution("first_start").contains("xtinguisher"));
    EXPECT_TRUE(words::caution("barring_over").contains("never with the starter"));
}

TEST(PartWords, EveryRoleHasWordsOfItsOwn) {
    std::set<QString> seen;
    for (const std::string_view role : part_roles()) {
        const QString words = words::part_role(std::string(role));
        EXPECT_FALSE(words.contains('_')) << role;
        EXPECT_TRUE(words.front().isUpper()) << role;
        EXPECT_TRUE(seen.insert(words).second) << role;
    }
    EXPECT_EQ(words::part_role("head_gasket"), "Head gasket");
    EXPECT_EQ(words::part_role("own_thing"), "own_thing");
}

TEST(PlanWords, ANeedIsSaidInPlainWords) {
    const QString said = words::needs(
        *parse_needs("steps; sheet lash, own_tip; parts intake_gasket; cures; clearance; closed "
                     "temporary_part; approvals"),
        {{"own_tip", "Tip height"}});
    for (const char* part : {"every step", "Lash, Tip height", "Intake gasket", "cured fully",
                             "pushrod's clearance", "Temporary part", "customer answered"}) {
        EXPECT_TRUE(said.contains(part)) << part << ": " << said.toStdString();
    }
}

TEST(PlanWords, AChangeSaysWhatWasAndWhatIs) {
    PlanChange change{PlanChangeKind::changed,
                      RecordKind::step,
                      "deck",
                      "block",
                      "Deck, twice",
                      7,
                      {{"title", "Deck", "Deck, twice"},
                       {"detail", std::nullopt, "why"},
                       {"after", "One", "Two"},
                       {"after", "One", std::nullopt}}};
    EXPECT_EQ(words::plan_change(change), "Changed step “Deck, twice”");
    const QStringList lines = words::plan_field_changes(change);
    ASSERT_EQ(lines.size(), 4);
    EXPECT_EQ(lines[0], "Title: was “Deck”, is now “Deck, twice”");
    EXPECT_EQ(lines[1], "Detail: was “nothing”, is now “why”");
    EXPECT_EQ(lines[2], "Stands behind “Two” now");
    EXPECT_EQ(lines[3], "Stands first now");
    change.kind = PlanChangeKind::gone;
    change.item = RecordKind::gate;
    EXPECT_EQ(words::plan_change(change), "Gate “Deck, twice” is gone from the plan");
}

TEST(PlanWords, WhatIsWrongWithAPlanIsSaidWithWhatWouldBeAccepted) {
    EXPECT_EQ(words::error_text(
                  {ErrorCode::not_a_choice, "stages/1/caution", "hot", "lifting torque", 9, {}}),
              "line 9, stages/1/caution: “hot” is not one of: lifting, torque.");
    EXPECT_TRUE(words::error_text({ErrorCode::not_a_choice, "word", "a:b", "one_word", 3, {}})
                    .contains("one word of small letters"));
    EXPECT_TRUE(
        words::error_text({ErrorCode::missing_field, "stages/1/gates/1/needs", "sheet", {}, 3, {}})
            .contains("“sheet” must say what it is about"));
    EXPECT_TRUE(words::error_text({ErrorCode::missing_field, "plan", {}, {}, {}, {}})
                    .contains("without a stage plan"));
    EXPECT_TRUE(
        words::error_text({ErrorCode::wrong_format, "format", {}, "rodway-stage-plan", 1, {}})
            .contains("not a stage plan"));
}

} // namespace
} // namespace rodway
