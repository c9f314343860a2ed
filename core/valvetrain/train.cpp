#include "core/valvetrain/train.h"

namespace rodway {

Vec3 ball_pivot_axis_K(Guide guide, const Vec3& stud_axis_K, const Vec3& ball_arm_K,
                       const Vec3& tip_arm_K) {
    const Vec3 square = stud_axis_K.cross(guide == Guide::tip_rails ? tip_arm_K : ball_arm_K);
    const double size = square.norm();
    return size > 0.0 ? Vec3(square / size) : Vec3(Vec3::Zero());
}

} // namespace rodway
