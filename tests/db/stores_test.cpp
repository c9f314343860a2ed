#include "db/build_store.h"
#include "db/photo_store.h"
#include "db/reading_store.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;

/// Loads of every noun: each record has values of its own in every field, so that a load which
/// swaps two columns or leaves one out is found.
class StoresTest : public ShopTest {
  protected:
    void SetUp() override {
        take(apply(shop_, joined(edits_to_create(sample_build(1)), edits_to_create(bare_build())),
                   "Dee", noon));
    }
    static Build bare_build() { return Build{2, "Shop truck", {}, {}, {}, {}, {}}; }
    void apply_all(const std::vector<Edit>& edits) { take(apply(shop_, edits, "Dee", noon)); }

    ShopFile shop_ = new_shop();
};

TEST_F(StoresTest, BuildComesBackWithEveryField) {
    apply_all({{{RecordKind::build, 1}, "archived", std::nullopt, "2026-07-01T08:00:00Z"}});
    const Build build = take(load_build(shop_, 1));
    EXPECT_EQ(build.id, 1);
    EXPECT_EQ(build.name, "Blue pickup");
    EXPECT_EQ(build.customer, "R. Marsh");
    EXPECT_EQ(build.engine, "big block, 454, casting ending 289");
    EXPECT_EQ(build.promised, "2026-05-20");
    EXPECT_EQ(build.note, "wants it quiet");
    EXPECT_EQ(build.archived, "2026-07-01T08:00:00Z");
}

TEST_F(StoresTest, BuildWithoutOptionalFieldsComesBackWithoutThem) {
    const auto builds = take(load_builds(shop_));
    ASSERT_EQ(builds.size(), 2U);
    EXPECT_EQ(builds[1].name, "Shop truck");
    EXPECT_EQ(builds[1].customer, "");
    EXPECT_FALSE(builds[1].promised || builds[1].note || builds[1].archived);
    EXPECT_EQ(refusal(load_build(shop_, 3)).code, ErrorCode::no_such_record);
}

TEST_F(StoresTest, SetUpComesBackAsTyped) {
    apply_all(edits_to_create(sample_set_up(4, 1)));
    const SetUpRecord set_up = take(load_set_up(shop_, 4));
    EXPECT_EQ(set_up.id, 4);
    EXPECT_EQ(set_up.build_id, 1);
    EXPECT_EQ(set_up.name, "as dropped off");
    EXPECT_EQ(set_up.fields, sample_set_up(4, 1).fields);
    EXPECT_EQ(refusal(load_set_up(shop_, 5)).code, ErrorCode::no_such_record);
}

TEST_F(StoresTest, NewestSetUpIsOfTheBuildAskedForAndMayHaveNoFields) {
    EXPECT_FALSE(take(newest_set_up(shop_, 1)).has_value());
    apply_all(edits_to_create(sample_set_up(1, 1)));
    apply_all(edits_to_create(SetUpRecord{2, 1, "with guide plates", {}}));
    apply_all(edits_to_create(sample_set_up(3, 2)));
    const auto newest = take(newest_set_up(shop_, 1));
    ASSERT_TRUE(newest.has_value());
    EXPECT_EQ(newest->name, "with guide plates");
    EXPECT_THAT(newest->fields, IsEmpty());
    const auto all = take(load_set_ups(shop_, 1));
    ASSERT_EQ(all.size(), 2U);
    EXPECT_EQ(all[0].id, 1);
    EXPECT_EQ(all[0].fields.size(), 3U);
}

TEST_F(StoresTest, PlanComesInItsOwnOrderWithEmptyStages) {
    Stage last = sample_stage(1, 1);
    last.ordinal = 5;
    Stage first = sample_stage(2, 1);
    first.ordinal = 1;
    first.title = "Strip and look";
    first.caution.reset();
    Step late = sample_step(1, 1);
    late.ordinal = 9;
    Step early = sample_step(2, 1);
    early.ordinal = 3;
    early.title = "Wheel on the snout";
    std::vector<Edit> edits = joined(edits_to_create(last), edits_to_create(first));
    edits = joined(joined(std::move(edits), edits_to_create(late)), edits_to_create(early));
    edits = joined(std::move(edits), edits_to_create(sample_stage(3, 2)));
    apply_all(edits);

    const auto plan = take(stages_with_steps(shop_, 1));
    ASSERT_EQ(plan.size(), 2U);
    EXPECT_EQ(plan[0].stage.id, 2);
    EXPECT_EQ(plan[0].stage.title, "Strip and look");
    EXPECT_FALSE(plan[0].stage.caution.has_value());
    EXPECT_THAT(plan[0].steps, IsEmpty());
    EXPECT_EQ(plan[1].stage.build_id, 1);
    EXPECT_EQ(plan[1].stage.ordinal, 5);
    EXPECT_EQ(plan[1].stage.caution, "piston_to_valve");
    ASSERT_EQ(plan[1].steps.size(), 2U);
    EXPECT_EQ(plan[1].steps[0].id, 2);
    EXPECT_EQ(plan[1].steps[0].stage_id, 1);
    EXPECT_EQ(plan[1].steps[0].ordinal, 3);
    EXPECT_EQ(plan[1].steps[0].title, "Wheel on the snout");
    EXPECT_EQ(plan[1].steps[1].id, 1);
}

