#pragma once

#include <string>
#include <vector>

#include "core/sheets/quantity.h"

namespace rodway {

/// One sheet on the clipboard: what is read on one occasion, line by line. A shop's own sheets are
/// of the same type.
struct SheetKind {
    std::string id; ///< small letters, digits and "_"; never changes: shop files have it
    std::vector<Quantity> quantities; ///< in the order of the sheet's lines

    bool operator==(const SheetKind&) const = default;
};

} // namespace rodway
