#pragma once

#include <QString>
#include <optional>

#include "core/valvetrain/linkage.h"

namespace rodway::words {

/// Why a train has no answer, at which lobe lift, and what to do about it.
[[nodiscard]] QString train_status(TrainStatus status, std::optional<double> lobe_lift_mm,
                                   std::optional<double> adjuster_needed_mm);

/// The word of `--json`: never translated.
[[nodiscard]] QString token(TrainStatus status);

} // namespace rodway::words
