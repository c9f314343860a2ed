#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/bottom_end/size_band.h"
#include "core/bottom_end/size_table.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// What was read of one bearing: usually two directions at two ends of each. Empty: not measured.
struct BearingReadings {
    std::string bearing;                  ///< as kept, e.g. "J2"
    std::vector<DiameterReading> journal; ///< the shaft
    std::vector<DiameterReading> bore;    ///< shells in, bolts tight
    std::vector<DiameterReading> housing; ///< without shells, bolts tight
    std::optional<Interval> shell_mm;     ///< wall of one shell, 0.3 to 20
    std::optional<Interval> strip_mm;     ///< the clearance by plastic strip, 0 to 2
};

enum class ClearanceBasis {
    bearing_bore, ///< bore with shells in, less journal
    housing, ///< housing less two shells, less journal: what the shells' crush takes isn't in it
};

/// A bearing's clearance, each way of finding it by itself. Empty: not measured.
struct BearingClearance {
    std::string bearing;
    std::optional<ClearanceBasis> basis;
    std::optional<Interval> gauge_mm;     ///< by micrometer and bore gauge: mean less mean
    std::optional<Interval> tightest_mm;  ///< narrowest bore less widest journal
    std::optional<SizeStanding> standing; ///< of `gauge_mm`
    std::optional<DiameterDifference> journal_taper;
    std::optional<DiameterDifference> journal_out_of_round;
    std::optional<DiameterDifference> bore_taper;        ///< of what `basis` names
    std::optional<DiameterDifference> bore_out_of_round; ///< the same
    std::optional<Interval> strip_mm;                    ///< by plastic strip
    std::optional<Interval> strip_more_by_mm;            ///< strip less gauge
    bool methods_disagree = false;                       ///< further apart than their steps explain
};

/// .001 in for each inch of shaft, to .0005 in more for hard use. Common practice, no source.
[[nodiscard]] SizeBand common_bearing_clearance(double journal_mm);

/// Clearance of one bearing. The bore with shells in is taken if it was measured, else the housing
/// and the shells. A place read twice counts by its last reading.
/// Errors, `line` counted from 1: not_a_number, out_of_range ("journal", "bore", "housing", 5 to
/// 1000 mm; "along", "around"; "shell"; "strip").
Result<BearingClearance> bearing_clearance(const BearingReadings& readings, const SizeBand& wanted);

} // namespace rodway
