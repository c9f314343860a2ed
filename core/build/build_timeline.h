#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/build/build_change.h"
#include "core/build/records.h"

namespace rodway {

/// A value over the acts: what it was at the end of each act that changed it. `Value` is nothing
/// where there was none.
template <typename Value>
class Timeline {
  public:
    struct Moment {
        const BuildChange* by = nullptr; ///< the last edit of that act which touched it
        std::optional<Value> value;
    };

    void write(const BuildChange& by, std::optional<Value> value) {
        if (!moments_.empty() && moments_.back().by->act == by.act) {
            moments_.back() = {&by, std::move(value)};
        } else {
            moments_.push_back({&by, std::move(value)});
        }
    }
    /// At the end of an act.
    [[nodiscard]] const std::optional<Value>& at(std::int64_t act) const {
        static const std::optional<Value> nothing;
        const std::optional<Value>* found = &nothing;
        for (const Moment& moment : moments_) {
            if (moment.by->act > act) {
                break;
            }
            found = &moment.value;
        }
        return *found;
    }
    [[nodiscard]] const std::optional<Value>& now() const { return moments_.back().value; }
    [[nodiscard]] const std::vector<Moment>& moments() const { return moments_; }
    /// Whether any act after this one touched it.
    [[nodiscard]] bool changes_after(std::int64_t act) const {
        return !moments_.empty() && moments_.back().by->act > act;
    }

  private:
    std::vector<Moment> moments_;
};

/// Quantity and position, as kept.
using ReadingPlace = std::pair<std::string, std::string>;

/// A build's parts, set-up in hand and readings as they stood after each act.
class BuildTimeline {
  public:
    /// `changes`: every edit of the build's parts, set-ups and readings from its beginning, in the
    /// order of the history; others are passed over. They must outlive it.
    explicit BuildTimeline(const std::vector<BuildChange>& changes);
    explicit BuildTimeline(std::vector<BuildChange>&&) = delete;

    /// By id.
    [[nodiscard]] const std::map<std::int64_t, Timeline<PartRecord>>& parts() const {
        return parts_;
    }
    /// By path, of the set-up in hand: the one with the highest id.
    [[nodiscard]] const std::map<std::string, Timeline<TypedValue>>& fields() const {
        return fields_;
    }
    /// Id of the set-up in hand.
    [[nodiscard]] const Timeline<std::int64_t>& set_up() const { return set_up_; }
    /// By quantity and position, the reading that counts: the one with the highest id.
    [[nodiscard]] const std::map<ReadingPlace, Timeline<Reading>>& readings() const {
        return readings_;
    }
    /// Acts that touched any part, in their order, each by its first edit.
    [[nodiscard]] const std::vector<const BuildChange*>& acts_on_parts() const {
        return acts_on_parts_;
    }

  private:
    using Texts = std::map<std::string, std::string, std::less<>>;
    struct Touched {
        std::map<std::int64_t, const BuildChange*> parts;
        std::map<ReadingPlace, const BuildChange*> readings;
        std::map<std::pair<std::int64_t, std::string>, const BuildChange*> fields; ///< by set-up
        const BuildChange* set_ups = nullptr;
    };

    void play(const BuildChange& change, Touched& touched);
    void play_reading(const BuildChange& change, Touched& touched);
    void end_act(const Touched& touched);
    void write_fields(const Touched& touched);
    [[nodiscard]] std::optional<std::int64_t> set_up_in_hand() const;

    std::map<std::int64_t, Texts> stored_parts_;
    std::map<std::int64_t, Texts> stored_set_ups_;
    std::map<std::int64_t, Texts> stored_readings_;
    std::map<ReadingPlace, std::set<std::int64_t>> taken_at_;

    std::map<std::int64_t, Timeline<PartRecord>> parts_;
    std::map<std::string, Timeline<TypedValue>> fields_;
    Timeline<std::int64_t> set_up_;
    std::map<ReadingPlace, Timeline<Reading>> readings_;
    std::vector<const BuildChange*> acts_on_parts_;
};

/// The text and unit that an Edit writes as one text: see `Edit`.
[[nodiscard]] TypedValue typed_value_of(std::string_view edit_text);

} // namespace rodway
