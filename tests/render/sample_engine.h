#pragma once

#include "core/engine/engine.h"

namespace rodway {

/// Invented engines for the tests of pictures: every valve has the plausible train of the reference
/// notes (nobody's engine), on a bank that leans the other way mirrored.
struct SampleKind {
    Arrangement arrangement = Arrangement::vee;
    int cylinders = 8;
    Turning turning = Turning::clockwise;
};

[[nodiscard]] Engine sample_engine(const SampleKind& kind = {});

/// A symmetric 3-4-5 polynomial lobe: 0.380 in of lift over 144 cam degrees.
[[nodiscard]] Lobe sample_lobe();

} // namespace rodway
