#include "db/history.h"

#include "db/build_records.h"
#include "db/build_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

class HistoryTest : public ShopTest {
  protected:
    ShopFile shop_ = new_shop();
    const RecordRef first_{RecordKind::build, 1};
    const RecordRef second_{RecordKind::build, 2};
};

TEST_F(HistoryTest, OfARecordHasItsOwnEditsOnlyWithTheirAct) {
    take(apply(shop_, joined(edits_to_create(sample_build(1)), edits_to_create(sample_build(2))),
               "Dee", noon));
    // A stage with the same id as the build is another record.
    take(apply(shop_, edits_to_create(sample_stage(1, 2)), "Dee", noon));
    const Edit rename{first_, "name", "Blue pickup", "x"};
    const Edit other{second_, "name", "Blue pickup", "y"};
    take(apply(shop_, {other, rename}, "Kim", "2026-03-02T08:00:00Z"));
    take(undo(shop_, 3, "Dee", "2026-03-02T09:00:00Z"));

    const auto acts = take(history(shop_, first_));
    ASSERT_EQ(acts.size(), 3U);
    EXPECT_EQ(acts[0].number, 1);
    EXPECT_EQ(acts[0].edits, edits_to_create(sample_build(1)));
    EXPECT_EQ(acts[1].number, 3);
    EXPECT_EQ(acts[1].who, "Kim");
    EXPECT_EQ(acts[1].when_utc, "2026-03-02T08:00:00Z");
    EXPECT_THAT(acts[1].edits, ElementsAre(rename));
    EXPECT_EQ(acts[2].undoes, 3);
    EXPECT_THAT(acts[2].edits, ElementsAre(Edit{first_, "name", "x", "Blue pickup"}));
    EXPECT_THAT(take(history(shop_, {RecordKind::photo, 1})), IsEmpty());
}

TEST_F(HistoryTest, OfTheShopHasTheEditsOfRecordsThatBelongToNoBuildAndNoOthers) {
    EXPECT_THAT(take(history_of_build(shop_, shop_wide)), IsEmpty());
    const Person person{1, "Bo Kern", "BK", {}, {}, {}};
    take(apply(shop_, joined(edits_to_create(sample_build(1)), edits_to_create(person)), "Dee",
               noon));
    take(apply(shop_, {Edit{first_, "name", "Blue pickup", "x"}}, "Dee", noon));
    const Edit left{{RecordKind::person, 1}, "left", std::nullopt, "2026-03-01"};
    take(apply(shop_, {left}, "Kim", noon));
    const auto acts = take(history_of_build(shop_, shop_wide));
    ASSERT_EQ(acts.size(), 2U);
    EXPECT_EQ(acts[0].edits, edits_to_create(person));
    EXPECT_EQ(acts[1].number, 3);
    EXPECT_THAT(acts[1].edits, ElementsAre(left));
}

TEST_F(HistoryTest, SinceAnActHasTheLaterOnesWhole) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
    const Act second = take(apply(shop_, edits_to_create(sample_build(2)), "Kim", noon));
    const Act third = take(apply(shop_, {Edit{first_, "name", "Blue pickup", "x"}}, "Dee", noon));
    const auto acts = take(acts_since(shop_, 1));
    ASSERT_EQ(acts.size(), 2U);
    EXPECT_EQ(acts[0].number, second.number);
    EXPECT_EQ(acts[0].edits, second.edits);
    EXPECT_EQ(acts[1].edits, third.edits);
    EXPECT_THAT(take(acts_since(shop_, third.number)), IsEmpty());
    EXPECT_EQ(take(last_act(shop_)), third.number);
}

TEST_F(HistoryTest, CannotBeChangedOrRemovedByAnybody) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
    const std::string before = dump_with_history(shop_.path());
    for (const char* sql : {"UPDATE acts SET who = 'Kim'", "DELETE FROM acts",
                            "UPDATE edits SET after = 'x'", "DELETE FROM edits"}) {
        EXPECT_THROW(tamper(shop_.path(), sql), std::runtime_error) << sql;
    }
    EXPECT_EQ(dump_with_history(shop_.path()), before);
}

TEST_F(HistoryTest, KnowsWhetherAnActStands) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", noon));
    EXPECT_FALSE(take(undone_by(shop_, 1)).has_value());
    take(undo(shop_, 1, "Dee", noon));
    EXPECT_EQ(take(undone_by(shop_, 1)), 2);
    take(undo(shop_, 2, "Dee", noon));
    EXPECT_FALSE(take(undone_by(shop_, 1)).has_value());
    EXPECT_EQ(take(undone_by(shop_, 2)), 3);
    take(undo(shop_, 3, "Dee", noon));
    EXPECT_EQ(take(undone_by(shop_, 1)), 2);
    EXPECT_FALSE(take(undone_by(shop_, 2)).has_value());
}

TEST_F(HistoryTest, GivesIdsThatWereNeverUsed) {
    EXPECT_EQ(take(new_id(shop_, RecordKind::build)), 1);
    take(apply(shop_, edits_to_create(sample_build(7)), "Dee", noon));
    EXPECT_EQ(take(new_id(shop_, RecordKind::build)), 8);
    EXPECT_EQ(take(new_id(shop_, RecordKind::stage)), 1);
    take(apply(shop_, take(edits_to_remove(shop_, {RecordKind::build, 7})), "Dee", noon));
    EXPECT_EQ(take(new_id(shop_, RecordKind::build)), 8);
}

TEST_F(HistoryTest, LetsTheSlowerOfTwoWritersAskForAnotherId) {
    ShopFile other = take(ShopFile::open(shop_.path()));
    const std::int64_t mine = take(new_id(shop_, RecordKind::build));
    const std::int64_t theirs = take(new_id(other, RecordKind::build));
    ASSERT_EQ(mine, theirs);
    take(apply(other, edits_to_create(sample_build(theirs)), "Kim", noon));
    const Error error = refusal(apply(shop_, edits_to_create(sample_build(mine)), "Dee", noon));
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.field, "exists");
    const std::int64_t next = take(new_id(shop_, RecordKind::build));
    take(apply(shop_, edits_to_create(sample_build(next)), "Dee", noon));
    EXPECT_EQ(take(load_builds(shop_)).size(), 2U);
}

} // namespace
} // namespace rodway
