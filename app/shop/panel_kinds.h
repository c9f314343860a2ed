#pragma once

#include "app/shop/panel_kind.h"

namespace rodway {

// The shop's own records, one kind a panel: which fields, in which words, and what a record must
// be.

[[nodiscard]] PanelKind people_panel();
[[nodiscard]] PanelKind customers_panel();
[[nodiscard]] PanelKind instruments_panel();
[[nodiscard]] PanelKind products_panel();
[[nodiscard]] PanelKind limits_panel();
[[nodiscard]] PanelKind shop_details_panel();

/// Days before a calibration is due from which on that is told.
inline constexpr int calibration_soon_days = 30;

} // namespace rodway
