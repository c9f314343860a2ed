#pragma once

#include <optional>

#include "core/geometry/bore.h"

namespace rodway {

/// One straight rod where it stands. Millimetres, bank frame K.
struct RodPlace {
    Vec3 lower_K = Vec3::Zero();
    Vec3 upper_K = Vec3::UnitZ();
    double radius_mm = 0.0; ///< of the rod where it leaves the bore; of a stepped rod, there
};

/// Where a mouth lies, from the bore's centre towards the rocker, mm: its end plane, or where its
/// rounding begins.
[[nodiscard]] double mouth_plane_mm(const Bore& bore, BoreEnd end);

/// Unit vector square to the bore's axis: 12 o'clock is -x put square to it, 3 o'clock the bank's
/// +y, seen from the rocker down, as on `WallDirection`. Hours may be any finite number.
[[nodiscard]] Vec3 clock_direction_K(const Bore& bore, double clock_hours);

/// The gap that a feeler blade or pin gauge measures between rod and wall.
///
/// It is taken at the mouth of the bore: in its end plane, or, where that edge is rounded, in the
/// plane where the rounding begins. From where the rod's axis crosses the mouth a gauge is held in
/// the clock direction; the gap is the diameter of the largest ball, its centre in the mouth's
/// plane on that ray, that just touches both rod and wall. A narrow blade or a pin stops there too;
/// a wide flat blade bridges the hollow wall and reads a little less.
///
/// With the rod parallel to a round bore and c from its centre, ball and ray give
/// (R² - ρ² - c² - 2·ρ·c·cos ψ)/(R + ρ + c·cos ψ): R - ρ - c at the tightest place, R - ρ + c
/// opposite. The gap is zero exactly where the rod touches the mouth's rim in that direction, so a
/// reading 'touch' means the same here as no clearance does in `rod_clearance_at`.
///
/// Negative where rod and wall would share space. Empty if the rod's axis doesn't cross the mouth
/// inside the bore.
[[nodiscard]] std::optional<double> gap_at(const Bore& bore, const RodPlace& rod, BoreEnd end,
                                           double clock_hours);

/// The same, continuous also where the axis runs outside the bore (then it keeps falling): for a
/// search that may pass through such places, never for an answer.
[[nodiscard]] double gap_anywhere_mm(const Bore& bore, const RodPlace& rod, BoreEnd end,
                                     double clock_hours);

/// How a gap answers to small changes of the bore: mm for each mm of its centre, and for each
/// change of its axis and of its long way (which stay unit vectors square to each other).
struct GapGradient {
    double gap_mm = 0.0;
    Vec3 by_centre_K = Vec3::Zero();
    Vec3 by_axis_K = Vec3::Zero();
    Vec3 by_long_way_K = Vec3::Zero(); ///< zero in a round bore
};
/// `gap_at` with its gradient; derived in gap_at.cpp. Clock direction and mouth move with the bore.
/// Empty if the rod's axis runs outside the bore by more than `gap_anywhere_mm` gives a meaning to.
[[nodiscard]] std::optional<GapGradient> gap_gradient(const Bore& bore, const RodPlace& rod,
                                                      BoreEnd end, double clock_hours);

/// The least gap all round one mouth, and where.
struct TightestGap {
    double gap_mm = 0.0;
    double clock_hours = 12.0; ///< (0, 12], from the rod's axis
};
[[nodiscard]] std::optional<TightestGap> tightest_gap(const Bore& bore, const RodPlace& rod,
                                                      BoreEnd end);
[[nodiscard]] TightestGap tightest_gap_anywhere(const Bore& bore, const RodPlace& rod, BoreEnd end);

/// Where the rod's axis crosses a mouth, from the bore's axis, mm; square to it. Empty if the rod
/// runs across the bore (more than about 78 degrees off).
[[nodiscard]] std::optional<Vec3> mouth_crossing_K(const Bore& bore, const RodPlace& rod,
                                                   BoreEnd end);

} // namespace rodway
