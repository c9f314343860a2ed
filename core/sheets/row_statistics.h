#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/sheets/reading_interval.h"

namespace rodway {

/// One reading of a row: the same thing read at one of several positions.
struct RowReading {
    std::string position; ///< as kept, e.g. "3I"
    Interval value;
};

/// Whether the row says if one of its readings is the odd one out.
enum class OddOneOutRule {
    applied,
    too_few,  ///< fewer than `least_readings_for_odd`: any of them could be the odd one
    no_scale, ///< more than half are equal and none has a step: nothing says what is far
};

/// A reading that stands apart from the row.
struct OddReading {
    std::size_t index = 0;    ///< in the row as given
    double from_median = 0.0; ///< signed, by its middle
    double scales_away = 0.0; ///< its nearer end from the median, in `RowStatistics::scale`
};

constexpr std::size_t least_readings_for_odd = 4;
/// Modified z-score beyond which a reading is odd. Source: Iglewicz & Hoaglin, How to Detect and
/// Handle Outliers (1993), as in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.
constexpr double odd_scales_away = 3.5;

/// What a row of readings comes to. Numbers are of the readings' middles, in their unit.
struct RowStatistics {
    std::size_t count = 0;
    double mean = 0.0;
    double median = 0.0;
    std::optional<double> standard_deviation; ///< of a sample, n - 1; empty for one reading
    std::size_t greatest = 0;                 ///< index, the first of equals
    std::size_t least = 0;
    std::optional<double> spread;        ///< greatest less least; empty for one reading
    std::optional<Interval> true_spread; ///< what it can be, the readings' steps counted

    OddOneOutRule rule = OddOneOutRule::too_few;
    double scale = 0.0; ///< one standard deviation as the rule takes it; 0 unless it was applied
    std::vector<OddReading> odd; ///< the furthest away first
};

/// The odd one out is found from the median absolute deviation, MAD, which one wild reading can't
/// move: it is odd if it stands more than 3.5·MAD/0.6745 from the median (Iglewicz & Hoaglin).
/// Two things are added, so that rounding alone makes nothing odd: the scale is at least the
/// median of the readings' standard uncertainties, width/√12 (JCGM 100:2008, 4.3.7), and a reading
/// is judged by the end of its interval that is nearer to the median. To one step, two steps off
/// are odd among equals, one step isn't.
/// Honest short rows often have an "odd" one by this rule: one row in six of four normal readings,
/// one in seven of eight (the tests measure it). It says which to measure again, not which is
/// wrong.
/// Errors, field "reading": too_few_rows (none); not_a_number, out_of_range (beyond ±1e12, or an
/// upper end below its lower one), `line` counted from 1.
Result<RowStatistics> row_statistics(const std::vector<RowReading>& row);

} // namespace rodway
