#include <algorithm>
#include <limits>
#include <map>
#include <random>
#include <set>
#include <thread>

#include "db/attachments.h"
#include "db/connection.h"
#include "db/history_replay.h"
#include "db/record_rows.h"
#include "tests/db/random_build.h"
#include "tests/db/rounds.h"
#include "tests/db/shop_test.h"

namespace rodway {
namespace {

using ::testing::IsEmpty;

using Key = std::tuple<RecordKind, std::int64_t, std::string>;
using Fields = std::map<Key, std::string>;

/// How `apply` must tell of an edit that doesn't begin with what is stored.
struct Outdated {
    std::string field;
    std::string stored;
    std::string expected;

    bool operator==(const Outdated&) const = default;
};

/// The slow, obvious twin: all fields in one map, changed only by acts that were answered.
class Twin {
  public:
    /// The first edit that doesn't begin where those before it ended.
    [[nodiscard]] std::optional<Outdated> outdated(const std::vector<Edit>& edits) const {
        Fields now = fields_;
        for (const Edit& edit : edits) {
            const auto stands = value(now, edit);
            if (stands != edit.before) {
                return Outdated{edit.field, stands.value_or(std::string()),
                                edit.before.value_or(std::string())};
            }
            set(now, edit);
        }
        return std::nullopt;
    }
    /// What the edits would lead to.
    [[nodiscard]] Fields after(const std::vector<Edit>& edits) const {
        Fields now = fields_;
        for (const Edit& edit : edits) set(now, edit);
        return now;
    }

    void take_over(const Act& act) {
        for (const Edit& edit : act.edits) set(fields_, edit);
        acts_[act.number] = act;
        if (act.undoes) goes_out_of_force(*act.undoes, act.number);
    }

    /// By which act this one stands undone, if it does.
    [[nodiscard]] std::optional<std::int64_t> undone_by(std::int64_t act) const {
        const auto found = undone_by_.find(act);
        return found == undone_by_.end() ? std::nullopt : std::optional(found->second);
    }

    /// Whether anything was ever known of the record.
    [[nodiscard]] bool ever_had(const RecordRef& record) const {
        return std::any_of(acts_.begin(), acts_.end(), [&](const auto& act) {
            return std::any_of(act.second.edits.begin(), act.second.edits.end(),
                               [&](const Edit& edit) { return edit.record == record; });
        });
    }
    [[nodiscard]] bool has(const RecordRef& record) const {
        return fields_.count({record.kind, record.id, "exists"}) != 0;
    }

    [[nodiscard]] const Fields& fields() const { return fields_; }
    [[nodiscard]] const std::map<std::int64_t, Act>& acts() const { return acts_; }

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
    void goes_out_of_force(std::int64_t act, std::int64_t by) {
        undone_by_[act] = by;
        if (const auto undoes = acts_.at(act).undoes) comes_into_force(*undoes);
    }
    void comes_into_force(std::int64_t act) {
        undone_by_.erase(act);
        if (const auto undoes = acts_.at(act).undoes) goes_out_of_force(*undoes, act);
    }

    Fields fields_;
    std::map<std::int64_t, Act> acts_;
    std::map<std::int64_t, std::int64_t> undone_by_;
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

/// What the history of each build, and of the shop as a whole, leads to when it is played from
/// nothing.
Fields replayed(ShopFile& shop, const std::set<std::int64_t>& builds) {
    Fields fields;
    for (const std::int64_t build : builds) {
        const Replay replay = take(
            replay_history(shop.connection(), build, std::numeric_limits<std::int64_t>::max(),
                           [](const FieldRef& at) { ADD_FAILURE() << "broken at " << at.field; }));
        EXPECT_THAT(replay.unknown, IsEmpty());
        for (const auto& [record, texts] : replay.records) {
            for (const auto& [field, text] : texts) fields[{record.kind, record.id, field}] = text;
        }
    }
    return fields;
}

/// What can be done to a record.
enum class Deed { created, changed, removed, taken_back, done_again, refused_as_outdated };
constexpr std::size_t all_deeds = 6;

/// Records of all kinds in two builds and around them, edited by two writers as hurried people do
/// it: most edits fit, some are outdated, some are against the rules, and much is taken back and
/// done again.
class TwoWriters : public ShopTest {
  protected:
    void SetUp() override {
        seed_ = std::random_device()();
        random_.seed(seed_);
        RecordProperty("seed", std::to_string(seed_));
        shops_.push_back(new_shop());
        shops_.push_back(take(ShopFile::open(shops_[0].path())));
        for (const char* content : {"plate", "rod tip"}) {
            write_bytes(in_folder("picture.jpg"), content);
            digests_.push_back(take(keep(shops_[0], in_folder("picture.jpg"))).digest);
        }
        for (const std::int64_t build : {1, 2}) {
            twin_.take_over(
                take(apply(shops_[0], edits_to_create(sample_build(build)), "Al", noon)));
        }
    }

