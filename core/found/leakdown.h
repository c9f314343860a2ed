#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// One cylinder's leakage by a leakdown tester, per cent, 0 to 100.
struct CylinderLeak {
    int cylinder = 1;
    Interval percent;
};

/// Up to which leakage a cylinder is taken to be fresh, and up to which still usable.
struct LeakdownBands {
    double fresh_percent = 10.0; ///< 5 to 10 in a fresh engine
    double usable_percent = 20.0;
    FigureSource source = FigureSource::common_practice; ///< the two defaults are no more than that
};

enum class LeakdownClass {
    fresh,
    usable,
    worn,
    fresh_or_usable, ///< the reading's doubt reaches over a band's end
    usable_or_worn,
};

struct CylinderLeakdown {
    int cylinder = 1;
    Interval percent;
    LeakdownClass found = LeakdownClass::fresh;
    Interval above_least_percent; ///< of all the others; below 0 for the tightest
};

struct Leakdown {
    Interval least_percent;
    Interval greatest_percent;
    Interval mean_percent;
    Interval spread_percent;                 ///< greatest less least
    std::vector<CylinderLeakdown> cylinders; ///< in the order given
};

/// Errors: too_few_rows ("cylinder"), duplicate_field ("cylinder"), out_of_range, not_a_number,
/// order_wrong ("percent", `line` the place; "bands/fresh", "bands/usable").
Result<Leakdown> leakdown(const std::vector<CylinderLeak>& readings,
                          const LeakdownBands& bands = {});

} // namespace rodway
