#pragma once

#include "core/engine/engine.h"

namespace rodway {

/// The sample vee with trains that are not alike, one thing a train:
/// 1I a stepped rod through an obround tube of a known wall, and a drilled hole below it;
/// 1E a trunnion rocker on a stud with a nut, hydraulic roller lifter of stated size;
/// 3I a ball-pivot rocker, the rod with a cup, through a guide slot;
/// 3E a stiffer spring of stated wire, a rocker's body as a capsule;
/// and a plane, a bolt's end, a bar and a block beside bank 0.
[[nodiscard]] Engine varied_engine();

} // namespace rodway
