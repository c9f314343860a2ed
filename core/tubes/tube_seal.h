#pragma once

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// A ring seal between a tube and the bore in which it sits, diameters, mm, 3 to 100. The seal's
/// own are as it lies on the bench.
struct TubeSealReadings {
    Interval tube_outside_mm;
    Interval housing_bore_mm; ///< surely larger than the tube
    Interval seal_inside_mm;
    Interval seal_outside_mm; ///< surely larger than its inside
};

enum class SealFit {
    tight, ///< squeezed
    loose, ///< not even touched all round
    undecided,
};

struct TubeSeal {
    Interval on_tube_mm;    ///< tube less seal's inside: above zero, it grips
    Interval in_housing_mm; ///< seal's outside less housing: above zero, it is held
    Interval squeeze_mm;    ///< of the seal's section, half of those two together
    Interval squeeze_share; ///< of the section as it lies on the bench
    SealFit fit = SealFit::undecided;
};

/// A seal stretched on its tube gets a little thinner; that is left out, and takes a hundredth or
/// two off the squeeze. Errors: out_of_range, not_a_number, order_wrong ("tube_outside",
/// "housing_bore", "seal_inside", "seal_outside").
Result<TubeSeal> tube_seal(const TubeSealReadings& readings);

} // namespace rodway
