#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace rodway {

struct LiftRow {
    double cam_deg = 0.0;
    double lift_mm = 0.0;

    bool operator==(const LiftRow&) const = default;
};

/// Lobe lift by cam angle, as measured or as the cam's maker gives it. The angle's zero may stand
/// anywhere. `resolution_mm` is one step of the last digit written.
struct LiftTable {
    std::vector<LiftRow> rows;
    double resolution_mm = 0.0;
};

/// How a table begins and ends. Each end either stands on the heel, or it begins on the ramp, which
/// then wasn't measured down to the heel.
struct LiftTableEnds {
    /// What the dial read on the heel; to be taken off every row. Zero where an end simply starts
    /// at zero.
    double zero_shift_mm = 0.0;
    /// Greatest less least reading on the heel: base-circle runout and the dial's scatter.
    double heel_wander_mm = 0.0;
    bool opening_ramp_measured = true;
    bool closing_ramp_measured = true;
    /// The rows, counted from 0, where the heel ends and where it begins again; the table's first
    /// or last row where that ramp wasn't measured.
    std::size_t opening_row = 0;
    std::size_t closing_row = 0;
};

/// A ramp may be missing from a table that begins no higher than 0.030 in.
inline constexpr double greatest_cut_lift_mm = 0.762;

/// Checks that a table can be made into a lobe: at least 8 rows, angles rising, within one turn,
/// one peak of 1 to 20 mm, each end either on the heel or on a ramp.
///
/// An end is on the heel if it starts at zero (within 0.0002 in, or the last digit), or if at least
/// four rows over three degrees stay within 0.0012 in of one another and don't rise more than a
/// dial's scatter explains: a heel that reads something else than zero is a dial that wasn't
/// zeroed. Both ends must then read the same, within 0.0012 in; the runout of a base circle may be
/// that. It is on a ramp if it starts above zero, no higher than 0.030 in, and already rises by at
/// least 0.0001 in a degree. Errors: empty_file, too_few_rows, order_wrong, not_a_number,
/// not_zero_at_ends, not_single_peak, out_of_range; `line` is the row, counted from 1.
Result<LiftTableEnds> read_lift_table_ends(const LiftTable& table);

/// The same check, for those who don't ask how the table ends.
Result<Done> check_lift_table(const LiftTable& table);

} // namespace rodway
