#pragma once

#include "core/base/result.h"
#include "core/cam/lobe.h"
#include "core/units/interval.h"

namespace rodway {

/// A lobe measured with callipers: over nose and heel, and across its sides, square to that.
struct CalliperedLobe {
    Interval over_nose_mm;    ///< 5 to 200
    Interval across_sides_mm; ///< 5 to 200
    /// How far each flank has risen where the jaws touch the sides; 0 is only right for a lobe that
    /// is on its heel a quarter of a turn from the nose. 0 to 20.
    Interval opening_risen_mm;
    Interval closing_risen_mm;
};

/// Lobe lift, mm: over the nose less across the sides is less than the lift by what both flanks
/// have risen there. Errors: out_of_range, not_a_number, order_wrong ("over_nose", "across_sides",
/// "opening_risen", "closing_risen").
Result<Interval> callipered_lift_mm(const CalliperedLobe& lobe);

/// What a lobe's two flanks have risen a quarter of a turn from the nose. A jaw is flat, so that it
/// finds what a flat follower would: exact for a lobe whose lift is a flat follower's, and near for
/// one whose lift is a roller's.
struct RisenFlanks {
    double opening_mm = 0.0;
    double closing_mm = 0.0;
};
[[nodiscard]] RisenFlanks risen_at_sides(const Lobe& lobe);

} // namespace rodway
