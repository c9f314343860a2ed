#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/build/build_change.h"
#include "core/build/check_standing.h"
#include "core/build/records.h"
#include "core/build/stale.h"

namespace rodway {

/// The records of one build on which it depends how the work stands, as of one moment.
struct BuildFacts {
    Build build;
    std::vector<Stage> stages; ///< by ordinal
    std::vector<Step> steps;   ///< by stage and ordinal
    std::vector<Gate> gates;   ///< by stage and ordinal
    std::vector<Waiver> waivers;
    std::vector<SignOff> sign_offs;
    std::vector<Cure> cures;
    std::vector<OpenItem> open_items;
    std::vector<PartRecord> parts;
    std::vector<Approval> approvals;
    /// Edits of parts, set-ups, readings and sign-offs, in the order of the history.
    std::vector<BuildChange> changes;
};

/// What the work is judged by at one moment.
struct HoldFacts {
    BuildFacts records;
    std::vector<SheetStanding> sheets; ///< every kind of sheet there is
    /// Every valve's pushrod in the set-up in hand; nothing where it wasn't worked out.
    std::optional<std::vector<ClearanceStanding>> clearances;
    std::vector<StaleCheck> stale;       ///< on sheets, and of the clearance
    std::vector<std::int64_t> overtaken; ///< ids of sign-offs: see `overtaken_sign_offs`
    std::string now_utc;
    std::string today; ///< ISO day of the shop's calendar
};

/// Puts them together, and finds what is stale and overtaken.
[[nodiscard]] HoldFacts hold_facts(BuildFacts records, std::vector<SheetStanding> sheets,
                                   std::optional<std::vector<ClearanceStanding>> clearances,
                                   std::string now_utc, std::string today);

/// Ids of the sign-offs, of gates and stages, that no longer say how things stand: something that
/// their checks depend on has changed since, even if the checks were made again. They remain as
/// they are; the work is signed off anew. A stage's goes with its gates'.
[[nodiscard]] std::vector<std::int64_t> overtaken_sign_offs(const BuildFacts& records,
                                                            const BuildTimeline& timeline);

} // namespace rodway
