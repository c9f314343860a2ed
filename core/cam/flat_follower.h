#pragma once

#include "core/cam/lobe.h"
#include "core/geometry/frames.h"

namespace rodway {

/// A flat-faced lifter square to its axis, on a lobe. Millimetres; source: Norton, Design of
/// Machinery, ch. 8, flat-faced follower (from memory).
struct FlatFaceContact {
    double offset_mm = 0.0; ///< contact from the lifter's axis along the face: ds/dθ
    double lobe_radius_mm =
        0.0; ///< of curvature at the contact: R + s + d²s/dθ²; must stay positive
    Vec2 profile_mm = Vec2::Zero(); ///< the contact on the lobe, in the cam's own turning frame
};

/// `theta`: how far the cam has turned, the direction of the lifter's axis in the cam's frame
/// counted from its y axis towards x.
[[nodiscard]] FlatFaceContact flat_face_contact(double base_circle_radius_mm,
                                                const LobeMotion& motion, CamAngle theta);

} // namespace rodway
