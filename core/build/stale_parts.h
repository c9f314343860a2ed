#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/build/build_timeline.h"
#include "core/build/engine_place.h"
#include "core/build/stale.h"

namespace rodway {

/// Whether a part's record says that it is in the engine, or leaves it open: it has a day of
/// fitting, or no day at all, and wasn't given back. Nothing: no such part.
[[nodiscard]] bool may_be_fitted(const std::optional<PartRecord>& part);

/// What changed after an act about a build's parts of one role.
class PartChanges {
  public:
    PartChanges(const BuildTimeline& timeline, const BanksOfCylinders& banks)
        : timeline_(timeline), banks_(banks) {}

    /// Those that concern a check at `place`, made by `act`; added behind `causes`.
    void find(const Dependence& on, bool fitting_counts, std::int64_t act, const EnginePlace& place,
              std::vector<StaleCause>& causes) const;

  private:
    using Text = std::optional<std::string>;
    using Part = std::pair<const std::int64_t, Timeline<PartRecord>>;
    struct Question {
        const Dependence& on;
        bool fitting_counts;
        std::int64_t act;
        std::vector<StaleCause>& causes;
    };
    struct Change {
        const char* field;
        Text before;
        Text now;
        /// The part that went out of the engine; nothing: this one is in it with another value.
        std::optional<std::int64_t> leaves = {};
    };

    [[nodiscard]] bool in_engine(std::int64_t id, std::int64_t act) const;
    /// The part that stands in its place then.
    [[nodiscard]] std::optional<std::int64_t> replaced_by(std::int64_t id, std::int64_t act) const;
    /// The part in whose place this one came: the nearest that was in the engine then; else, where
    /// fitting doesn't count, the first of the line.
    [[nodiscard]] const Part* predecessor(const Part& part, const Question& question) const;
    [[nodiscard]] bool concerns(const Dependence& on, const Part& part, std::int64_t act,
                                const EnginePlace& place) const;
    void is_in(const Part& part, bool was_in, const Question& question) const;
    void left(const Part& part, const Question& question) const;
    /// Adds a cause for each size in which a part differs from what stood there before; says how
    /// many were known of both.
    int compare_sizes(const Part& part, const Part& before, const Question& question) const;
    void add(const Part& part, const Change& change, const Question& question) const;

    const BuildTimeline& timeline_;
    const BanksOfCylinders& banks_;
};

} // namespace rodway
