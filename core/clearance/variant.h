#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/engine/engine.h"

namespace rodway {

/// What a builder may try: differences from the engine as it stands, mm.
struct Variant {
    double lifter_taller_mm = 0.0;         ///< seat height of every lifter; the adjuster is re-set
    double rod_thicker_mm = 0.0;           ///< diameter of every rod
    std::vector<double> gasket_thicker_mm; ///< per bank, in the layout's order; missing ones are 0

    [[nodiscard]] bool changes_nothing() const;
};

/// The engine with the variant made. Errors: out_of_range, with limits in inches, for a lifter, rod
/// or gasket beyond what a set-up may hold; bore_smaller_than_rod.
Result<Engine> with_variant(const Engine& engine, const Variant& variant);

} // namespace rodway
