#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/bottom_end/size_table.h"
#include "core/sheets/taken_readings.h"

namespace rodway {

/// A quantity's diameters at one bore, journal or pin. Those outside 5 to 1000 mm are left out: no
/// arithmetic takes them.
struct ReadDiameters {
    std::vector<DiameterReading> readings;
    std::vector<std::string> positions; ///< of each reading, as kept
    std::vector<bool> height_known;     ///< of each: depth or end was written
    std::vector<bool> direction_known;

    /// As `taper_of`, of readings whose depth or end was written.
    [[nodiscard]] std::optional<Interval> taper() const;
    /// As `out_of_round_of`, of readings whose direction was written.
    [[nodiscard]] std::optional<Interval> out_of_round() const;
};

/// `PlacePart::journal` and "2": all readings at J2.
[[nodiscard]] ReadDiameters diameters_at(const TakenReadings& readings, std::string_view quantity,
                                         PlacePart part, std::string_view name);

} // namespace rodway
