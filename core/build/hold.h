#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/check_standing.h"
#include "core/build/cure_state.h"
#include "core/build/part_wait.h"
#include "core/build/records.h"
#include "core/build/stale.h"

namespace rodway {

/// The records of one build on which it depends how the work stands, as of one moment.
struct BuildFacts {
    Build build;
    std::vector<Stage> stages; ///< by ordinal
    std::vector<Step> steps;   ///< by ordinal; and so on
    std::vector<Gate> gates;
    std::vector<Waiver> waivers;
    std::vector<SignOff> sign_offs;
    std::vector<Cure> cures;
    std::vector<OpenItem> open_items;
    std::vector<PartRecord> parts;
    std::vector<Approval> approvals;
    /// Edits of parts, set-ups, readings and sign-offs, in the order of the history.
    std::vector<BuildChange> changes;
};

/// All that holds are worked out from.
struct HoldFacts {
    BuildFacts records;
    std::vector<SheetStanding> sheets; ///< every kind of sheet that a step or gate may ask for
    /// Every valve's pushrod in the set-up in hand; nothing where it wasn't worked out.
    std::optional<std::vector<ClearanceStanding>> clearances;
    std::vector<StaleCheck> stale;       ///< sheets and clearance: `stale_checks`
    std::vector<std::int64_t> overtaken; ///< ids of sign-offs that `overtaken_sign_offs` found
    std::string now_utc;
    std::string today; ///< ISO day of the shop's calendar
};

/// What can hold a build up, the gravest first.
enum class HoldKind {
    contact,             ///< parts touch that never may: it can't be waived
    check_failed,        ///< outside its limit, whatever the doubt
    check_too_close,     ///< not to be told from its limit
    check_stale,         ///< something it depends on has changed since
    clearance_no_answer, ///< a train of the set-up has no answer
    clearance_not_known, ///< the clearance is asked for and wasn't worked out: no set-up, or one
                         ///< that makes no engine
    sheet_missing,       ///< asked for, and nothing is on it
    sheet_incomplete,    ///< boxes are still empty
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
    /// Names it for `Waiver::hold`. It says what exactly was waived: a check that was made again,
    /// or changed again, is another hold.
    std::string key;
    std::optional<RecordRef> record;      ///< what it comes from, if that is a record
    std::optional<std::int64_t> stage_id; ///< the stage that waits; nothing: the build as a whole
    std::optional<std::int64_t> gate_id;  ///< its gate that waits
    std::optional<std::int64_t> step_id;  ///< its step that waits
    std::vector<std::string> positions;   ///< as kept; empty: not at a place
    /// What it is about: kind of sheet, `clearance_check`, role or item of a part, place of a cure,
    /// title of an item or step, subject of an approval, needs as written.
    std::string subject;
    std::string quantity = {};         ///< of a check on a sheet
    std::string value = {};            ///< of a check: as typed, or worked out with its unit
    std::string limit = {};            ///< of a check
    std::optional<PartWait> wait = {}; ///< of a part
    /// When it ends by itself: UTC of a cure, ISO day of a promised part or an item's due day.
    std::optional<std::string> until = {};
    std::vector<StaleCause> causes = {}; ///< of a stale check
    bool may_be_waived = true;           ///< false of contact alone
    std::optional<HoldWaiver> waived = {};
};

/// Why a waiver does nothing.
enum class WaiverNeglect {
    of_contact,  ///< contact is never waived: it is cured, and measured again
    expired,     ///< its last day has passed
    nothing_held ///< what it waived doesn't hold anything up now
};

struct NeglectedWaiver {
    std::int64_t waiver_id = 0;
    WaiverNeglect why = WaiverNeglect::nothing_held;
};

struct Holds {
    std::vector<Hold> holds; ///< by stage, then kind, then as they stand; waived ones remain
    std::vector<NeglectedWaiver> neglected; ///< of the build, by id
};

/// What holds up one stage: its open steps; what its gates wait for; sheets, parts and cures of its
/// steps. Each thing once, under the first gate that waits for it.
[[nodiscard]] Holds holds_of_stage(const HoldFacts& facts, std::int64_t stage_id);

/// What holds the build up now: all of the stages up to the one in hand (`stage_in_hand`), and of
/// those behind it what isn't merely work that hasn't begun: contact, checks that failed, are too
/// close or stale, parts that are listed, cures, items, decisions. Cures and parts of no stage, and
/// decisions that no gate waits for, stand without one.
[[nodiscard]] Holds holds_of_build(const HoldFacts& facts);

/// How a stage stands.
struct StageState {
    std::int64_t stage_id = 0;
    int steps = 0;
    int steps_done = 0; ///< ticked, or left out
    int standing = 0;   ///< holds that aren't waived
    int waived = 0;
    std::optional<std::int64_t> sign_off_id; ///< the newest of the whole stage, not withdrawn
    /// Signed, and something has changed since: it stands, and the stage is open again.
    bool overtaken = false;
    /// The work has gone on past it: signed and not overtaken; without gates also if all steps are
    /// done and nothing holds it.
    bool passed = false;
};
[[nodiscard]] std::vector<StageState> stage_states(const HoldFacts& facts);

/// The first stage that isn't passed; nothing once all are.
[[nodiscard]] std::optional<std::int64_t> stage_in_hand(const HoldFacts& facts);

enum class NextKind {
    step,     ///< do `step_id`
    wait,     ///< every open step of the stage waits for something: `hold` says for what first
    hold,     ///< all steps are done: clear `hold`
    sign_off, ///< nothing holds the stage any more
    nothing,  ///< every stage is passed, or there is none
};

struct NextThing {
    NextKind kind = NextKind::nothing;
    std::optional<std::int64_t> stage_id;
    std::optional<std::int64_t> step_id;
    std::optional<Hold> hold;
};

/// What to do next: in the stage in hand the first open step that waits for no part and no cure.
[[nodiscard]] NextThing next_thing(const HoldFacts& facts);

/// Whether a stage may be signed off: every hold is cleared, or waived.
struct SignOffAnswer {
    bool may = false;
    std::vector<Hold> standing; ///< what is in the way
    std::vector<Hold> waived;   ///< exceptions that were taken on
};
[[nodiscard]] SignOffAnswer may_sign_off(const HoldFacts& facts, std::int64_t stage_id);

/// Ids of the sign-offs, of gates and stages, that no longer say how things stand: something that
/// their checks depend on has changed since, even if the checks were made again. They remain; the
/// work is signed off anew.
[[nodiscard]] std::vector<std::int64_t> overtaken_sign_offs(const BuildFacts& records,
                                                            const BanksOfCylinders& banks);

/// Who signs, and when.
struct Signature {
    std::string by;
    std::string at; ///< UTC
    std::string program_version;
    std::optional<std::string> note;
};

/// The records of a sign-off, without ids: one for each gate of the stage and one for the stage,
/// which comes last. They freeze what the checks said: value, limit, its source and verdict, each
/// check on a line of its own; the verdict of all is "passed", or "waived" where an exception was
/// taken on. Errors: no_such_record "stage"; out_of_range "holds" (`value` the first key that is in
/// the way, `limits` how many may stand: none) if the stage may not be signed off.
[[nodiscard]] Result<std::vector<SignOff>> sign_offs_to_keep(const HoldFacts& facts,
                                                             std::int64_t stage_id,
                                                             const Signature& signature);

/// The waiver of a hold, without an id. Errors: no_such_record "hold" if nothing of this key holds
/// the build up; not_of_this_kind "hold" (`expected` "contact") if it is contact; empty_text
/// "reason".
[[nodiscard]] Result<Waiver> waiver_of(const Holds& holds, std::string_view key,
                                       std::string_view reason);

} // namespace rodway
