#pragma once

#include <array>

#include "core/base/result.h"
#include "core/castings/intake_shift.h"

namespace rodway {

/// One of the two faces on which an intake between two heads rests. Block frame E, mm.
struct MatchedFace {
    Vec3 normal_E = Vec3::UnitZ();    ///< of the head's face, out of the head, unit
    Vec3 head_moved_E = Vec3::Zero(); ///< since the ports matched: gasket, deck, head's deck face
    /// Gasket and spacer gained at this face since then, less what was milled off it already
    /// (`FlangeSetting::gained_mm`).
    double gained_mm = 0.0;
};

/// What brings the intake's ports back to the heads'.
struct MillingMatch {
    /// To take off each face, head's or intake's, evenly; negative: a gasket or spacer thicker by
    /// so much instead.
    std::array<double, 2> off_face_mm{};
    /// To take off the intake's end rails (or the block's) for the gaps there to stay as they were:
    /// what the matched intake sits lower by. Negative: they gape by so much more.
    double off_end_rails_mm = 0.0;
    double sideways_mm =
        0.0; ///< of the matched intake, towards E's +y: nothing if both heads did alike
    std::array<PortShift, 2> before{};
    std::array<PortShift, 2> after{}; ///< up the face it is nothing
};

/// Question 29. The intake must stand, by u the way up along each face, where both heads' ports
/// stand: u·(d - head moved) = 0 at both; that fixes its movement d. Then what each face keeps it
/// off by, n·(d - head moved), must be what was gained there less what is cut.
/// Errors: not_a_number, not_a_direction, out_of_range ("normal", "head_moved", within 100 mm,
/// "gained", within 50; `line` is the face's place), banks_parallel (faces whose ways up are so
/// near to one line that no cut moves the ports).
Result<MillingMatch> milling_match(const MatchedFace& one, const MatchedFace& other);

/// The same for an engine as it stands, whose ports matched when the places were taken: its first
/// two banks that carry the intake. Errors: as above; missing_field ("flange", fewer than two of
/// them), not_of_this_kind ("intake_casting", one for each bank: there the ports can't be brought
/// up by a cut).
Result<MillingMatch> milling_match(const Engine& engine);

} // namespace rodway
