#include "core/units/angle.h"

#include <cmath>

namespace rodway {

CrankAngle CrankAngle::in_cycle() const {
    double turned = std::fmod(deg_, 720.0);
    if (turned < 0.0) {
        turned += 720.0;
    }
    return CrankAngle(turned >= 720.0 ? 0.0 : turned);
}

} // namespace rodway
