#include "core/geometry/frames.h"

#include <cmath>

namespace rodway {

BankFrame::BankFrame(double lean_rad) {
    const double s = std::sin(lean_rad);
    const double c = std::cos(lean_rad);
    R_EK_.col(0) = Vec3(1.0, 0.0, 0.0);
    R_EK_.col(1) = Vec3(0.0, c, -s);
    R_EK_.col(2) = Vec3(0.0, s, c);
}

} // namespace rodway