    unsigned below(unsigned limit) { return static_cast<unsigned>(random_() % limit); }

    /// One for each build.
    std::vector<RandomBuild> people(ShopFile& shop, unsigned seed) const {
        std::vector<RandomBuild> both;
        for (const std::int64_t build : {1, 2}) both.emplace_back(shop, build, ++seed, digests_);
        return both;
    }

    /// Two who both write it are often in each other's way.
    static std::vector<Edit> new_note_of_build(ShopFile& shop, RandomBuild& person) {
        const RecordRef build{RecordKind::build, 1};
        const FieldTexts now = take(stored_fields(shop.connection(), build));
        Edit edit{build, "note", std::nullopt, std::nullopt};
        if (const auto note = now.find("note"); note != now.end()) edit.before = note->second;
        const auto other = person.another(edit);
        return other ? std::vector<Edit>{*other} : std::vector<Edit>();
    }

    /// The builds that have a history, and the shop as a whole.
    [[nodiscard]] std::set<std::int64_t> builds() const {
        std::set<std::int64_t> all{shop_wide};
        for (const auto& [number, act] : twin_.acts()) {
            for (const Edit& edit : act.edits) {
                if (edit.record.kind == RecordKind::build) all.insert(edit.record.id);
            }
        }
        return all;
    }

    void expect_all_agree() {
        for (ShopFile& shop : shops_) {
            ASSERT_EQ(stored(shop), twin_.fields());
            EXPECT_EQ(replayed(shop, builds()), twin_.fields());
            const auto acts = take(acts_since(shop, 0));
            EXPECT_EQ(acts.size(), twin_.acts().size());
            for (const Act& act : acts) {
                const Act& done = twin_.acts().at(act.number);
                EXPECT_EQ(act.edits, done.edits);
                EXPECT_EQ(act.undoes, done.undoes);
                EXPECT_EQ(act.who, done.who);
            }
            EXPECT_THAT(take(shop.check()).findings, IsEmpty());
        }
    }

    unsigned seed_ = 0;
    std::mt19937 random_;
    std::vector<ShopFile> shops_;
    std::vector<std::string> digests_;
    Twin twin_;
};

/// Two writers who take turns, so that what each answer must be is known.
class TakingTurns : public TwoWriters {
  protected:
    /// One act by one of them; what is wrong with the answer fails the test.
    void attempt(std::size_t who, const std::vector<Edit>& edits) {
        const auto outdated = twin_.outdated(edits);
        const auto done = apply(shops_[who], edits, names_[who], noon);
        if (done) {
            EXPECT_FALSE(outdated.has_value()) << "an act that didn't fit was let in";
            EXPECT_EQ(done->edits, edits);
            count(edits);
            twin_.take_over(*done);
        } else {
            expect_rightly_refused(done.error(), edits, outdated);
        }
    }

    void attempt_undo(std::size_t who, std::int64_t act) {
        if (act <= 2) return; // without its two builds nobody has anything to do
        const Act& old = twin_.acts().at(act);
        const std::vector<Edit> edits = swapped(old.edits);
        const auto undone = twin_.undone_by(act);
        const auto outdated = twin_.outdated(edits);
        const auto done = undo(shops_[who], act, names_[who], noon);
        if (done) {
            EXPECT_FALSE(undone.has_value()) << "undone twice";
            EXPECT_FALSE(outdated.has_value()) << "an undo that didn't fit was let in";
            EXPECT_EQ(done->edits, edits);
            EXPECT_EQ(done->undoes, act);
            count(edits, old.undoes ? Deed::done_again : Deed::taken_back);
            twin_.take_over(*done);
        } else if (undone) {
            EXPECT_EQ(told(done.error()), (Outdated{"act", std::to_string(*undone), {}}));
        } else {
            expect_rightly_refused(done.error(), edits, outdated);
        }
    }

    std::vector<Edit> removal_or_build(ShopFile& shop, RecordKind kind) {
        const RecordRef newest{kind, take(new_id(shop, kind)) - 1};
        const bool needed = kind == RecordKind::build && newest.id <= 2;
        if (below(2) == 0 && !needed && twin_.has(newest)) {
            return take(edits_to_remove(shop, newest));
        }
        return edits_to_create(sample_build(take(new_id(shop, RecordKind::build))));
    }