TEST_F(StoresTest, TickIsSetTakenBackAndNeverSetTwice) {
    apply_all(joined(edits_to_create(sample_stage(1, 1)), edits_to_create(sample_step(1, 1))));
    const auto step = [this] { return take(stages_with_steps(shop_, 1)).at(0).steps.at(0); };
    const Step open = step();
    EXPECT_FALSE(open.ticked_by || open.ticked_at);
    apply_all(edits_to_tick(open, "Kim", "2026-03-05T10:00:00Z"));
    EXPECT_EQ(step().ticked_by, "Kim");
    EXPECT_EQ(step().ticked_at, "2026-03-05T10:00:00Z");
    const Error error = refusal(apply(shop_, edits_to_tick(open, "Dee", noon), "Dee", noon));
    EXPECT_EQ(error.code, ErrorCode::changed_since);
    EXPECT_EQ(error.value, "Kim");
    apply_all(edits_to_untick(step()));
    EXPECT_FALSE(step().ticked_by || step().ticked_at);
}

TEST_F(StoresTest, ReadingComesBackWithEveryField) {
    apply_all(edits_to_create(sample_set_up(6, 1)));
    Reading reading = sample_reading(3, 1);
    reading.set_up_id = 6;
    apply_all(edits_to_create(reading));
    const auto found = take(readings(shop_, 1));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].id, 3);
    EXPECT_EQ(found[0].build_id, 1);
    EXPECT_EQ(found[0].set_up_id, 6);
    EXPECT_EQ(found[0].quantity, "rod_clearance");
    EXPECT_EQ(found[0].position, "3I");
    EXPECT_EQ(found[0].text, ".008-.010");
    EXPECT_EQ(found[0].unit, "in");
    EXPECT_EQ(found[0].status, ReadingStatus::measured);
    EXPECT_EQ(found[0].taken_by, "Dee");
    EXPECT_EQ(found[0].taken_at, noon);
    EXPECT_THAT(take(readings(shop_, 2)), IsEmpty());
}

TEST_F(StoresTest, ReadingsOfEveryStatusComeInTheOrderTheyWereEntered) {
    const std::vector<ReadingStatus> all{ReadingStatus::see_photo,    ReadingStatus::same,
                                         ReadingStatus::not_measured, ReadingStatus::assumed,
                                         ReadingStatus::from_the_box, ReadingStatus::measured};
    std::int64_t id = 0;
    for (const ReadingStatus status : all) {
        Reading reading = sample_reading(++id, 1);
        reading.status = status;
        reading.position.clear();
        reading.unit.clear();
        if (status == ReadingStatus::not_measured) reading.text.clear();
        apply_all(edits_to_create(reading));
    }
    const auto found = take(readings(shop_, 1));
    ASSERT_EQ(found.size(), all.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(found[i].status, all[i]);
        EXPECT_EQ(found[i].text.empty(), all[i] == ReadingStatus::not_measured);
        EXPECT_FALSE(found[i].set_up_id.has_value());
        EXPECT_EQ(found[i].position + found[i].unit, "");
    }
}

TEST_F(StoresTest, PhotoComesBackWithEveryField) {
    apply_all(edits_to_create(sample_stage(8, 1)));
    Photo photo = sample_photo(2, 1);
    photo.stage_id = 8;
    Photo bare = sample_photo(3, 1);
    bare.caption.reset();
    apply_all(joined(edits_to_create(photo), edits_to_create(bare)));
    const auto found = take(photos(shop_, 1));
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0].id, 2);
    EXPECT_EQ(found[0].build_id, 1);
    EXPECT_EQ(found[0].stage_id, 8);
    EXPECT_EQ(found[0].digest, photo_digest);
    EXPECT_EQ(found[0].file_name, "guide plate.jpg");
    EXPECT_EQ(found[0].caption, "witness mark");
    EXPECT_EQ(found[0].added_at, noon);
    EXPECT_FALSE(found[1].stage_id || found[1].caption);
    EXPECT_THAT(take(photos(shop_, 2)), IsEmpty());
}

} // namespace
} // namespace rodway
