#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/sheets/reading_interval.h"
#include "core/units/figure_band.h"

namespace rodway {

enum class PistonRing { top, second };
enum class RingUse { road, boosted };

/// What a ring's end gap should be, as a share of the bore: .0045 is four and a half thousandths
/// for each inch.
struct RingGapFigure {
    double least_per_bore = 0.0;
    double most_per_bore = 0.0; ///< to file to; more does no good
    FigureSource source = FigureSource::common_practice;
};

/// Common practice, no source: top ring .0040 to .0045 for the road, .0050 to .0060 boosted; second
/// ring .0050 to .0055 and .0055 to .0065. The ring maker's card rules.
[[nodiscard]] RingGapFigure common_ring_gap(PistonRing ring, RingUse use);

enum class RingGapStanding {
    within,
    file,              ///< too small: take off what is said
    too_large,         ///< can't be put back
    too_close_to_call, ///< the feeler's doubt leaves it open
};

/// A ring's gap beside what it should be.
struct RingGap {
    double least_mm = 0.0;
    double most_mm = 0.0;
    RingGapStanding standing = RingGapStanding::within;
    /// To take off its ends altogether so that the gap is sure to be at least the least, mm; 0
    /// where it is already.
    double file_mm = 0.0;
};

/// `bore_mm` 10 to 1000; gap 0 to 50 mm. Errors: not_a_number, out_of_range; fields "bore", "gap",
/// "least_per_bore" (0.0005 to 0.05), "most_per_bore" (no less than it).
Result<RingGap> ring_gap(double bore_mm, const Interval& gap_mm, const RingGapFigure& figure);

/// A gap read in one bore as it is in another: the ring's length around stays, so the gap opens by
/// π times what the bore is wider, mm. Geometry; negative: the ends meet.
[[nodiscard]] Interval gap_in_bore(const Interval& gap_mm, double read_in_bore_mm, double bore_mm);

} // namespace rodway
