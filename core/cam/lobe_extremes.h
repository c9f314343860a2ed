#pragma once

#include <functional>

#include "core/cam/lobe.h"

namespace rodway {

/// A value and the cam angle, from full lift, where it stands.
struct AtCamAngle {
    double value = 0.0;
    CamAngle at;
};

/// The least value of a function of the lobe's motion over its span, the heel at both ends
/// included: looks every 0.05 degrees, then golden section around the best to 1e-7 degrees.
[[nodiscard]] AtCamAngle least_over_lobe(const Lobe& lobe,
                                         const std::function<double(const LobeMotion&)>& value);

} // namespace rodway
