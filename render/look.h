#pragma once

#include "render/camera.h"

namespace rodway {

/// From where an engine is looked at, as one would walk round it.
enum class Look {
    corner, ///< from the front, to one side and above
    front,  ///< along the crank
    rear,
    left,  ///< from the block's -y
    right, ///< from its +y
    above,
    along_rod, ///< from the rocker down
};
constexpr std::size_t look_count = 7;

/// Looks that way at one train, or at everything. `along_rod` wants a valve that has a train; it is
/// parallel, so that the gap round the rod is to scale, the others have perspective.
[[nodiscard]] Camera looked_at(const Scene& scene, Look look,
                               const std::optional<ValvePosition>& valve, CrankAngle crank,
                               PictureSize size);

/// Which way a section is laid, always through one rod as it stands on the heel.
enum class Cut {
    none,
    across_crank, ///< square to the crank; the front side is taken away
    along_crank,  ///< through crank and rod; the side towards the viewer is taken away
    across_rod,   ///< square to the rod, at the middle of its tube; the rocker side is taken away
};
constexpr std::size_t cut_count = 4;

/// The plane, moved by `by_mm` towards what is taken away. Empty for `Cut::none` and for a valve
/// without a train.
[[nodiscard]] std::optional<Section> section_of(const Scene& scene, Cut cut,
                                                const ValvePosition& valve, const Camera& camera,
                                                double by_mm);

} // namespace rodway
