#pragma once

#include <string_view>
#include <vector>

#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// The quantities of bearings that are meant to be alike; empty where a sheet has none.
struct BearingQuantities {
    std::string_view journal;
    std::string_view bore; ///< shells in
    std::string_view housing;
    std::string_view clearance;
    PlacePart part = PlacePart::journal; ///< what tells one bearing from the next
    std::string_view mark = {};          ///< before its name in a position: "J" of "J2"
};

/// Readings that are off by exactly a turn or number of the micrometer, as `find_slips` has it; of
/// a metric one if most readings were typed in millimetres. Where journal and bore may be at fault
/// alike, it is said of the clearance.
[[nodiscard]] std::vector<SheetFinding> micrometer_slips(const TakenReadings& readings,
                                                         const BearingQuantities& quantities);

} // namespace rodway
