#include "core/cam/flat_follower.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rodway {

FlatFaceContact flat_face_contact(double base_circle_radius_mm, const LobeMotion& motion,
                                  CamAngle theta) {
    const double s = std::sin(theta.in_rad());
    const double c = std::cos(theta.in_rad());
    const double height = base_circle_radius_mm + motion.lift;
    FlatFaceContact contact;
    contact.offset_mm = motion.velocity;
    contact.lobe_radius_mm = height + motion.acceleration;
    contact.profile_mm = height * Vec2(s, c) + motion.velocity * Vec2(c, -s);
    return contact;
}

Result<FlatFaceSurvey> survey_flat_face(const Lobe& lobe, double base_circle_radius_mm) {
    constexpr double least_radius_mm = 1.0;
    constexpr double greatest_radius_mm = 200.0;
    if (!(base_circle_radius_mm >= least_radius_mm &&
          base_circle_radius_mm <= greatest_radius_mm)) {
        return Error{ErrorCode::out_of_range,
                     "base_circle_radius",
                     std::to_string(base_circle_radius_mm),
                     {},
                     {},
                     Limits{least_radius_mm, greatest_radius_mm, "mm"}};
    }
    FlatFaceSurvey survey;
    const AtCamAngle opening =
        least_over_lobe(lobe, [](const LobeMotion& motion) { return -motion.velocity; });
    const AtCamAngle closing =
        least_over_lobe(lobe, [](const LobeMotion& motion) { return motion.velocity; });
    survey.opening_offset_mm = {std::max(0.0, -opening.value), opening.at};
    survey.closing_offset_mm = {std::max(0.0, -closing.value), closing.at};
    survey.least_radius_mm = least_over_lobe(lobe, [&](const LobeMotion& motion) {
        return base_circle_radius_mm + motion.lift + motion.acceleration;
    });
    return survey;
}

double FlatFaceSurvey::edge_margin_mm(double face_diameter_mm, double contact_half_width_mm) const {
    return (face_diameter_mm - least_face_diameter_mm()) / 2.0 - contact_half_width_mm;
}

double FlatFaceSurvey::least_face_diameter_mm() const {
    return 2.0 * std::max(opening_offset_mm.value, closing_offset_mm.value);
}

} // namespace rodway
