#pragma once

#include <QString>
#include <optional>
#include <vector>

#include "app/words/train_words.h"
#include "app/work/spring_line.h"
#include "core/loads/spring_shims.h"

namespace rodway::words {

/// "118 lbf", to the pound: what a spring tester can tell.
[[nodiscard]] QString spring_load(double load_N);
/// "431 lbf/in".
[[nodiscard]] QString spring_rate(double rate_N_per_mm);
/// "118 to 124 lbf on the seat", "1.875 to 1.885 in installed".
[[nodiscard]] QString shim_aim(const ShimAim& aim);
/// ".030 + .015 in"; "no shim".
[[nodiscard]] QString shims(const std::vector<double>& shims_mm);

/// Why a valve's spring has no full answer, and what to do about it.
[[nodiscard]] QString spring_status(SpringStatus status, TrainStatus train);
/// What there is to know of a choice that isn't in the band; empty if it is.
[[nodiscard]] QString shim_status(const ShimChoice& choice, const ShimAim& aim,
                                  double bare_seat_load_N, double least_to_bind_mm);
/// "812 lbf", or that it isn't known.
[[nodiscard]] QString load_or_unknown(const std::optional<double>& load_N);

/// What is left of a room, or that it isn't known.
[[nodiscard]] QString room_left(const std::optional<double>& left_mm);

/// What stands beside a surge frequency.
[[nodiscard]] QString surge_estimated();
/// What stands under every spring's figures.
[[nodiscard]] QString spring_caution();
/// What stands under loads of a shaft.
[[nodiscard]] QString shaft_load_caution();

// The words of `--json`: never translated.
[[nodiscard]] QString token(SpringStatus status);
[[nodiscard]] QString token(ShimStatus status);
[[nodiscard]] QString token(ShimAim::Of of);

} // namespace rodway::words
