#include "db/build_records.h"

#include <random>

#include "db/build_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;

class BuildRecordsTest : public ShopTest {
  protected:
    ShopFile shop_ = new_shop();
    const RecordRef build_{RecordKind::build, 1};

    void rename(const std::string& before, const std::string& after, const std::string& when) {
        take(apply(shop_, {Edit{build_, "name", before, after}}, "Dee", when));
    }
    std::string name_as_of(const std::string& when) {
        const auto texts = take(records_as_of_act(shop_, 1, take(act_as_of(shop_, 1, when))));
        const auto found = texts.find(build_);
        return found == texts.end() ? "" : found->second.at("name");
    }
};

TEST_F(BuildRecordsTest, AreThoseOfTheBuildAndNoOther) {
    take(apply(shop_, edits_of_whole_build(), "Dee", noon));
    take(apply(shop_, edits_to_create(sample_build(2)), "Dee", noon));
    take(apply(shop_, edits_to_create(sample_stage(2, 2)), "Dee", noon));
    take(apply(shop_, edits_to_create(sample_step(2, 2)), "Dee", noon));
    Customer customer;
    customer.id = 1;
    customer.name = "R. Marsh";
    take(apply(shop_, edits_to_create(customer), "Dee", noon));
    EXPECT_EQ(take(records_of_build(shop_, 1)).size(), 6U);
    const auto second = take(records_of_build(shop_, 2));
    ASSERT_EQ(second.size(), 3U);
    EXPECT_EQ(second.count(RecordRef{RecordKind::step, 2}), 1U);
    EXPECT_EQ(take(records_of_build(shop_, shop_wide)).size(), 1U);
    EXPECT_THAT(take(records_of_build(shop_, 3)), IsEmpty());
}

TEST_F(BuildRecordsTest, CanBeShownAsTheyStoodOnADate) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", "2026-03-01T12:00:00Z"));
    rename("Blue pickup", "Green pickup", "2026-03-05T12:00:00Z");
    rename("Green pickup", "Red pickup", "2026-03-09T12:00:00Z");
    EXPECT_EQ(name_as_of("2026-03-01T11:59:59Z"), "");
    EXPECT_EQ(name_as_of("2026-03-01T12:00:00Z"), "Blue pickup");
    EXPECT_EQ(name_as_of("2026-03-08T23:00:00Z"), "Green pickup");
    EXPECT_EQ(name_as_of("2027-01-01T00:00:00Z"), "Red pickup");
}

TEST_F(BuildRecordsTest, StandInTheOrderOfTheActsWhereTheClockWasSetBack) {
    take(apply(shop_, edits_to_create(sample_build(1)), "Dee", "2026-03-01T12:00:00Z"));
    rename("Blue pickup", "Green pickup", "2026-03-05T12:00:00Z");
    rename("Green pickup", "Red pickup", "2026-03-03T12:00:00Z"); // done later, says earlier
    EXPECT_EQ(name_as_of("2026-03-04T00:00:00Z"), "Blue pickup");
    EXPECT_EQ(name_as_of("2026-03-05T12:00:00Z"), "Red pickup");
}

TEST_F(BuildRecordsTest, AsOfEveryActAreWhatWasStoredThen) {
    const unsigned seed = std::random_device()();
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    take(apply(shop_, edits_of_whole_build(), "Dee", noon));
    std::map<std::int64_t, RecordTexts> stored;
    std::int64_t act = 1;
    stored[act] = take(records_of_build(shop_, 1));
    for (int round = 0; round < 60; ++round) {
        const auto before = stored[act];
        auto at = before.begin();
        std::advance(at, random() % before.size());
        std::vector<Edit> edits;
        const auto note = [](const FieldTexts& fields) {
            const auto found = fields.find("note");
            return found == fields.end() ? std::nullopt : std::optional(found->second);
        };
        if (random() % 4 == 0 && take(undone_by(shop_, act)) == std::nullopt && act > 1) {
            act = take(undo(shop_, act, "Kim", noon)).number;
        } else if (at->first.kind == RecordKind::step && random() % 2 == 0) {
            act = take(apply(shop_, take(edits_to_remove(shop_, at->first)), "Dee", noon)).number;
        } else if (find_field(table_of(at->first.kind), "note") != nullptr) {
            const Edit edit{at->first, "note", note(at->second), std::to_string(random())};
            act = take(apply(shop_, {edit}, "Dee", noon)).number;
        } else {
            const std::int64_t id = take(new_id(shop_, RecordKind::step));
            act = take(apply(shop_, edits_to_create(sample_step(id, 1)), "Dee", noon)).number;
        }
        stored[act] = take(records_of_build(shop_, 1));
    }
    for (const auto& [number, texts] : stored) {
        EXPECT_EQ(take(records_as_of_act(shop_, 1, number)), texts) << "act " << number;
    }
    EXPECT_THAT(take(shop_.check()).findings, ::testing::SizeIs(1)); // the photo has no file
}

} // namespace
} // namespace rodway
