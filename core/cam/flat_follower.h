#pragma once

#include "core/base/result.h"
#include "core/cam/lobe.h"
#include "core/cam/lobe_extremes.h"
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

/// A flat face over a whole lobe. Same source.
struct FlatFaceSurvey {
    /// How far the contact wanders from the lifter's axis, mm: while the lobe opens to one side,
    /// while it closes to the other. Both are ≥ 0 and equal the greatest lift rate, mm/rad.
    AtCamAngle opening_offset_mm;
    AtCamAngle closing_offset_mm;
    /// The least radius of curvature of the lobe, mm. A flat face bridges what is hollow: at zero
    /// or less such a lobe can't be ground, the flank is undercut.
    AtCamAngle least_radius_mm;

    [[nodiscard]] bool undercut() const { return least_radius_mm.value <= 0.0; }
    /// How far the contact stays inside the face's edge at the worst, mm; negative where the lobe
    /// runs on the edge. `contact_half_width_mm`: half the width of the contact's patch in the
    /// direction in which it wanders; 0 for a line.
    [[nodiscard]] double edge_margin_mm(double face_diameter_mm,
                                        double contact_half_width_mm = 0.0) const;
    /// The face that the contact needs without any margin, mm (Norton: more than s'max − s'min; a
    /// lifter that turns needs twice the larger side).
    [[nodiscard]] double least_face_diameter_mm() const;
};

/// Errors: out_of_range (a base circle radius not within 1 to 200 mm).
Result<FlatFaceSurvey> survey_flat_face(const Lobe& lobe, double base_circle_radius_mm);

} // namespace rodway
