#include "core/cam/flat_follower.h"

#include <cmath>

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

} // namespace rodway
