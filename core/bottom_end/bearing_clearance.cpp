#include "core/bottom_end/bearing_clearance.h"

#include <algorithm>

#include "core/units/length.h"

namespace rodway {
namespace {

using Readings = std::vector<DiameterReading>;

std::optional<Error> wrong_row(const char* field, const Readings& readings) {
    for (std::size_t at = 0; at < readings.size(); ++at) {
        if (auto bad = wrong_diameter(field, readings[at], static_cast<int>(at) + 1)) {
            return bad;
        }
    }
    return std::nullopt;
}

std::optional<Error> wrong_bearing(const BearingReadings& readings) {
    if (auto bad = wrong_row("journal", readings.journal)) {
        return bad;
    }
    if (auto bad = wrong_row("bore", readings.bore)) {
        return bad;
    }
    if (auto bad = wrong_row("housing", readings.housing)) {
        return bad;
    }
    if (readings.shell_mm) {
        if (auto bad = wrong_interval("shell", *readings.shell_mm, {0.3, 20.0, "mm"})) {
            return bad;
        }
    }
    return readings.strip_mm ? wrong_interval("strip", *readings.strip_mm, {-0.1, 2.0, "mm"})
                             : std::nullopt;
}

/// Bound of the least or the greatest of some true sizes.
Interval narrowest(const Readings& readings) {
    Interval least = readings.front().diameter_mm;
    for (const DiameterReading& reading : readings) {
        least = {std::min(least.low, reading.diameter_mm.low),
                 std::min(least.high, reading.diameter_mm.high)};
    }
    return least;
}
Interval widest(const Readings& readings) {
    Interval most = readings.front().diameter_mm;
    for (const DiameterReading& reading : readings) {
        most = {std::max(most.low, reading.diameter_mm.low),
                std::max(most.high, reading.diameter_mm.high)};
    }
    return most;
}

} // namespace

SizeBand common_bearing_clearance(double journal_mm) {
    return {0.001 * journal_mm, 0.001 * journal_mm + Length::inches(0.0005).in_mm(),
            FigureSource::common_practice};
}

Result<BearingClearance> bearing_clearance(const BearingReadings& readings,
                                           const SizeBand& wanted) {
    if (const auto bad = wrong_bearing(readings)) {
        return *bad;
    }
    const Readings journal = last_readings(readings.journal);
    BearingClearance clearance;
    clearance.bearing = readings.bearing;
    clearance.journal_taper = taper_of(journal);
    clearance.journal_out_of_round = out_of_round_of(journal);
    clearance.strip_mm = readings.strip_mm;
    if (!readings.bore.empty()) {
        clearance.basis = ClearanceBasis::bearing_bore;
    } else if (!readings.housing.empty()) {
        clearance.basis = ClearanceBasis::housing;
    }
    if (!clearance.basis) {
        return clearance;
    }
    const bool by_housing = *clearance.basis == ClearanceBasis::housing;
    const Readings bore = last_readings(by_housing ? readings.housing : readings.bore);
    clearance.bore_taper = taper_of(bore);
    clearance.bore_out_of_round = out_of_round_of(bore);
    if (journal.empty() || (by_housing && !readings.shell_mm)) {
        return clearance;
    }
    const Interval shells = by_housing ? *readings.shell_mm * 2.0 : Interval{};
    clearance.gauge_mm = mean_diameter_mm(bore) - shells - mean_diameter_mm(journal);
    clearance.tightest_mm = narrowest(bore) - shells - widest(journal);
    clearance.standing = stand_in(*clearance.gauge_mm, wanted);
    if (clearance.strip_mm) {
        clearance.strip_more_by_mm = *clearance.strip_mm - *clearance.gauge_mm;
        constexpr double rounding_mm = 1e-6;
        clearance.methods_disagree = clearance.strip_more_by_mm->low > rounding_mm ||
                                     clearance.strip_more_by_mm->high < -rounding_mm;
    }
    return clearance;
}

} // namespace rodway
