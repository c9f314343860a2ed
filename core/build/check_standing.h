#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/clearance/survey.h"
#include "core/sheets/sheet_assessment.h"

namespace rodway {

/// One box of a sheet that has something to say for or against the work.
struct CheckedBox {
    std::string quantity;
    std::string position;                        ///< as kept
    std::optional<std::int64_t> reading_id = {}; ///< nothing: worked out from others
    std::string value = {}; ///< as typed, with its unit; worked out: in the unit it is held in;
                            ///< empty of a finding
    std::string limit = {}; ///< "0.254 to 0.381 mm", "from 0.254 mm": empty: none
    std::string limit_source = {}; ///< who says so; "common_practice" if nobody in particular
    SheetVerdict verdict = SheetVerdict::no_number;
    /// Nothing lies between two parts that must never touch.
    bool contact = false;
};

/// How one kind of sheet of a build stands.
struct SheetStanding {
    std::string kind;
    /// Boxes that must be written to, be it "n/m": of the quantities that say how parts stand to
    /// each other (`check_quantities`) and that were begun, at their usual positions; all of a
    /// shop's own sheet; of one that has no such quantities any one box.
    int boxes_to_fill = 0;
    int boxes_filled = 0;
    std::vector<CheckedBox> boxes;     ///< with a number and a limit, or found wrong; sheet's order
    std::vector<std::string> empty_at; ///< positions of boxes still to fill, each once

    /// Nothing of what it is asked for stands on it.
    [[nodiscard]] bool is_missing() const { return boxes_filled == 0; }
    [[nodiscard]] bool is_complete() const { return boxes_filled > 0 && empty_at.empty(); }
};

[[nodiscard]] SheetStanding sheet_standing(const AssessedSheet& sheet);

/// Whether "nothing between them" is contact for the two parts of this quantity: rod and wall,
/// valve and piston, what turns and what stands, coils of a spring.
[[nodiscard]] bool is_contact_quantity(std::string_view quantity);

/// How one valve's pushrod stands, worked out from the set-up in hand.
struct ClearanceStanding {
    std::string position; ///< "3I"
    /// Nothing: the train has no answer, for it can't close or its rod doesn't go through.
    std::optional<Verdict> verdict;
    std::optional<double> clearance_mm;
    std::optional<double> doubt_mm; ///< ±; nothing if nobody has stated it
    double limit_mm = 0.0;          ///< by which it is judged
};

/// `limit_mm`: that of the engine which was surveyed, `Engine::rod_clearance_limit_mm`.
[[nodiscard]] std::vector<ClearanceStanding> clearance_standings(
    std::span<const ValveClearance> lines, double limit_mm);

} // namespace rodway
