#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/clearance/survey.h"
#include "core/clearance/variant.h"

namespace rodway {

/// A variant by the name that a builder gives it.
struct NamedVariant {
    std::string name;
    Variant variant;
};

/// One valve with one variant made.
struct TriedClearance {
    ValveClearance line; ///< as `survey` finds it
    /// Least clearance less the one as it stands, mm; empty where either has no answer.
    std::optional<double> change_mm;
    /// Under the limit now, and not as it stands (or without an answer there).
    bool falls_below_limit = false;
};

/// One valve as it stands, and by each variant, in the order of the table's variants.
struct ValveVariants {
    ValveClearance as_it_stands;
    std::vector<TriedClearance> by_variant;
};

/// One variant, over all valves.
struct VariantOutcome {
    std::string name;
    Variant variant;
    std::vector<ValvePosition> below_limit;       ///< least clearance under the limit
    std::vector<ValvePosition> falls_below_limit; ///< those of them that aren't as it stands
    std::vector<ValvePosition> without_answer;
    /// The valve with the least clearance of all, and that, mm; both empty without any answer.
    std::optional<ValvePosition> tightest;
    std::optional<double> least_mm;
};

/// Variants side by side, valve by valve.
struct VariantTable {
    std::vector<ValveVariants> valves; ///< in the order of the engine's trains
    VariantOutcome as_it_stands;       ///< its `falls_below_limit` is empty
    std::vector<VariantOutcome> variants;
};

/// Surveys the engine as it stands and with each variant made, always from how it stands: a variant
/// doesn't build on the one before. The limit is `engine.rod_clearance_limit_mm`. A stop asked for
/// meanwhile ends it with the valves and variants done so far: then rows or columns are missing.
/// Errors: as `with_variant`, the field led by the variant's name; banks_parallel.
[[nodiscard]] Result<VariantTable> variant_table(const Engine& engine,
                                                 const std::vector<NamedVariant>& variants,
                                                 const std::stop_token& stop = {});

} // namespace rodway