    /// Does something. Now and then the other one is quicker.
    void turn(std::vector<std::vector<RandomBuild>>& people) {
        const std::size_t who = below(2);
        const unsigned choice = below(10);
        const RecordKind kind = any_kind();
        if (choice == 0) {
            attempt_undo(who, recent_act());
        } else if (choice < 4) {
            const auto act = newest_act(kind, choice > 1);
            if (act) attempt_undo(who, *act);
        } else if (choice == 4) {
            attempt(who, removal_or_build(shops_[who], kind));
        } else {
            RandomBuild& mine = people[who][below(2)];
            std::vector<Edit> edits = mine.idea();
            if (edits.size() == 1 && below(3) == 0) {
                const auto quicker = people[1 - who][below(2)].another(edits[0]);
                if (quicker) attempt(1 - who, {*quicker});
            }
            while (below(4) == 0) edits = joined(std::move(edits), mine.idea());
            if (edits.empty()) return;
            if (below(12) == 0) edits[below(static_cast<unsigned>(edits.size()))].before = "other";
            attempt(who, edits);
        }
    }

    /// Kinds to which that was not done.
    [[nodiscard]] std::vector<std::string> kinds_without(Deed deed) const {
        std::vector<std::string> kinds;
        for (const RecordTable& table : record_tables()) {
            if (done_.count({deed, table.kind}) == 0) kinds.emplace_back(table.word);
        }
        return kinds;
    }
    [[nodiscard]] bool all_was_done() const {
        return done_.size() == all_deeds * record_tables().size();
    }

  private:
    static Outdated told(const Error& error) {
        EXPECT_EQ(error.code, ErrorCode::changed_since);
        return {error.field, error.value, error.expected};
    }

    void expect_rightly_refused(const Error& error, const std::vector<Edit>& edits,
                                const std::optional<Outdated>& outdated) {
        if (outdated) {
            EXPECT_EQ(told(error), *outdated)
                << describe(error) << " but stored is '" << outdated->stored << '\'';
            if (edits.size() == 1) count(edits, Deed::refused_as_outdated);
        } else if (error.code == ErrorCode::changed_since) {
            EXPECT_TRUE(in_the_way(error, edits)) << describe(error);
        } else {
            EXPECT_EQ(rules_.count(error.code), 1U) << describe(error);
        }
    }

    /// Edits that all fit may still leave fields of a record that is gone, make a record anew, or
    /// remove one that others refer to.
    [[nodiscard]] bool in_the_way(const Error& error, const std::vector<Edit>& edits) const {
        const Fields after = twin_.after(edits);
        const std::size_t space = error.value.find(' ');
        const auto word = record_kind_from(error.value.substr(0, space));
        return std::any_of(edits.begin(), edits.end(), [&](const Edit& edit) {
            const auto& [kind, id] = edit.record;
            const bool stays = after.count({kind, id, "exists"}) != 0;
            if (error.field != "exists") {
                const auto left = after.find({kind, id, error.field});
                return !stays && left != after.end() && left->second == error.value;
            }
            if (error.value == "removed") return stays && twin_.ever_had(edit.record);
            return !stays && word && twin_.has({*word, std::stoll(error.value.substr(space))});
        });
    }

    void count(const Edit& edit, Deed deed) { done_.emplace(deed, edit.record.kind); }
    void count(const std::vector<Edit>& edits, Deed deed) {
        for (const Edit& edit : edits) count(edit, deed);
    }
    void count(const std::vector<Edit>& edits) {
        std::set<RecordRef, ByKindAndId> whole;
        for (const Edit& edit : edits) {
            if (edit.field == "exists") whole.insert(edit.record);
            if (edit.field == "exists") count(edit, edit.after ? Deed::created : Deed::removed);
        }
        for (const Edit& edit : edits) {
            if (whole.count(edit.record) == 0) count(edit, Deed::changed);
        }
    }

