#include <gtest/gtest.h>

#include <random>
#include <set>

#include "core/build/stale.h"
#include "tests/core/build/history_maker.h"
#include "tests/twins/slow_stale.h"

namespace rodway {
namespace {

/// A shop at work on one engine: whatever the checks depend on comes, goes, changes and is undone.
class RandomWork {
  public:
    explicit RandomWork(unsigned seed) : random_(seed) {}

    void act() {
        switch (below(9)) {
            case 0:
                new_part();
                break;
            case 1:
            case 2:
                change_part();
                break;
            case 3:
                change_set_up();
                break;
            case 4:
                if (below(4) == 0) {
                    new_set_up();
                    break;
                }
                [[fallthrough]];
            case 5:
            case 6:
                new_reading();
                break;
            case 7:
                if (readings_ > 0 && below(3) == 0) {
                    history_.remove({RecordKind::reading, 1 + below(readings_)});
                }
                break;
            default:
                static_cast<void>(history_.undo(1 + below(static_cast<int>(history_.act()) + 1)));
        }
    }
    [[nodiscard]] const HistoryMaker& history() const { return history_; }

    /// A check of some kind, at some place, made by some act.
    MadeCheck check() {
        static const std::vector<std::pair<std::string, std::string>> kinds{
            {"rod_clearance", "rod_clearance"},
            {"lash", "lash_cold"},
            {"deck", "deck_clearance"},
            {"springs", "spring_installed_height"},
            {"piston_to_valve", "valve_drop"},
            {"clearance", ""},
            {"rod_clearance", ""},
            {"fasteners", "fastener_torque"}};
        const auto& [kind, quantity] = kinds[static_cast<std::size_t>(below(8))];
        const std::string valve = one_of(valves);
        std::string position = valve;
        if (quantity == "deck_clearance") {
            position = valve.substr(0, 1) + " thrust";
        } else if (quantity == "valve_drop") {
            position += " 20 BTDC";
        } else if (quantity == "fastener_torque") {
            position = below(2) == 0 ? "head left bolt 7 pass 1" : "main 2 bolt 1 pass 1";
        } else if (quantity.empty()) {
            position.clear();
        }
        MadeCheck check{kind, quantity, position, 1 + below(static_cast<int>(history_.act())),
                        history_.time_of(1)};
        if (kind == "clearance" && below(2) == 0) {
            check.reason = DependenceReason::bolt_end_near_rod;
        }
        return check;
    }

  private:
    int below(int end) { return std::uniform_int_distribution<int>(0, end - 1)(random_); }
    const std::string& one_of(const std::vector<std::string>& words) {
        return words[static_cast<std::size_t>(below(static_cast<int>(words.size())))];
    }
    std::optional<std::string> maybe(const std::string& text) {
        return below(5) == 0 ? std::nullopt : std::optional(text);
    }

    void new_part() {
        std::map<std::string, std::string> fields{{"item", "part"}, {"role", one_of(roles)}};
        for (const char* field : {"length", "size"}) {
            if (below(2) == 0) {
                fields[field] = one_of(values);
            }
        }
        if (below(2) == 0) {
            fields[one_of(days)] = "2026-03-0" + std::to_string(1 + below(9));
        }
        if (below(2) == 0) {
            fields["position"] = one_of(places);
        }
        if (parts_ > 0 && below(3) == 0) {
            fields["replaces_id"] = std::to_string(1 + below(parts_));
        }
        history_.part(++parts_, fields);
    }

    void change_part() {
        if (parts_ == 0) {
            return;
        }
        const RecordRef part{RecordKind::part, 1 + below(parts_)};
        if (!history_.stored(part, "exists")) {
            return;
        }
        switch (below(8)) {
            case 0:
                history_.remove(part);
                return;
            case 1:
                history_.set_part(part.id, "role", one_of(roles));
                return;
            case 2:
                history_.set_part(part.id, "position", maybe(one_of(places)));
                return;
            case 3:
            case 4:
                history_.set_part(part.id, below(2) == 0 ? "length" : "size",
                                  maybe(one_of(values)));
                return;
            case 5:
                history_.set_part(part.id, "replaces_id", maybe(std::to_string(1 + below(parts_))));
                return;
            default:
                history_.set_part(part.id, one_of(days),
                                  maybe("2026-03-0" + std::to_string(1 + below(9))));
        }
    }

    void new_set_up() {
        std::map<std::string, std::string> fields{
            {"name", "set-up"}, {"cylinders/3/bank", "left"}, {"cylinders/4/bank", "right"}};
        for (const std::string& path : paths) {
            if (below(3) > 0) {
                fields[path] = one_of(values);
            }
        }
        history_.set_up(++sets_, fields);
    }

    void change_set_up() {
        const RecordRef set_up{RecordKind::set_up, 1 + below(std::max(sets_, 1))};
        if (!history_.stored(set_up, "exists")) {
            new_set_up();
        } else if (below(12) == 0) {
            history_.remove(set_up);
        } else {
            history_.set_path(set_up.id, one_of(paths), maybe(one_of(values)));
        }
    }

    void new_reading() {
        static const std::vector<std::pair<std::string, std::vector<std::string>>> there{
            {"head_removed", {"left", "right"}}, {"deck_height", {"left front", "right rear"}},
            {"compression_height", {""}},        {"pushrod_length", {"3I", "4E"}},
            {"valve_tip_height", {"3I", "3E"}},  {"intake_gasket", {""}}};
        const auto& [quantity, positions] =
            there[static_cast<std::size_t>(below(static_cast<int>(there.size())))];
        const std::string text = "." + std::to_string(10 + below(4));
        readings_ = static_cast<int>(history_.reading(quantity, one_of(positions), text));
        if (below(6) == 0) {
            history_.begin_act();
            history_.set({RecordKind::reading, readings_}, "status", "not_measured");
        }
    }

