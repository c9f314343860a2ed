#pragma once

#include "core/sheets/kinds/micrometer_slips.h"

namespace rodway {

/// What the sheets of mains and rods have in common: the clearance of every bearing whose journal
/// and bore were read, over all directions; a clearance written down by hand that disagrees, as
/// `methods_differ` if `method` says plastic strip there, else as `stated_differs`; and what the
/// micrometer may have misled.
[[nodiscard]] SheetOutcome bearing_outcome(const TakenReadings& readings,
                                           const BearingQuantities& quantities,
                                           std::string_view method);

} // namespace rodway
