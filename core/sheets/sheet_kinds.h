#pragma once

#include <string_view>
#include <vector>

#include "core/sheets/sheet_kind.h"

namespace rodway {

/// The built-in kinds of sheet, in the order in which a job goes through them. A quantity stands on
/// one sheet only.
[[nodiscard]] const std::vector<SheetKind>& sheet_kinds();

/// Nothing if no built-in kind or quantity has this identity.
[[nodiscard]] const SheetKind* find_sheet_kind(std::string_view id);
[[nodiscard]] const Quantity* find_quantity(std::string_view id);

/// The sheet that a quantity stands on.
[[nodiscard]] const SheetKind* sheet_of_quantity(std::string_view quantity_id);

} // namespace rodway
