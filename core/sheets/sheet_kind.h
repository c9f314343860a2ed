#pragma once

#include <string>
#include <vector>

#include "core/sheets/quantity.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One sheet on the clipboard: what is read on one occasion, line by line. A shop's own sheets are
/// of the same type.
struct SheetKind {
    std::string id; ///< small letters, digits and "_"; never changes: shop files have it
    std::vector<Quantity> quantities; ///< in the order of the sheet's lines
    /// What follows from the readings; null where nothing does.
    SheetOutcome (*work_out)(const SheetFacts&) = nullptr;
    /// What the trade usually allows, labelled so; null where nothing is usual.
    std::vector<SheetLimit> (*usual_limits)(const SheetFacts&) = nullptr;

    bool operator==(const SheetKind&) const = default;
};

} // namespace rodway
