#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/clearance/survey.h"
#include "core/sheets/sheet_assessment.h"

namespace rodway {

/// One box of a sheet that isn't as it should be, or says how things stand.
struct CheckedBox {
    std::string quantity;
    std::string position;                   ///< as kept
    std::optional<std::int64_t> reading_id; ///< nothing: worked out from others
    std::string value;                      ///< as typed; worked out: in the unit it is held in
    std::string limit;                      ///< ".25 to .5 mm": numbers and unit; empty: none
    std::string limit_source;               ///< who says so; "common_practice"
    SheetVerdict verdict = SheetVerdict::no_number;
    /// Nothing lies between two parts that must never touch: rod and wall, valve and piston, coils
    /// of a spring.
    bool contact = false;
};

/// How one kind of sheet of a build stands.
struct SheetStanding {
    std::string kind;
    int boxes_to_fill = 0;
    int boxes_filled = 0;
    std::vector<CheckedBox> boxes;          ///< those with a number, in the sheet's order
    std::vector<std::string> empty_at = {}; ///< positions of boxes still to fill, each once
};

[[nodiscard]] SheetStanding sheet_standing(const AssessedSheet& sheet);

/// Whether "no clearance at all" between the parts of this quantity is contact.
[[nodiscard]] bool is_contact_quantity(std::string_view quantity);

/// How one valve's pushrod stands, worked out from the set-up in hand.
struct ClearanceStanding {
    std::string position; ///< "3I"
    /// Nothing: the train has no answer, for it can't close or its rod doesn't go through.
    std::optional<Verdict> verdict;
    std::optional<double> clearance_mm;
    std::optional<double> doubt_mm; ///< ±; nothing if nobody has stated it
};

[[nodiscard]] std::vector<ClearanceStanding> clearance_standings(
    std::span<const ValveClearance> lines);

} // namespace rodway
