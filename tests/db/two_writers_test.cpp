#include <algorithm>
#include <map>
#include <random>
#include <thread>

#include "db/build_store.h"
#include "db/connection.h"
#include "db/reading_store.h"
#include "db/record_rows.h"
#include "db/record_tables.h"
#include "db/set_up_store.h"
#include "db/stage_store.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;

using Key = std::tuple<RecordKind, std::int64_t, std::string>;
using Fields = std::map<Key, std::string>;

/// The slow, obvious twin: all fields in one map, changed only by acts that were answered.
class Twin {
  public:
    /// Whether every edit begins where the twin stands.
    [[nodiscard]] bool fits(const std::vector<Edit>& edits) const {
        Fields after = fields_;
        for (const Edit& edit : edits) {
            if (value(after, edit) != edit.before) return false;
            set(after, edit);
        }
        return true;
    }
    void take_over(const std::vector<Edit>& edits) {
        for (const Edit& edit : edits) set(fields_, edit);
    }
    [[nodiscard]] const Fields& fields() const { return fields_; }

  private:
    static Key key(const Edit& edit) { return {edit.record.kind, edit.record.id, edit.field}; }
    static std::optional<std::string> value(const Fields& fields, const Edit& edit) {
        const auto found = fields.find(key(edit));
        return found == fields.end() ? std::nullopt : std::optional(found->second);
    }
    static void set(Fields& fields, const Edit& edit) {
        fields.erase(key(edit));
        if (edit.after) fields[key(edit)] = *edit.after;
    }
    Fields fields_;
};

Fields stored(ShopFile& shop) {
    Fields fields;
    for (const RecordTable& table : record_tables()) {
        for (const auto& [id, texts] : take(stored_fields_where(
                 shop.connection(), table.kind, {QStringLiteral("1"), std::nullopt}))) {
            for (const auto& [field, text] : texts) fields[{table.kind, id, field}] = text;
        }
    }
    return fields;
}

/// Edits as a hurried person makes them: most fit, some are stale, some are against the rules.
class RandomEdits {
  public:
    explicit RandomEdits(unsigned seed) : random_(seed) {}

    unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }

    std::vector<Edit> make(ShopFile& shop) {
        std::vector<Edit> edits;
        const unsigned count = 1 + below(3);
        for (unsigned i = 0; i < count; ++i) edits = joined(std::move(edits), one(shop));
        if (below(8) == 0) edits[below(static_cast<unsigned>(edits.size()))].before = word();
        return edits;
    }

  private:
    std::string word() { return std::string(1 + below(3), static_cast<char>('a' + below(26))); }
    /// One of the newest ids, since older records have mostly been removed again.
    std::int64_t some_id(ShopFile& shop, RecordKind kind) {
        return std::max<std::int64_t>(1, take(new_id(shop, kind)) - 1 - below(4));
    }

    std::vector<Edit> creation(ShopFile& shop) {
        const std::int64_t build = some_id(shop, RecordKind::build);
        switch (below(4)) {
            case 0:
                return edits_to_create(sample_build(take(new_id(shop, RecordKind::build))));
            case 1:
                return edits_to_create(
                    sample_set_up(take(new_id(shop, RecordKind::set_up)), build));
            case 2:
                return edits_to_create(sample_stage(take(new_id(shop, RecordKind::stage)), build));
            default: {
                Reading reading = sample_reading(take(new_id(shop, RecordKind::reading)), build);
                if (below(2) == 0) reading.set_up_id = some_id(shop, RecordKind::set_up);
                return edits_to_create(reading);
            }
        }
    }

    std::vector<Edit> change(ShopFile& shop) {
        static const std::vector<std::pair<RecordKind, std::string>> fields{
            {RecordKind::build, "name"},       {RecordKind::build, "note"},
            {RecordKind::set_up, "a/b"},       {RecordKind::set_up, "layout/cylinders"},
            {RecordKind::stage, "caution"},    {RecordKind::reading, "position"},
            {RecordKind::reading, "set_up_id"}};
        const auto& [kind, field] = fields[below(static_cast<unsigned>(fields.size()))];
        const RecordRef record{kind, some_id(shop, kind)};
        const FieldTexts now = take(stored_fields(shop.connection(), record));
        Edit edit{record, field, std::nullopt, std::nullopt};
        if (const auto found = now.find(field); found != now.end()) edit.before = found->second;
        if (field == "set_up_id") {
            edit.after = std::to_string(some_id(shop, RecordKind::set_up));
        } else if (field == "name" || below(3) != 0) {
            edit.after = word();
        }
        return {edit};
    }

    std::vector<Edit> one(ShopFile& shop) {
        const unsigned choice = below(10);
        if (choice < 4) return creation(shop);
        if (choice < 9) return change(shop);
        static const std::vector<RecordKind> kinds{RecordKind::build, RecordKind::set_up,
                                                   RecordKind::stage, RecordKind::reading};
        const RecordKind kind = kinds[below(4)];
        const RecordRef record{kind, some_id(shop, kind)};
        const auto removal = edits_to_remove(shop, record);
        return removal ? *removal : change(shop);
    }

    std::mt19937 random_;
};

