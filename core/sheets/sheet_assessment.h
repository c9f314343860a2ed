#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sheets/sheet_kind.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One box of a sheet: what was read there, what is worked out there, and how it stands.
struct SheetBox {
    std::string position;            ///< as kept
    std::optional<Taken> taken;      ///< nothing: nobody wrote anything yet
    std::optional<Interval> figure;  ///< what the readings make of it
    std::optional<SheetLimit> limit; ///< the one by which the verdict is
    SheetVerdict verdict = SheetVerdict::no_number;
    std::optional<SheetLimit> new_limit;  ///< what rules for new parts
    std::optional<SheetLimit> used_limit; ///< what rules for used ones
};

/// A verdict and the limit it is by.
struct SheetJudgement {
    SheetVerdict verdict = SheetVerdict::no_limit;
    std::optional<SheetLimit> limit;
};

/// Puts a number to the limit for new parts, and to that for used ones if it misses the first.
[[nodiscard]] SheetJudgement judge_both(const Interval& value,
                                        const std::optional<SheetLimit>& new_limit,
                                        const std::optional<SheetLimit>& used_limit);

/// One quantity with its boxes.
struct SheetLine {
    Quantity quantity;
    std::vector<SheetBox> boxes;
};

/// A sheet as it stands.
struct AssessedSheet {
    std::string kind;
    std::vector<SheetLine> lines;
    std::vector<SheetFinding> findings;
    int boxes_to_fill = 0; ///< of quantities that are read, at their usual positions
    int boxes_filled = 0;  ///< of these, written to, be it "n/m"
    int failed = 0;        ///< boxes, and so on
    int too_close = 0;
};

/// Every line of a kind of sheet with its usual positions in the order asked for, and those beyond
/// that were written to. Retakes, limits (`shop_limits`: the shop's before the build's), figures
/// and findings as they stand; a figure written down by hand which the readings contradict, and a
/// reading that stands apart from its row (`odd_ones_out`), are pointed out on every sheet.
[[nodiscard]] AssessedSheet assess_sheet(const SheetKind& kind, const SheetFacts& facts,
                                         const std::vector<SheetLimit>& shop_limits,
                                         EntryOrder order);

} // namespace rodway
