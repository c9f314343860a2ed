#pragma once

#include "core/geometry/frames.h"

namespace rodway {

/// A straight piece between two points of one frame, millimetres. Both ends may coincide.
struct Segment {
    Vec3 a;
    Vec3 b;

    [[nodiscard]] Vec3 at(double fraction) const { return a + fraction * (b - a); }
};

/// The closest points of two segments: fractions along each (0 to 1) and their distance in mm.
struct SegmentPair {
    double on_first = 0.0;
    double on_second = 0.0;
    double distance = 0.0;
};

/// Fraction (0 to 1) of the point of `segment` that is nearest to `point`.
[[nodiscard]] double nearest_fraction(const Segment& segment, const Vec3& point);

/// Exact but for rounding, for parallel, nearly parallel and degenerate segments too: the best of
/// the four end-to-segment distances and the common perpendicular, so that a badly conditioned
/// perpendicular can never give less than the true distance.
/// Source: Ericson, Real-Time Collision Detection (2005), 5.1.9 (from memory).
[[nodiscard]] SegmentPair closest_points(const Segment& first, const Segment& second);

} // namespace rodway