class TwoWriters : public ShopTest {
  protected:
    void SetUp() override {
        seed_ = std::random_device()();
        RecordProperty("seed", std::to_string(seed_));
    }
    unsigned seed_ = 0;
};

TEST_F(TwoWriters, TakingTurnsLeaveExactlyWhatTheAnsweredActsSay) {
    SCOPED_TRACE("seed " + std::to_string(seed_));
    std::vector<ShopFile> writers;
    writers.push_back(new_shop());
    writers.push_back(take(ShopFile::open(writers[0].path())));
    RandomEdits random(seed_);
    Twin twin;
    std::map<std::int64_t, std::vector<Edit>> acts;
    int refused = 0;
    int undone = 0;
    for (int round = 0; round < 600; ++round) {
        ShopFile& shop = writers[random.below(2)];
        const std::int64_t last = take(last_act(shop));
        std::vector<Edit> edits;
        std::optional<Act> act;
        const bool takes_back = last > 0 && random.below(4) == 0;
        if (takes_back) {
            const std::int64_t number =
                last - random.below(static_cast<unsigned>(std::min<std::int64_t>(last, 5)));
            edits = swapped(acts.at(number));
            const auto done = undo(shop, number, "Kim", noon);
            if (done) act = *done;
        } else {
            edits = random.make(shop);
            const auto done = apply(shop, edits, "Dee", noon);
            if (done) act = *done;
        }
        if (act) {
            ASSERT_TRUE(twin.fits(edits)) << "an act that didn't fit was let in, round " << round;
            twin.take_over(edits);
            acts[act->number] = edits;
            undone += takes_back ? 1 : 0;
        } else {
            ++refused;
        }
        ASSERT_EQ(stored(shop), twin.fields()) << "round " << round;
    }
    // Enough of everything, or the run has shown nothing.
    EXPECT_GT(acts.size(), 150U);
    EXPECT_GT(refused, 50);
    EXPECT_GT(undone, 20);
    for (const auto& [number, edits] : acts) {
        EXPECT_EQ(take(load_act(writers[1], number)).edits, edits);
    }
    EXPECT_THAT(take(writers[0].check()).findings, IsEmpty());
}

TEST_F(TwoWriters, AtOnceLoseNoAnsweredActAndMixNone) {
    SCOPED_TRACE("seed " + std::to_string(seed_));
    std::string path;
    {
        ShopFile shop = new_shop();
        path = shop.path();
        take(apply(shop, edits_of_whole_build(), "Al", noon));
    }
    std::vector<std::map<std::int64_t, std::vector<Edit>>> answered(2);
    std::vector<std::string> failures(2);
    const auto work = [&](std::size_t who) {
        try {
            ShopFile shop = take(ShopFile::open(path));
            RandomEdits random(seed_ + static_cast<unsigned>(who));
            for (int round = 0; round < 150; ++round) {
                const std::vector<Edit> edits = random.make(shop);
                const auto act = apply(shop, edits, who == 0 ? "Dee" : "Kim", noon);
                if (act) answered[who][act->number] = edits;
                if (!act && act.error().code == ErrorCode::locked_file) {
                    failures[who] = "locked out for the whole of the patience";
                }
            }
        } catch (const std::exception& failure) {
            failures[who] = failure.what();
        }
    };
    std::thread first(work, 0);
    std::thread second(work, 1);
    first.join();
    second.join();
    EXPECT_EQ(failures, std::vector<std::string>(2));

    ShopFile shop = take(ShopFile::open(path));
    const auto acts = take(acts_since(shop, 1));
    EXPECT_EQ(acts.size(), answered[0].size() + answered[1].size());
    Twin twin;
    twin.take_over(edits_of_whole_build());
    for (const Act& act : acts) {
        EXPECT_EQ(act.edits, answered[act.who == "Dee" ? 0 : 1][act.number]);
        EXPECT_TRUE(twin.fits(act.edits)) << act.number;
        twin.take_over(act.edits);
    }
    EXPECT_EQ(stored(shop), twin.fields());
    EXPECT_GT(answered[0].size(), 15U);
    EXPECT_GT(answered[1].size(), 15U);
    // The sample photo has no file; nothing else may be wrong.
    EXPECT_THAT(take(shop.check()).findings,
                ::testing::Each(::testing::Field(&Finding::code, FindingCode::photo_missing)));
}

} // namespace
} // namespace rodway
