#pragma once

#include <span>
#include <vector>

#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// Whether a row of this quantity is meant to be alike: lengths, forces, masses, volumes, pressures
/// and shares that are read at every cylinder, valve, ring, main journal or crank pin. Angles,
/// torques, what is read in series or by speed, and what casting corners or spots have, are not.
[[nodiscard]] bool row_should_be_alike(const Quantity& quantity);

/// Readings that stand apart from their row, by `row_statistics`; none for a quantity whose rows
/// needn't be alike. A row is what differs in cylinder or journal only: intake valves, exhaust
/// valves, top rings, "front vertical" of all mains.
[[nodiscard]] std::vector<SheetFinding> odd_ones_out(const Quantity& quantity,
                                                     std::span<const Taken> taken);

} // namespace rodway
