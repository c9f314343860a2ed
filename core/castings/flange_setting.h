#pragma once

#include "core/geometry/frames.h"

namespace rodway {

/// Where the intake casting meets one bank's head. Bank frame K, mm. Cuts are even all over a face.
struct FlangeSetting {
    Vec3 normal_K = Vec3::UnitY();       ///< out of the head, unit
    double gasket_mm = 0.0;              ///< as it counts now
    double gasket_when_located_mm = 0.0; ///< gasket on which the tubes' places were taken
    double spacer_mm = 0.0;
    double spacer_when_located_mm = 0.0;
    double head_face_milled_mm = 0.0;     ///< off the head's intake face since then
    double manifold_face_milled_mm = 0.0; ///< off the manifold's own flange since then

    /// How much farther apart head and manifold stand than when the places were taken.
    [[nodiscard]] double gained_mm() const {
        return gasket_mm - gasket_when_located_mm + spacer_mm - spacer_when_located_mm -
               head_face_milled_mm - manifold_face_milled_mm;
    }
};

} // namespace rodway
