#pragma once

#include <QStringList>

#include "app/command_line/fit_answer.h"

namespace rodway {

/// What is said of one place that fits, or, if it doesn't, that comes nearest.
[[nodiscard]] QStringList pose_lines(const FitAnswer& answer, const FittedPose& pose,
                                     const QString& name, bool fits);
/// Which one more reading would help most.
[[nodiscard]] QStringList next_lines(const FitAnswer& answer);
/// Which readings disagree with the others.
[[nodiscard]] QStringList disagreeing_lines(const FitAnswer& answer);

/// What `rodway fit` says of a fit.
void print_fit(const FitAnswer& answer);

/// That its first place was written into a new set-up.
void print_kept(const FitAnswer& answer);

} // namespace rodway
