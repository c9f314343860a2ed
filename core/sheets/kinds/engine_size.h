#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/engine/displacement.h"
#include "core/sheets/kinds/bounded_reading.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// Names of the engine's cylinders: the set-up's, or, without one, those of the firing order on
/// the numbering sheet. Empty if neither says.
[[nodiscard]] std::vector<std::string> all_cylinders(const SheetFacts& facts);

/// The set-up's bore, or, without one, what was read in the cylinder. Nothing if neither is there.
/// mm.
[[nodiscard]] std::optional<Bounded> bore_of(const SheetFacts& facts, const std::string& cylinder);
/// The same of the stroke, mm.
[[nodiscard]] std::optional<Bounded> stroke_of(const SheetFacts& facts,
                                               const std::string& cylinder);

/// The engine's displacement, cc, if bore and stroke of every cylinder are known, and how many
/// there are. Error: as `displacement_cc`.
[[nodiscard]] std::optional<Result<Bounded>> engine_displacement_cc(const SheetFacts& facts);

/// The same, or, where it can't be worked out, as it was written down.
[[nodiscard]] std::optional<Interval> known_displacement_cc(const SheetFacts& facts);

/// Displacement with bores and strokes as they were read, cc, where a set-up says otherwise.
/// Nothing unless one of them is further from the set-up's than half of the smallest oversize
/// that is usual, .010 in (common practice, no source): no wear is pointed out.
[[nodiscard]] std::optional<Interval> displacement_as_read_cc(const SheetFacts& facts);

} // namespace rodway
