#pragma once

#include <QIcon>
#include <string>

#include "core/build/records.h"
#include "render/palette.h"

namespace rodway {

/// How a part stands, as a shape that can be told without its colour: an empty ring is needed, it
/// fills from ordered to measured, a tick is fitted; a triangle is late, an hourglass temporary, a
/// crossed square failed, an arrow given back.
[[nodiscard]] QIcon part_sign(const PartRecord& part, const std::string& today,
                              const Palette& palette);

/// How large it is drawn, in pixels of the screen.
inline constexpr int part_sign_px = 16;

} // namespace rodway
