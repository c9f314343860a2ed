#pragma once

#include "core/base/result.h"
#include "core/valvetrain/pushrod_length.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// What a rod's own ends make of its length, each of their sizes being known or not. The bottom end
/// is a ball; the top end a ball or a cup. All lengths in mm; the formulas are those of
/// `beyond_centres_mm` in pushrod_length.h.

/// A rod between ball centres, as everything that closes a train takes it.
inline constexpr double shortest_rod_mm = 25.0;
inline constexpr double longest_rod_mm = 1000.0;

/// What a definition adds to the rod's length between centres; negative where it takes away.
/// Errors, named as in a set-up: missing_field (`lower_ball`, `upper_ball`, `cup_depth`,
/// `gauge_hole`: only those that the definition needs), out_of_range (the same), not_a_choice
/// (`top_end`: a gauge needs a ball at each end).
Result<double> beyond_centres_mm(const Pushrod& rod, LengthDefinition definition);

/// Length between centres of the rod whose length by a definition is given. Errors: as above, and
/// out_of_range (`length`: not a rod of 25 to 1000 mm between centres; the limits are those of the
/// length as given).
Result<double> centres_length_mm(double length_mm, const Pushrod& rod, LengthDefinition definition);

} // namespace rodway
