#pragma once

#include <QString>

#include "core/valvetrain/pushrod_length.h"

namespace rodway::words {

/// How a rod's length is meant: "between ball centres", "overall", "effective", "by the gauge".
[[nodiscard]] QString definition(LengthDefinition definition);

/// The word of options and of `--json`: never translated.
[[nodiscard]] QString token(LengthDefinition definition);

} // namespace rodway::words
