#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// One combustion chamber's volume by burette.
struct ChamberReading {
    int cylinder = 1;
    Interval volume_cc; ///< 1 to 2000
};

struct SurveyedChamber {
    int cylinder = 1;
    Interval volume_cc;
    Interval from_mean_cc;     ///< above zero: larger than the mean of all
    Interval below_largest_cc; ///< what would have to be opened up to match; not below 0
};

struct ChamberSurvey {
    Interval least_cc;
    Interval greatest_cc;
    Interval mean_cc;
    Interval spread_cc;                    ///< greatest less least
    std::vector<SurveyedChamber> chambers; ///< in the order given
};

/// Errors: too_few_rows ("chamber"), duplicate_field ("cylinder"), out_of_range, not_a_number and
/// order_wrong ("volume", `line` the place in the list).
Result<ChamberSurvey> survey_chambers(const std::vector<ChamberReading>& readings);

} // namespace rodway
