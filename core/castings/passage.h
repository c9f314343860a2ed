#pragma once

#include <optional>
#include <string>

#include "core/geometry/bore.h"

namespace rodway {

/// What a passage or an obstacle moves with.
enum class Casting { head, intake, block };

enum class PassageKind { round_tube, obround_tube, drilled_hole, guide_slot };

/// A way through a casting with a rod inside it.
struct Passage {
    std::string name = "tube";
    PassageKind kind = PassageKind::round_tube;
    Casting casting = Casting::intake;
    Bore bore;                     ///< where it was when it was located
    std::optional<double> wall_mm; ///< of a tube
    /// ± (about 95 %) of the least clearance in it, by how well its place is known from the
    /// readings it was fitted to. Empty: it wasn't fitted.
    std::optional<double> fitted_doubt_mm = {};
};

} // namespace rodway
