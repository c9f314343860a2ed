#pragma once

#include <limits>

#include "core/sheets/reading_interval.h"
#include "core/units/figure_band.h"

namespace rodway {

/// What a size may be, mm, ends included, and who says so.
struct SizeBand {
    double low_mm = 0.0;
    double high_mm = std::numeric_limits<double>::infinity(); ///< none: no upper limit
    FigureSource source = FigureSource::common_practice;
};

enum class SizeStanding {
    within,
    below,
    above,
    too_close_to_call, ///< the readings' doubt reaches over an end of the band
};

/// Judges a size by all that it may be (JCGM 106:2012: a guard band as wide as the doubt).
[[nodiscard]] SizeStanding stand_in(const Interval& size_mm, const SizeBand& band);

} // namespace rodway
