#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/build/hold.h"

namespace rodway {

/// Whether a stage may be signed off: everything that holds it is cleared, or waived.
struct SignOffAnswer {
    bool may = false;
    std::vector<Hold> standing; ///< what is in the way
    std::vector<Hold> waived;   ///< exceptions that were taken on
};
[[nodiscard]] SignOffAnswer may_sign_off(const HoldFacts& facts, std::int64_t stage_id);

/// Who signs, and when.
struct Signature {
    std::string by;
    std::string at; ///< UTC
    std::string program_version;
    std::optional<std::string> note = {};
};

/// The records of a sign-off, without ids: one for each gate of the stage, then one for the stage.
///
/// They freeze what the checks say now, each check on a line of its own, the same lines in `value`
/// ("rod_clearance 3I: .012 in, passed"), `limit_text` (">= 0.254 mm") and `limit_source`, "-"
/// where there is none. The verdict of the whole is "passed", or "waived" where an exception was
/// taken on; the note names those by their keys.
///
/// Errors: no_such_record "stage"; not_of_this_kind "holds" (`expected` "held_up"), if it may not
/// be signed off: `value` the keys of what is in the way.
[[nodiscard]] Result<std::vector<SignOff>> sign_offs_to_keep(const HoldFacts& facts,
                                                             std::int64_t stage_id,
                                                             const Signature& signature);

/// The newest sign-off of a stage and those of its gates that were made with it, not withdrawn.
[[nodiscard]] std::vector<SignOff> sign_offs_of_stage(const BuildFacts& records,
                                                      std::int64_t stage_id);

/// The waiver of a hold: gate, subject, reason and key; the rest is for the caller.
/// Errors: empty_text "reason"; no_such_record "hold", `expected` the keys that may be waived, if
/// no hold of this key stands; not_of_this_kind "hold" (`expected` "contact") if it is contact.
[[nodiscard]] Result<Waiver> waiver_of(const Holds& holds, std::string_view key,
                                       std::string_view reason);

} // namespace rodway
