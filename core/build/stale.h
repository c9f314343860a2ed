#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/build/build_timeline.h"
#include "core/build/check_dependence.h"
#include "core/build/edit.h"
#include "core/build/records.h"

namespace rodway {

/// A check that was made: a reading on a sheet, the clearance worked out from the set-up, or a
/// sign-off of either.
struct MadeCheck {
    std::string kind;     ///< kind of sheet, or `clearance_check`
    std::string quantity; ///< of a reading; empty: all of the kind that can become stale
    std::string position; ///< as kept; empty: of the whole engine
    std::int64_t act = 0; ///< the act that made it
    std::string made_at;  ///< UTC, that act's
    std::optional<std::int64_t> reading_id = {}; ///< nothing if it isn't a reading
    /// Only what it depends on for this reason counts; nothing: all does.
    std::optional<DependenceReason> reason = {};
};

/// What changed after a check was made and makes it stale: one field of one record.
struct StaleCause {
    RecordRef record;  ///< the part; the set-up; the reading that counts now, or that went
    std::string field; ///< of the part ("length", "fitted", "exists"); path; the reading's quantity
    std::string name;  ///< what the part is called; the reading's position; empty for a path
    std::string role;  ///< of a part
    /// What it was when the check was made, and what it is now, as typed; nothing: nothing.
    std::optional<std::string> before;
    std::optional<std::string> now;
    /// The edit by which it left what it was. What came later didn't bring it back.
    std::int64_t act = 0;
    std::string since; ///< UTC
    std::string who;
    DependenceReason reason = DependenceReason::changes_fit;
};

struct StaleCheck {
    MadeCheck check;
    std::vector<StaleCause> causes; ///< by act and field; never empty
};

/// Which checks no longer say anything of the engine as it stands, in the order of `checks`.
///
/// A check is stale if something it depends on (`check_dependences`) is now other than it was at
/// the end of the check's act:
/// - a part of a role was fitted, taken out or put back, or another took its place (`replaces_id`);
///   or its length, size or thread is another. A part is in the engine if it has a day of fitting,
///   or no day at all, which leaves it open, and was neither given back nor replaced: what is on
///   order or lies in the shop isn't.
/// - a field of the set-up in hand has another value. A value typed another way (".5" and "1/2") is
///   none.
/// - a reading was retaken with another value: their ranges, half a step of the last digit either
///   side, don't overlap. A first reading counts where the table says so.
/// What is written down for the first time after the check is no change, and counts as having been
/// so before: a part without days, a size, a first set-up, a first reading.
/// A change that was taken back, by undo or by hand, leaves the check good; so does making it
/// again.
///
/// Which cylinder stands in which bank, the set-up in hand says.
[[nodiscard]] std::vector<StaleCheck> stale_checks(const std::vector<MadeCheck>& checks,
                                                   const BuildTimeline& timeline);

/// The checks that stand on sheets now: of each quantity that can become stale, the reading that
/// counts at each position, unless it says that nothing was measured. Made by the first act after
/// which it read as it does now, so that a slip put right doesn't make it new.
[[nodiscard]] std::vector<MadeCheck> checks_made(const BuildTimeline& timeline);

/// The pushrod clearance of the set-up in hand: for each reason of its dependences one check, made
/// by the first act after which the fields that stand there for this reason were as they are now. A
/// change of a part is so answered by a change of the fields that speak of it, and by no other.
/// None without a set-up.
[[nodiscard]] std::vector<MadeCheck> clearance_checks_made(const BuildTimeline& timeline);

} // namespace rodway
