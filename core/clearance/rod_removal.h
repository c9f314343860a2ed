#pragma once

#include <string>
#include <vector>

#include "core/engine/engine.h"

namespace rodway {

/// What is thickest of a rod that has to pass.
enum class RodPart { body, lower_ball, upper_ball, cup };

/// How much room one passage leaves for what has to pass it, moved straight along it.
struct PassageRoom {
    std::string passage;
    /// The whole rod, from end to end: its bore's (or an obround's narrow) diameter less the rod's
    /// thickest, mm. Positive: it passes.
    double whole_rod_mm = 0.0;
    RodPart thickest = RodPart::body;
    /// Drawn up towards the rocker, as a rod is taken out with the passage in place: only what is
    /// below the passage's rocker end, as the rod stands on the heel, has to pass.
    double drawn_up_mm = 0.0;
    RodPart thickest_below = RodPart::body;
};

/// Whether a rod can be taken out and put in with the intake on. The rocker is off, and the rod
/// free to follow each passage.
struct RodRemoval {
    std::vector<PassageRoom> passages; ///< the port tube first
    bool comes_out = true;             ///< drawn up, through all of them
    /// The set-up doesn't say how wide a cup is outside: it is taken as wide as the ball that sits
    /// in it, and the real one is wider.
    bool cup_outside_unknown = false;
};

[[nodiscard]] RodRemoval rod_removal(const Train& train);

} // namespace rodway
