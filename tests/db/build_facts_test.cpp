#include "db/build_facts.h"

#include "db/build_records.h"
#include "tests/db/random_build.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

class BuildFactsTest : public ShopTest {
  protected:
    ShopFile shop_ = new_shop();
};

template <typename Record>
std::vector<Edit> created(const std::vector<Record>& records) {
    std::vector<Edit> edits;
    for (const Record& record : records) {
        for (Edit& edit : edits_to_create(record)) edits.push_back(std::move(edit));
    }
    return edits;
}

// Against the loads of single kinds, and the history as a whole, on a build of everything.
TEST_F(BuildFactsTest, HoldWhatTheFileHasOfOneBuildAndNothingOfOthers) {
    RandomBuild first(shop_, 3, {photo_digest});
    ASSERT_GT(first.work(150), 100);
    RandomBuild second(shop_, 4, {photo_digest}, "their ");
    ASSERT_GT(second.work(100), 50);
    const BuildFacts facts = take(load_build_facts(shop_, first.build()));
    const auto same = [&](auto records, const auto& of_facts) {
        using Record = typename std::decay_t<decltype(of_facts)>::value_type;
        records = take(load_records<Record>(shop_, first.build()));
        auto sorted = of_facts;
        std::sort(sorted.begin(), sorted.end(),
                  [](const Record& a, const Record& b) { return a.id < b.id; });
        EXPECT_EQ(created(sorted), created(records));
    };
    same(facts.stages, facts.stages);
    same(facts.steps, facts.steps);
    same(facts.gates, facts.gates);
    same(facts.waivers, facts.waivers);
    same(facts.sign_offs, facts.sign_offs);
    same(facts.cures, facts.cures);
    same(facts.open_items, facts.open_items);
    same(facts.parts, facts.parts);
    same(facts.approvals, facts.approvals);
    EXPECT_EQ(facts.build.id, first.build());

    std::vector<Edit> expected;
    std::vector<std::int64_t> acts;
    for (const Act& act : take(history_of_build(shop_, first.build()))) {
        for (const Edit& edit : act.edits) {
            const RecordKind kind = edit.record.kind;
            if (kind == RecordKind::part || kind == RecordKind::set_up ||
                kind == RecordKind::reading ||
                (kind == RecordKind::sign_off && edit.field == "exists")) {
                expected.push_back(edit);
                acts.push_back(act.number);
            }
        }
    }
    ASSERT_GT(expected.size(), 50u);
    ASSERT_EQ(facts.changes.size(), expected.size());
    for (std::size_t which = 0; which < expected.size(); ++which) {
        EXPECT_EQ(facts.changes[which].edit, expected[which]);
        EXPECT_EQ(facts.changes[which].act, acts[which]);
    }
}

TEST_F(BuildFactsTest, ThePlanComesInItsOwnOrder) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
    std::vector<Edit> edits;
    const auto keep = [&](const auto& record) {
        for (Edit& edit : edits_to_create(record)) edits.push_back(std::move(edit));
    };
    keep(Stage{1, 1, 2, "Second", {}});
    keep(Stage{2, 1, 1, "First", {}});
    keep(Step{1, 1, 1, "c", {}, {}});
    keep(Step{2, 2, 2, "b", {}, {}});
    keep(Step{3, 2, 1, "a", {}, {}});
    keep(Gate{1, 1, 1, "z", {}, {}});
    keep(Gate{2, 2, 1, "y", {}, {}});
    take(apply(shop_, edits, "Dee", noon));
    const BuildFacts facts = take(load_build_facts(shop_, 1));
    EXPECT_EQ(facts.stages[0].title, "First");
    EXPECT_EQ(facts.steps[0].title + facts.steps[1].title + facts.steps[2].title, "abc");
    EXPECT_EQ(facts.gates[0].title + facts.gates[1].title, "yz");
}

TEST_F(BuildFactsTest, ABuildThatIsNotThereIsRefused) {
    EXPECT_EQ(refusal(load_build_facts(shop_, 5)).code, ErrorCode::no_such_record);
}

} // namespace
} // namespace rodway
