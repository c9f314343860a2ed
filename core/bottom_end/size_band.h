#pragma once

#include <limits>

#include "core/sheets/figure_source.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// What a size may be, mm, ends included, and who says so.
struct SizeBand {
    double low_mm = 0.0;
    double high_mm = std::numeric_limits<double>::infinity(); ///< none: no upper limit
    FigureSource source = FigureSource::common_practice;
};

enum class BandStanding {
    within,
    below,
    above,
    too_close_to_call, ///< the readings' doubt reaches over an end of the band
};

/// Judges a size by all that it may be (JCGM 106:2012: a guard band as wide as the doubt).
[[nodiscard]] BandStanding stand_in(const ReadingInterval& size_mm, const SizeBand& band);

} // namespace rodway
