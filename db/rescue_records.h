#pragma once

// SQL stays in `db`: nothing outside it includes this header.

#include <functional>
#include <map>
#include <set>
#include <vector>

#include "db/history_replay.h"
#include "db/rescue.h"
#include "db/rescue_rows.h"

namespace rodway {

/// What the edits that can be read lead to, whether their acts can be read or not.
struct RescuedHistory {
    Replay replay;
    /// What a record belongs to, even one that was removed.
    std::map<RecordRef, RecordRef, ByKindAndId> owners;
    /// In which builds' chains of digests the record's edits stand.
    std::map<RecordRef, std::set<std::int64_t>, ByKindAndId> chains;

    /// `shop_wide` for what belongs to no build.
    [[nodiscard]] std::int64_t build_of(RecordRef record) const;
};

[[nodiscard]] RescuedHistory replay_rows(const RescuedRows& rows);

/// Records that can stand in a sound file together, and what became of those that can't.
struct SettledRecords {
    RecordTexts records;
    std::vector<RescueNote> notes; ///< in the order of kinds and ids
};

/// `sealed` tells of a build whether its history is whole and as it was sealed. Where that is so of
/// every build in which its edits or its row place a record, the history decides, for a row may
/// read well and yet have been overwritten. Else the row does, and the history stands in for what
/// can't be read.
[[nodiscard]] SettledRecords settle_records(const RescuedRows& rows, const RescuedHistory& history,
                                            const std::function<bool(std::int64_t)>& sealed);

} // namespace rodway
