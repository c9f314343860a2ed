#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/sheets/row_statistics.h"

namespace rodway {

/// One part on the scale.
struct WeighedPart {
    std::string kind; ///< "piston", "rod_big_end" …: parts of one kind are to weigh alike
    int cylinder = 0;
    Interval mass_g; ///< 0 to 50 000
};

/// One part beside the lightest of its kind.
struct PartToMatch {
    int cylinder = 0;
    Interval heavier_by_g; ///< than the lightest; to be taken off to match it. 0 or more
};

/// All parts of one kind.
struct PartSpread {
    std::string kind;
    RowStatistics masses;           ///< indices are those of `parts`
    std::vector<PartToMatch> parts; ///< in the order weighed
};

/// Kinds in the order in which they first stand. A part weighed twice counts by its last mass.
/// Errors, field "mass", `line` counted from 1: too_few_rows (none), not_a_number, out_of_range.
Result<std::vector<PartSpread>> spread_of_parts(const std::vector<WeighedPart>& parts);

} // namespace rodway
