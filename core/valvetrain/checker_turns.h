#pragma once

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// An adjustable checking rod: two ends on a thread, screwed apart by turns from its closed length.
/// No lever comes in: its thread is the rod's own length.
struct CheckerReading {
    /// Screwed together; in whichever definition of length the answer is to be (see
    /// `LengthDefinition`). 20 to 1000 mm.
    Interval closed_length_mm;
    Interval turns;        ///< out from there, 0 to 200; a share of a turn is a doubt, too
    double pitch_mm = 0.0; ///< of its thread, 0.2 to 5 mm; see `parse_thread_pitch`
};

/// Length of the checker, mm. Errors: out_of_range, not_a_number, order_wrong ("closed_length",
/// "turns", "pitch").
Result<Interval> checker_length_mm(const CheckerReading& reading);

/// Turns out from the closed length for a wanted length. Errors: as above, "length" (not below the
/// closed length: out_of_range).
Result<Interval> checker_turns_for_length(const Interval& closed_length_mm, double length_mm,
                                          double pitch_mm);

/// What a turn of a checker commonly is: .050 in (common practice, no source: measure it).
[[nodiscard]] FigureBand usual_checker_pitch_mm();

} // namespace rodway
