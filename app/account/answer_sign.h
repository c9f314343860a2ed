#pragma once

#include <QIcon>

#include "core/build/account.h"
#include "render/palette.h"

namespace rodway {

/// What the customer said, as a shape: an empty ring is asked, a disc approved, a crossed square
/// declined.
[[nodiscard]] QIcon answer_sign(ApprovalAnswer answer, const Palette& palette);

} // namespace rodway
