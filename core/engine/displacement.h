#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/units/bounded.h"

namespace rodway {

/// π/4·d², mm². `diameter_mm`: 0 or more.
[[nodiscard]] double circle_mm2(double diameter_mm);

/// One cylinder's bore, 10 to 1000 mm, and stroke, 10 to 1000 mm.
struct BoreAndStroke {
    Bounded bore_mm;
    Bounded stroke_mm;
};

/// What is wrong with one, if anything. The field is "bore" or "stroke"; not_a_number,
/// out_of_range, order_wrong.
[[nodiscard]] std::optional<Error> wrong_size(const BoreAndStroke& cylinder,
                                              std::optional<int> line = {});

/// What one piston sweeps: π/4·B²·S, cc. Source: Heywood, Internal Combustion Engine Fundamentals,
/// eqs. 2.1 to 2.3. Errors: as `wrong_size`.
Result<Bounded> swept_cc(const BoreAndStroke& cylinder);

/// The whole engine's, cc, of equal cylinders. Errors: as `wrong_size`; out_of_range ("cylinders",
/// 1 to 64).
Result<Bounded> displacement_cc(const BoreAndStroke& each, int cylinders);

/// The whole engine's, cc, of cylinders that may differ, each doubtful by itself. Errors: as
/// `wrong_size`, `line` the cylinder's place in the list, counted from 1; too_few_rows
/// ("cylinders").
Result<Bounded> displacement_cc(const std::vector<BoreAndStroke>& cylinders);

} // namespace rodway
