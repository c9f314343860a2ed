#pragma once

#include "core/engine/compression.h"

namespace rodway {

/// Compression from where the intake valve shuts.
struct DynamicCompression {
    Bounded stroke_left_mm; ///< piston from its top dead centre as the valve shuts
    Bounded swept_left_cc;
    Bounded ratio; ///< (swept left + clearance)/clearance
};

/// Which lift the valve counts as shut at moves the answer by more than a point of ratio: a figure
/// without it says nothing. `closes_crank_deg` is after bottom dead centre (180 degrees after the
/// piston's top, as a wheel shows it), -60 to 150, at whatever lift the caller names beside the
/// answer. `connecting_rod_mm` and `pin_offset_mm` are as `CrankSlider::make` takes them. A figure
/// of valve timing alone: no gas dynamics, and not what a gauge reads.
///
/// Bounds are those of `worst_case`, where a closing interval goes over bottom dead centre also
/// with the whole stroke. They are exact without a pin offset; with one they hold to far less than
/// any reading (`tests/core/engine/dynamic_compression_test.cpp`).
///
/// Errors: as `compression_of` and `CrankSlider::make`; order_wrong, out_of_range, not_a_number
/// ("connecting_rod", "intake_closes").
Result<DynamicCompression> dynamic_compression(const CylinderAtTop& cylinder,
                                               const Bounded& connecting_rod_mm,
                                               const Bounded& closes_crank_deg,
                                               double pin_offset_mm = 0.0);

} // namespace rodway
