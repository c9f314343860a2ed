#pragma once

#include "core/geometry/round_rod.h"

namespace rodway {

/// A rod that is bowed as half a sine wave, `bow_mm` (0 or more) in its middle and nothing at its
/// balls, as it stands in every direction at once: thicker by the bow at each place. What it leaves
/// is what the bowed rod leaves in the worst direction, wherever along the rod that is.
/// Sections of straight lines that meet on the wave: it shows at most 0.3 % of the bow too much.
/// `straight`: from ball to ball, without gaps.
[[nodiscard]] RoundSections bowed_rod(const RoundSections& straight, double bow_mm);

/// The bow at a distance from the lower ball: bow·sin(π·x/L), mm.
[[nodiscard]] double bow_at_mm(double bow_mm, double station_mm, double length_mm);

} // namespace rodway
