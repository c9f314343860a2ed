#pragma once

#include <optional>

#include "core/units/interval.h"

namespace rodway {

/// Who says what a figure should be. Each goes before those named above it.
enum class FigureSource {
    common_practice, ///< what the trade usually does: no source, never a fact
    published,       ///< a named publication says so
    shop,            ///< a limit of the shop's own
    measured_here,   ///< on this very engine
    makers_instructions,
};

/// What a figure should be, ends included, and who says so. In the unit of what is judged.
struct FigureBand {
    std::optional<double> low; ///< none: no least
    std::optional<double> high;
    FigureSource source = FigureSource::common_practice;
};

/// Where a figure stands to a band. A doubt that reaches over an end decides nothing (JCGM
/// 106:2012).
enum class BandStanding {
    inside,
    below,
    above,
    may_be_below,
    may_be_above,
    may_be_either, ///< the doubt is wider than the band
};

/// An end is met if it is missed by no more than a billionth of itself, or 1e-9: sums of typed
/// decimals don't come out even.
[[nodiscard]] BandStanding standing(const Interval& figure, const FigureBand& band);

} // namespace rodway
