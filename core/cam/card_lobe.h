#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/cam/lobe.h"
#include "core/cam/quintic_spline.h"

namespace rodway {

/// The curve of a symmetric lobe from a card's numbers, full lift at 0. Errors: too_few_rows,
/// order_wrong (a higher lift must have a shorter duration), not_a_lobe (no single hill that rises
/// at less than 0.5 mm a cam degree has these numbers).
Result<QuinticSpline> card_curve(double peak_lift_mm, std::vector<CardDuration> durations);

} // namespace rodway
