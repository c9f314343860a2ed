#include "core/castings/moving_castings.h"

#include <cmath>
#include <string>

namespace rodway {

Result<Vec3> intake_movement_E(const std::vector<IntakeFace>& faces) {
    for (const IntakeFace& face : faces) {
        if (!face.normal_E.allFinite() || !std::isfinite(face.gained_mm)) {
            return Error{ErrorCode::not_a_number, "intake", {}, {}, {}, {}};
        }
    }
    if (faces.empty()) {
        return Vec3(Vec3::Zero());
    }
    if (faces.size() == 1) {
        return Vec3(faces[0].gained_mm * faces[0].normal_E);
    }
    // Three faces would have to meet by luck.
    if (faces.size() > 2) {
        return Error{ErrorCode::out_of_range,  "intake", std::to_string(faces.size()), {}, {},
                     Limits{0.0, 2.0, "faces"}};
    }
    const Vec2 n1 = faces[0].normal_E.tail<2>();
    const Vec2 n2 = faces[1].normal_E.tail<2>();
    const double determinant = n1.x() * n2.y() - n1.y() * n2.x();
    // Faces within some 3 degrees of parallel would throw the casting about by any gasket's
    // scatter.
    if (std::abs(determinant) < 0.05) {
        return Error{ErrorCode::banks_parallel, "intake", {}, {}, {}, {}};
    }
    const double y = (faces[0].gained_mm * n2.y() - faces[1].gained_mm * n1.y()) / determinant;
    const double z = (faces[1].gained_mm * n1.x() - faces[0].gained_mm * n2.x()) / determinant;
    return Vec3(0.0, y, z);
}

} // namespace rodway
