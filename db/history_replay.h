#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <cstdint>
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "core/base/result.h"
#include "db/build_records.h"
#include "db/connection.h"

namespace rodway {

/// A field of a record.
struct FieldRef {
    RecordRef record;
    std::string field;

    bool operator<(const FieldRef& other) const {
        const ByKindAndId before;
        if (before(record, other.record)) return true;
        return record == other.record && field < other.field;
    }
};

/// What a history leads to.
struct Replay {
    RecordTexts records;        ///< those that exist at the end
    std::set<FieldRef> unknown; ///< fields whose last text was erased
};

/// An edit as its row has it.
struct PlayedEdit {
    std::optional<std::string> before;
    std::optional<std::string> after;
    bool erased = false;
};

/// Does one edit more.
void play(Replay& replay, const FieldRef& at, const PlayedEdit& edit);

/// Plays the edits of one build, or of the shop as a whole, from its first act to `last_act`,
/// from nothing. `broken` is told of every edit that doesn't begin where those before it ended.
/// Errors: those of reading; damaged_file for a kind of record nobody knows.
Result<Replay> replay_history(Connection& connection, std::int64_t build_id, std::int64_t last_act,
                              const std::function<void(const FieldRef&)>& broken);

} // namespace rodway
