#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace rodway {

/// A stage plan that the shop keeps for itself, in the words of `core/files/stage_plan`. Its word
/// never changes; one with the word of a built-in plan goes before it.
struct ShopPlan {
    std::int64_t id = 0;
    std::string word;
    std::string title;
    std::string content;
    std::optional<std::string> note;
};

/// One part of a build's plan, and its steps.
struct Stage {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    int ordinal = 0;
    std::string title;
    std::optional<std::string> caution;        ///< key of a caution, see `core/build/caution.h`
    std::optional<std::string> plan_item = {}; ///< which item of which stage plan it came from
};

/// One thing to do and tick. A tick can be taken back; the history keeps both.
struct Step {
    std::int64_t id = 0;
    std::int64_t stage_id = 0;
    int ordinal = 0;
    std::string title;
    std::optional<std::string> ticked_by;
    std::optional<std::string> ticked_at; ///< UTC
    std::optional<std::string> detail = {};
    std::optional<std::string> caution = {};    ///< as of `Stage`
    std::optional<std::string> sheet_kind = {}; ///< kind of the sheet that is filled in here
    std::optional<std::string> not_needed = {}; ///< why it is left out in this build
    std::optional<std::string> plan_item = {};
    std::optional<std::string> part_roles =
        {}; ///< roles of the parts it needs: "head_gasket, head_bolt"
};

/// What must be true before the work goes on past a stage.
struct Gate {
    std::int64_t id = 0;
    std::int64_t stage_id = 0;
    int ordinal = 0;
    std::string title;
    std::optional<std::string> needs; ///< which checks, as the stage plan writes it
    std::optional<std::string> plan_item;
};

/// Somebody answers for a check. Value, limit, verdict and program version stand as they were
/// then, whatever a later program would say; only its withdrawal can be added.
struct SignOff {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> gate_id;
    std::optional<std::int64_t> step_id;
    std::optional<std::int64_t> reading_id;
    std::string subject; ///< what was signed
    std::optional<std::string> value;
    std::optional<std::string> limit_text;
    std::optional<std::string> limit_source;
    std::string verdict;
    std::string program_version;
    std::string signed_by;
    std::string signed_at; ///< UTC
    std::optional<std::string> note;
    std::optional<std::string> withdrawn_by;
    std::optional<std::string> withdrawn_at; ///< UTC
    std::optional<std::string> withdrawn_reason;
    std::optional<std::int64_t> stage_id = {}; ///< the stage that was signed off as a whole
};

/// Going on past something that did not pass, on purpose.
struct Waiver {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> gate_id;
    std::string subject;
    std::string reason;
    bool customer_told = false;
    std::string waived_by;
    std::string waived_at;                ///< UTC
    std::optional<std::string> until;     ///< ISO date after which it no longer holds
    std::optional<std::string> hold = {}; ///< key of what held the work up, see `core/build/hold`
};

/// A sealant, adhesive or paint as its label states it, entered once.
struct Product {
    std::int64_t id = 0;
    std::string name;
    std::optional<std::string> purpose;
    std::optional<int> handling_minutes; ///< until it may be handled
    std::optional<int> full_minutes;     ///< until it has cured fully
    std::optional<std::string> note;
};

/// Something that is drying or curing on this engine. The times are those of the label on the day.
struct Cure {
    std::int64_t id = 0;
    std::int64_t build_id = 0;
    std::optional<std::int64_t> product_id;
    std::optional<std::int64_t> step_id;
    std::string place;
    std::optional<int> handling_minutes;
    std::optional<int> full_minutes;
    std::string applied_by;
    std::string applied_at;           ///< UTC
    std::optional<std::string> ended; ///< UTC time when it was found cured, or taken off
    std::optional<std::string> note;
};

} // namespace rodway
