#pragma once

#include <optional>
#include <vector>

#include "core/sheets/reading_interval.h"

namespace rodway {

/// One diameter of a bore or journal.
struct DiameterReading {
    int along = 0;  ///< height or end: 0 is the uppermost or foremost, counted on; 0 to 20
    int around = 0; ///< direction: 0 and on; 0 to 20
    Interval diameter_mm;
};

/// The greatest difference between two of them, and which two.
struct DiameterDifference {
    Interval size_mm; ///< what it can be; 0 or more
    int at = 0;       ///< the direction (taper) or the height (out of round) it is worst at
    int widest = 0;   ///< the height (taper) or the direction (out of round) of the widest
    int narrowest = 0;

    bool operator==(const DiameterDifference&) const = default;
};

/// A place read twice counts by its last reading.
[[nodiscard]] std::vector<DiameterReading> last_readings(
    const std::vector<DiameterReading>& readings);

/// Taper: the greatest difference along the axis in one direction; empty if none was read at two
/// places along it. One reading a place. Common practice, no source.
[[nodiscard]] std::optional<DiameterDifference> taper_of(
    const std::vector<DiameterReading>& readings);
/// Out of round: the greatest difference around at one height or end; empty if none was read in two
/// directions. One reading a place. Common practice, no source.
[[nodiscard]] std::optional<DiameterDifference> out_of_round_of(
    const std::vector<DiameterReading>& readings);

/// Mean of some readings, as far as they tell; at least one.
[[nodiscard]] Interval mean_diameter_mm(const std::vector<DiameterReading>& readings);

/// What is wrong with a reading whose diameter should lie in 5 to 1000 mm; the fields are
/// `field`, "along", "around".
[[nodiscard]] std::optional<Error> wrong_diameter(const char* field, const DiameterReading& reading,
                                                  int line);

} // namespace rodway
