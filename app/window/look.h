#pragma once

#include <QString>

namespace rodway {

/// Sizes and weights of the window's own kinds of text. Colours are the palette's, so that light
/// and dark follow the system.
[[nodiscard]] QString look_sheet();

} // namespace rodway
