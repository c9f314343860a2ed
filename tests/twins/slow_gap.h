#pragma once

#include <random>

#include "core/clearance/gap_at.h"
#include "core/clearance/interval_posterior.h"

namespace rodway::twins {

/// The gap that a gauge measures, by trying ever larger balls: the ball's centre pushed out along
/// its ray by bisection, the mouth's rim walked round point by point. Good to 1e-6 mm.
double slow_gap(const Bore& bore, const RodPlace& rod, BoreEnd end, double clock_hours);

/// The same for a round bore with sharp edges, whose rim needs no walking: by bisection alone, in
/// some microseconds.
double round_gap(const Bore& bore, const RodPlace& rod, BoreEnd end, double clock_hours);

/// The least of `round_gap` round the clock.
double tightest_round_gap(const Bore& bore, const RodPlace& rod, BoreEnd end);

/// A round bore at a pose, by moving its two ends.
Bore moved_by_its_ends(const Bore& bore, const PassagePose& pose);

/// The least of them round the clock, by trying every half hour and halving from there.
double slow_tightest_gap(const Bore& bore, const RodPlace& rod, BoreEnd end);

/// Mean and covariance of four unknowns by drawing them a great many times and weighing each draw
/// by what the readings say of it, until the weights make up `wanted` whole draws. Empty if that
/// takes more than some millions.
std::optional<Spread> slow_posterior(const std::vector<LinearReading>& readings,
                                     std::mt19937_64& random, double wanted);

} // namespace rodway::twins
