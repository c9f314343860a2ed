#pragma once

#include <QString>

#include "core/clearance/variant_table.h"

namespace rodway::words {

/// What is tried: "lifters +0.050 in, left intake gasket -0.015 in"; empty if nothing is.
[[nodiscard]] QString variant(const Variant& variant, const EngineLayout& layout);

/// What a variant comes to, in a few sentences: which valves are under the limit, which of them
/// aren't as it stands, which have no answer, and the tightest of all.
[[nodiscard]] QString outcome(const VariantOutcome& outcome, double limit_mm);

} // namespace rodway::words
