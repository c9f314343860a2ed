#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/valve_position.h"
#include "core/units/figure_band.h"

namespace rodway {

/// One valve guide and the stem that runs in it, read at one depth. What wasn't read stays empty.
struct GuideReading {
    double depth_mm = 0.0; ///< from the guide's end at the spring, 0 to 200
    std::optional<Interval> bore_mm;
    std::optional<Interval> stem_mm;
};

struct GuideAndStem {
    std::vector<GuideReading> depths;       ///< depths rising
    std::optional<Interval> unworn_stem_mm; ///< the stem where no guide ever touched it
};

struct StemClearanceAtDepth {
    double depth_mm = 0.0;
    Interval clearance_mm; ///< negative: the stem is thicker than the guide is wide
};

/// Clearances are of diameters: guide less stem.
struct StemClearance {
    std::vector<StemClearanceAtDepth> at_depths; ///< where bore and stem were both read
    /// The stem slides, so that any of its diameters may come to stand at any depth: tightest bore
    /// less thickest stem, and widest bore less thinnest stem.
    Interval tightest_mm;
    Interval loosest_mm;
    /// How much wider the guide is at its end than where it is narrowest between its ends: bell
    /// mouth. Negative: it narrows there. Empty unless both ends and a depth between were read.
    std::optional<Interval> upper_bell_mm;
    std::optional<Interval> lower_bell_mm;
    std::optional<Interval> stem_wear_mm; ///< unworn less thinnest; empty without an unworn reading
};

/// Errors: too_few_rows ("bore", "stem": none was read), order_wrong ("depth"), out_of_range and
/// not_a_number ("depth", "bore", "stem", "unworn_stem": 2 to 30 mm).
Result<StemClearance> stem_clearance(const GuideAndStem& readings);

/// .0010 to .0020 in for an intake valve, .0015 to .0025 for an exhaust (common practice, no
/// source).
[[nodiscard]] FigureBand usual_stem_clearance_mm(ValveKind kind);

} // namespace rodway
