#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/geometry/frames.h"

namespace rodway {

/// One face on which the intake casting rests. Block frame E; `normal_E` is of unit length and
/// points out of the head. `gained_mm`: gasket thickness gained since the tubes were located,
/// less metal milled off since.
struct IntakeFace {
    Vec3 normal_E = Vec3::UnitZ();
    double gained_mm = 0.0;
};

/// How far the intake casting stands from where it was when its tubes were located: the movement d
/// with n·d = gained on every face and none along the crank. With two faces it slides until both
/// touch; with one it moves straight off the face.
/// Error: banks_parallel, if two faces don't fix it.
Result<Vec3> intake_movement_E(const std::vector<IntakeFace>& faces);

} // namespace rodway
