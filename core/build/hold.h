#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/build/build_facts.h"
#include "core/build/edit.h"
#include "core/build/part_wait.h"
#include "core/build/stale.h"

namespace rodway {

/// What can hold a build up, the gravest first.
enum class HoldKind {
    contact,             ///< parts touch that never may: it can't be waived
    check_failed,        ///< outside its limit, whatever the doubt
    check_too_close,     ///< not to be told from its limit
    check_stale,         ///< something it depends on has changed since
    clearance_no_answer, ///< a train of the set-up has no answer
    clearance_no_doubt,  ///< a clearance that nobody has stated a doubt of is no ground for a pass
    clearance_not_known, ///< the clearance is asked for and wasn't worked out: no set-up, or one
                         ///< that makes no engine
    sheet_missing,       ///< asked for, and nothing is on it
    sheet_incomplete,    ///< boxes are still empty, or bolts were left out
    part_awaited,        ///< see `PartWait`
    cure_running,        ///< it dries, or nobody knows how long it must
    open_item,           ///< the gate waits until it is closed
    decision_pending,    ///< the customer was asked and hasn't answered
    step_open,           ///< neither ticked nor left out
    needs_not_readable,  ///< nobody can say what the gate waits for
};

/// How a hold was waived.
struct HoldWaiver {
    std::int64_t waiver_id = 0;
    std::string by;
    std::string at; ///< UTC
    std::string reason;
    std::optional<std::string> until; ///< ISO day, the last on which it is waived
};

/// One thing that holds a build up.
struct Hold {
    HoldKind kind = HoldKind::step_open;
    /// Names it for `Waiver::hold`. It says what exactly was waived: a check that was made again or
    /// overtaken again is another hold.
    std::string key;
    std::optional<RecordRef> record = {};      ///< what it comes from, if that is a record
    std::optional<std::int64_t> stage_id = {}; ///< the stage that waits; nothing: the build
    std::optional<std::int64_t> gate_id = {};  ///< its gate that waits
    std::optional<std::int64_t> step_id = {};  ///< the step that waits, or where it came up
    std::vector<std::string> positions = {};   ///< as kept; empty: not at a place
    /// What it is about: kind of sheet or `clearance_check`; item of a part, or the role of one
    /// that isn't listed; place of a cure; title of an item or step; subject of an approval; needs
    /// as written.
    std::string subject = {};
    std::string quantity = {};         ///< of a check on a sheet
    std::string value = {};            ///< of a check: as `CheckedBox`, or "0.1234 mm"
    std::string limit = {};            ///< of a check: as `CheckedBox`
    std::optional<PartWait> wait = {}; ///< of a part
    /// When it is expected to end: UTC of a cure, ISO day of a promised part or of an item that is
    /// due. Nothing: not known.
    std::optional<std::string> until = {};
    std::vector<StaleCause> causes = {}; ///< of a stale check
    std::optional<HoldWaiver> waived = {};

    /// Contact alone never may.
    [[nodiscard]] bool may_be_waived() const { return kind != HoldKind::contact; }
    [[nodiscard]] bool stands() const { return !waived; }
};

/// Why a waiver does nothing.
enum class WaiverNeglect {
    of_contact,   ///< contact is never waived: it is cured, and measured again
    expired,      ///< its last day has passed
    holds_nothing ///< what it waived doesn't hold the build up now
};

struct NeglectedWaiver {
    std::int64_t waiver_id = 0;
    WaiverNeglect why = WaiverNeglect::holds_nothing;
};

struct Holds {
    std::vector<Hold> holds;                ///< waived ones remain
    std::vector<NeglectedWaiver> neglected; ///< of the whole build, by id
};

/// What holds up one stage, by kind: its open steps; what its gates wait for; what its steps wait
/// for: parts and cures, and checks of theirs that stand badly. Each thing once, under the first
/// gate that waits for it. Empty for a stage that isn't there.
[[nodiscard]] Holds holds_of_stage(const HoldFacts& facts, std::int64_t stage_id);

/// What holds the build up now, by stage, then kind: of the stages up to the one in hand
/// (`stage_in_hand`) all; of those behind it what isn't merely work that hasn't begun, so without
/// open steps, sheets to fill and roles without a part; of no stage in particular every check that
/// stands badly, parts that are waited for, cures, and questions to the customer, unless a stage
/// has them.
[[nodiscard]] Holds holds_of_build(const HoldFacts& facts);

} // namespace rodway