    static const std::vector<std::string> roles;
    static const std::vector<std::string> days;
    static const std::vector<std::string> places;
    static const std::vector<std::string> valves;
    static const std::vector<std::string> paths;
    static const std::vector<std::string> values;

    std::mt19937 random_;
    HistoryMaker history_;
    int parts_ = 0;
    int sets_ = 0;
    int readings_ = 0;
};

const std::vector<std::string> RandomWork::roles{"intake_bolt", "head_gasket",  "pushrod",
                                                 "piston",      "valve_spring", "main_bearing",
                                                 "oil_filter"};
const std::vector<std::string> RandomWork::days{"needed", "ordered", "received", "measured",
                                                "fitted", "fitted",  "fitted",   "returned"};
const std::vector<std::string> RandomWork::places{"3I",    "4E",     "3",         "left",
                                                  "right", "3I, 4E", "everywhere"};
const std::vector<std::string> RandomWork::valves{"3I", "3E", "4I", "4E"};
const std::vector<std::string> RandomWork::paths{
    "banks/left/head/gasket", "banks/right/head/gasket",      "banks/left/flange/gasket",
    "trains/3I/rod/length",   "trains/4E/lifter/seat_height", "obstacles/bolt/length",
    "limits/rod_clearance"};
// Two of them say the same.
const std::vector<std::string> RandomWork::values{".5 in", "1/2 in", "12.7 mm", ".6 in"};

// Whatever is done: a check is stale exactly if a dependence is now other than it was after it.
TEST(StaleAtRandom, AgreesWithTheHistoryPlayedTwice) {
    int stale = 0;
    int good = 0;
    std::set<std::string> stale_kinds;
    for (unsigned seed = 1; seed <= 300; ++seed) {
        RandomWork work(seed);
        for (int act = 0; act < 40; ++act) {
            work.act();
        }
        std::vector<MadeCheck> checks;
        for (int which = 0; which < 20; ++which) {
            checks.push_back(work.check());
        }
        const auto& changes = work.history().changes();
        const BuildTimeline timeline(changes);
        for (const MadeCheck& check : checks) {
            const auto found = stale_checks({check}, timeline);
            const bool expected = twins::is_stale(check, changes);
            ASSERT_EQ(!found.empty(), expected)
                << "seed " << seed << ", " << check.kind << ' ' << check.quantity << ' '
                << check.position << " by act " << check.act
                << (found.empty() ? "" : ", because of " + found.front().causes.front().field);
            (expected ? stale : good) += 1;
            if (expected) {
                stale_kinds.insert(check.kind + ' ' + check.quantity);
            }
        }
    }
    // Both answers came often, and of every kind of check.
    EXPECT_GT(stale, 1000);
    EXPECT_GT(good, 1000);
    EXPECT_EQ(stale_kinds.size(), 8u);
}

// What is told of a cause is so: the act came after the check, it left what was there then, and
// nothing since has brought it back.
TEST(StaleAtRandom, ACauseIsTheActByWhichItLeftWhatItWas) {
    int sizes = 0;
    int fields = 0;
    for (unsigned seed = 1; seed <= 150; ++seed) {
        RandomWork work(seed);
        for (int act = 0; act < 40; ++act) {
            work.act();
        }
        const auto& changes = work.history().changes();
        const BuildTimeline timeline(changes);
        for (int which = 0; which < 20; ++which) {
            const MadeCheck check = work.check();
            for (const StaleCheck& found : stale_checks({check}, timeline)) {
                for (const StaleCause& cause : found.causes) {
                    ASSERT_GT(cause.act, check.act)
                        << "seed " << seed << ", " << check.kind << ": " << cause.field << " of "
                        << cause.record.id << ' ' << cause.before.value_or("-") << " -> "
                        << cause.now.value_or("-");
                    ASSERT_EQ(cause.since, work.history().time_of(cause.act));
                    if (cause.record.kind == RecordKind::set_up) {
                        // The same check made just after that act isn't stale by it any more.
                        MadeCheck later = check;
                        later.act = cause.act;
                        ++fields;
                        for (const StaleCheck& again : stale_checks({later}, timeline)) {
                            for (const StaleCause& other : again.causes) {
                                ASSERT_TRUE(other.field != cause.field || other.act > cause.act);
                            }
                        }
                    } else if (cause.field == "length") {
                        ++sizes;
                        ASSERT_EQ(work.history().stored(cause.record, "length"), cause.now);
                    }
                }
            }
        }
    }
    EXPECT_GT(sizes, 30);
    EXPECT_GT(fields, 50);
}

// Undoing every act since the check, the newest first, leaves it good.
TEST(StaleAtRandom, UndoingAllThatCameAfterLeavesEveryCheckGood) {
    int undone = 0;
    for (unsigned seed = 1; seed <= 100; ++seed) {
        RandomWork work(seed);
        for (int act = 0; act < 15; ++act) {
            work.act();
        }
        HistoryMaker history = work.history();
        MadeCheck check = work.check();
        const std::int64_t last = history.act();
        for (std::int64_t act = last; act > check.act; --act) {
            undone += history.undo(act) ? 1 : 0;
        }
        const BuildTimeline timeline(history.changes());
        EXPECT_TRUE(stale_checks({check}, timeline).empty()) << "seed " << seed;
    }
    EXPECT_GT(undone, 300);
}

} // namespace
} // namespace rodway
