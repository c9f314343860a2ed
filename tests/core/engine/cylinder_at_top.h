#pragma once

#include "core/engine/compression.h"
#include "core/units/length.h"
#include "core/units/volume.h"

namespace rodway {

inline Bounded inches(double value) {
    return Bounded::exactly(Length::inches(value).in_mm());
}
inline Bounded cubic_inches(double value) {
    return Bounded::exactly(Volume::cubic_inches(value).in_cc());
}

/// Made-up: 4.030 x 3.750 in, 64 cc chamber, 12 cc dish, gasket 4.100 x .039 in, .005 in down.
inline CylinderAtTop plain_cylinder() {
    CylinderAtTop cylinder;
    cylinder.size = {inches(4.030), inches(3.750)};
    cylinder.chamber_cc = Bounded::exactly(64.0);
    cylinder.dish_cc = Bounded::exactly(12.0);
    cylinder.gasket.bore_mm = inches(4.100);
    cylinder.gasket.compressed_mm = inches(0.039);
    cylinder.deck_mm = inches(0.005);
    return cylinder;
}

} // namespace rodway
