#pragma once

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// Feelers between the intake's face and the head's at one place along it, dry fitted: at the top
/// edge of the face and at its bottom edge, 0 to 10 mm, `width_mm` apart, 5 to 300.
struct FaceFeelers {
    Interval top_mm;
    Interval bottom_mm;
    Interval width_mm;
};

enum class FaceStanding {
    parallel,       ///< no more open at one edge than the tolerance
    open_at_top,    ///< the intake's face leans back from the head's
    open_at_bottom, ///< oil is drawn in here where the gasket isn't pressed
    undecided,
};

struct FaceAngle {
    Interval open_more_at_top_mm; ///< top less bottom: what a wedge cut must take off, or add
    Interval angle_rad;           ///< atan of it over the width; above zero: open at the top
    FaceStanding standing = FaceStanding::undecided;
};

/// `tolerance_mm`: 0 to 5, of top less bottom. Errors: out_of_range, not_a_number, order_wrong
/// ("top", "bottom", "width", "tolerance").
Result<FaceAngle> face_angle(const FaceFeelers& feelers, double tolerance_mm);

} // namespace rodway
