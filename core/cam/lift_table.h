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

/// Checks that a table can be made into a lobe: at least 8 rows, angles rising, within one turn,
/// zero lift (to `resolution`) at both ends, one peak between 1 and 20 mm.
/// Errors: empty_file, too_few_rows, order_wrong, not_zero_at_ends, not_single_peak, out_of_range;
/// `line` is the row, counted from 1.
Result<Done> check_lift_table(const LiftTable& table);

} // namespace rodway
