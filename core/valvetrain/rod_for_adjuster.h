#pragma once

#include <optional>

#include "core/valvetrain/train.h"

namespace rodway {

/// Length between ball centres of the rod with which a train's lash is right and its adjuster
/// stands `in_mm` further in than it was found; its thread isn't looked at. Empty if there is none.
[[nodiscard]] std::optional<double> rod_for_adjuster_mm(Train train, double in_mm);

/// Gives a train another length of rod. What it is longer by is in its longest section, the body;
/// the ends stay as they are made.
void fit_rod(Train& train, double length_mm);

} // namespace rodway
