#pragma once

#include "core/base/result.h"
#include "core/valvetrain/train.h"

namespace rodway {

/// Whether a train lies within the domain for which the linkage's accuracy is promised: all numbers
/// finite, coordinates within 2 m, axes of unit length, ball arm 5 to 300 mm and lower ball 5 to
/// 1000 mm across from the pivot's axis, rod 25 to 1000 mm, lash 0 to 3 mm, thread and plunger
/// travel 0 to 50 mm. Errors: not_a_number, out_of_range, not_a_direction; the field is the path
/// within the train, such as "rocker/ball_arm".
Result<Done> check_train(const Train& train);

/// Whether the linkage can be worked out at all, however short its arms: all numbers finite,
/// coordinates within 2 m, axes of unit length.
[[nodiscard]] bool can_be_worked_out(const Train& train);

} // namespace rodway
