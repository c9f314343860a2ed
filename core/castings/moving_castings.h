#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/geometry/frames.h"

namespace rodway {

/// One face on which the intake casting rests. Block frame E; `normal_E` is of unit length and
/// points out of the head. `gained_mm`: how far, along the normal, the casting's own face has moved
/// since its places were taken: gasket and spacer gained, less metal milled off the two faces
/// (`FlangeSetting::gained_mm`), plus the head's own movement along the normal.
struct IntakeFace {
    Vec3 normal_E = Vec3::UnitZ();
    double gained_mm = 0.0;
};

/// How far the intake casting stands from where it was when its tubes were located: the movement d
/// with n·d = gained on every face and none along the crank. With two faces it slides until both
/// touch; with one it moves straight off the face.
/// Errors: banks_parallel, if two faces don't fix it; out_of_range, if one casting is to rest on
/// more than two; not_a_number.
Result<Vec3> intake_movement_E(const std::vector<IntakeFace>& faces);

} // namespace rodway