    std::int64_t recent_act() {
        const std::int64_t last = twin_.acts().rbegin()->first;
        return last - below(static_cast<unsigned>(std::min<std::int64_t>(last, 5)));
    }
    /// The newest that touched a record of the kind, and took something back or didn't.
    [[nodiscard]] std::optional<std::int64_t> newest_act(RecordKind kind, bool undoes) const {
        for (auto at = twin_.acts().rbegin(); at != twin_.acts().rend(); ++at) {
            const Act& act = at->second;
            const bool touches =
                std::any_of(act.edits.begin(), act.edits.end(),
                            [kind](const Edit& edit) { return edit.record.kind == kind; });
            if (touches && act.undoes.has_value() == undoes) return at->first;
        }
        return std::nullopt;
    }
    RecordKind any_kind() {
        const auto& tables = record_tables();
        return tables[below(static_cast<unsigned>(tables.size()))].kind;
    }

    const std::vector<std::string> names_{"Dee", "Kim"};
    const std::set<ErrorCode> rules_{ErrorCode::unknown_field, ErrorCode::missing_field,
                                     ErrorCode::no_such_record};
    std::set<std::pair<Deed, RecordKind>> done_;
};

TEST_F(TakingTurns, LeavesExactlyWhatTheAnsweredActsSayForEveryKindOfRecord) {
    SCOPED_TRACE("seed " + std::to_string(seed_));
    std::vector<std::vector<RandomBuild>> all{people(shops_[0], seed_),
                                              people(shops_[1], seed_ / 2)};
    int turns = 0;
    for (; turns < 600 || (!all_was_done() && turns < 20'000); ++turns) {
        turn(all);
        if (HasFailure()) FAIL() << "turn " << turns;
        if (turns % 10 == 0) {
            ASSERT_EQ(stored(shops_[turns / 10 % 2]), twin_.fields()) << "turn " << turns;
        }
    }
    RecordProperty("turns", turns);
    for (std::size_t deed = 0; deed < all_deeds; ++deed) {
        EXPECT_THAT(kinds_without(static_cast<Deed>(deed)), IsEmpty()) << "deed " << deed;
    }
    expect_all_agree();
}

TEST_F(TwoWriters, AtOnceLoseNoAnsweredActAndMixNone) {
    SCOPED_TRACE("seed " + std::to_string(seed_));
    const std::string path = shops_[0].path();
    std::vector<std::map<std::int64_t, Act>> answered(2);
    std::vector<std::string> failures(2);
    const auto work = [&](std::size_t who) {
        try {
            ShopFile shop = take(ShopFile::open(path));
            std::mt19937 random(seed_ + static_cast<unsigned>(who));
            std::vector<RandomBuild> mine = people(shop, seed_ + 10 * static_cast<unsigned>(who));
            // What was thought of a while ago may be outdated when it is done.
            std::vector<std::vector<Edit>> ideas;
            for (int round = 0; round < rounds(300); ++round) {
                RandomBuild& any = mine[random() % 2];
                ideas.push_back(random() % 3 == 0 ? new_note_of_build(shop, any) : any.idea());
                std::swap(ideas.back(), ideas[random() % ideas.size()]);
                if (ideas.size() < 5) continue;
                const std::vector<Edit> edits = std::move(ideas.back());
                ideas.pop_back();
                const std::string name = who == 0 ? "Dee" : "Kim";
                const bool takes_back = random() % 3 == 0;
                const std::int64_t act = take(last_act(shop)) - static_cast<int>(random() % 3);
                if (takes_back ? act <= 2 : edits.empty()) continue;
                const auto done =
                    takes_back ? undo(shop, act, name, noon) : apply(shop, edits, name, noon);
                if (done) answered[who][done->number] = *done;
                if (done || done.error().code != ErrorCode::locked_file) continue;
                failures[who] = "locked out for the whole of the patience";
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

    int undone = 0;
    int redone = 0;
    const auto acts = take(acts_since(shops_[0], 2));
    EXPECT_EQ(acts.size(), answered[0].size() + answered[1].size());
    for (const Act& act : acts) {
        EXPECT_EQ(act.edits, answered[act.who == "Dee" ? 0 : 1][act.number].edits);
        EXPECT_FALSE(twin_.outdated(act.edits).has_value()) << act.number;
        if (act.undoes) {
            EXPECT_FALSE(twin_.undone_by(*act.undoes).has_value()) << act.number;
            const Act& old = twin_.acts().at(*act.undoes);
            EXPECT_EQ(act.edits, swapped(old.edits));
            ++(old.undoes ? redone : undone);
        }
        twin_.take_over(act);
    }
    expect_all_agree();
    for (const auto& mine : answered) EXPECT_GT(mine.size(), static_cast<std::size_t>(rounds(30)));
    EXPECT_GT(undone, rounds(10));
    EXPECT_GT(redone, 0);
}

} // namespace
} // namespace rodway
