#pragma once

#include <QIcon>
#include <QString>

#include "app/build/build_shown.h"
#include "render/palette.h"

namespace rodway {

/// How a stage looks in the rail.
enum class StageLook {
    not_begun,  ///< a dotted ring
    begun,      ///< a ring, half full
    in_hand,    ///< a triangle that points to it
    held,       ///< a square with a bar across
    passed,     ///< a ring with a tick
    signed_off, ///< a full disc with a tick
    overtaken,  ///< signed, and open again: a disc, half empty
};

/// Without a standing yet, by the ticks alone.
[[nodiscard]] StageLook stage_look(const BuildShown& shown, const StageWithSteps& stage);

/// What it says, for those who don't see it.
[[nodiscard]] QString stage_look_text(StageLook look);

[[nodiscard]] QIcon stage_sign(StageLook look, const Palette& palette);

/// How one need of a gate stands, of its sheet's signs.
[[nodiscard]] CheckState hold_sign(const std::vector<Hold>& holds);

/// A sign behind so much empty space, which sets a row in.
[[nodiscard]] QIcon set_in_sign(CheckState state, int level, const Palette& palette);

/// How large signs are drawn, in pixels of the screen.
inline constexpr int stage_sign_px = 22;
/// By how much a level is set in.
inline constexpr int level_px = 24;

} // namespace rodway
