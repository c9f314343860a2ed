#pragma once

#include <random>

#include "core/geometry/bore.h"
#include "core/geometry/segment.h"

namespace rodway::witness {

/// A bore anywhere and a rod's axis through it.
struct PlacedRod {
    Bore bore;
    Segment axis; ///< from the lower ball to the upper
};

/// What to draw from. The axis crosses both end planes within `share` of the way from the bore's
/// middle to its outline, and reaches 2 to `most_beyond_mm` past them.
struct Ways {
    bool obround = false;
    bool rounded_ends = false;
    double tilt_deg = 12.0;
    double most_beyond_mm = 60.0;
    double share = 0.97;
};

[[nodiscard]] double between(std::mt19937_64& random, double low, double high);
[[nodiscard]] Vec3 random_direction(std::mt19937_64& random);
[[nodiscard]] Bore random_bore(std::mt19937_64& random, const Ways& ways);
[[nodiscard]] PlacedRod random_rod(std::mt19937_64& random, const Ways& ways);

/// How far a place of a plane square to the bore lies inside the bore's outline.
[[nodiscard]] double inside_outline_mm(const Bore& bore, const Vec3& point_K);

} // namespace rodway::witness
