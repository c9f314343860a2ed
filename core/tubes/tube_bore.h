#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

enum class TubeDepth { top, middle, bottom };
enum class TubeDirection {
    along, ///< the crank
    across,
};

/// A pushrod tube's inside diameter, 3 to 60 mm, at one depth in one direction.
struct TubeBoreReading {
    TubeDepth depth = TubeDepth::top;
    TubeDirection direction = TubeDirection::along;
    Interval bore_mm;
};

struct TubeSection {
    TubeDepth depth = TubeDepth::top;
    std::optional<Interval> along_mm;
    std::optional<Interval> across_mm;
    /// Along less across: above zero, longer along the crank. Empty unless both were read.
    std::optional<Interval> oval_mm;
};

struct TubeBore {
    std::vector<TubeSection> sections; ///< where anything was read, from the top
    Interval least_mm;                 ///< of all readings: what a rod has
    Interval greatest_mm;
    /// Top less bottom in one direction: above zero, wider at the top. Empty unless both were read.
    std::optional<Interval> taper_along_mm;
    std::optional<Interval> taper_across_mm;
    std::optional<Interval> greatest_oval_mm; ///< without its sign, of all depths
};

/// Errors: too_few_rows ("bore"); duplicate_field ("bore", a place twice); out_of_range,
/// not_a_number, order_wrong ("bore"); `line` is the reading's place.
Result<TubeBore> tube_bore(const std::vector<TubeBoreReading>& readings);

} // namespace rodway
