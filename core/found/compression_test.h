#pragma once

#include <optional>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// One cylinder's cranking pressure over the air's, kPa, 0 to 5000; dry, and with a little oil in.
struct CrankingPressure {
    int cylinder = 1;
    Interval dry_kPa;
    std::optional<Interval> wet_kPa;
};

struct CompressionLimits {
    double least_share = 0.75; ///< of the highest cylinder's, 0 to 1
    double wet_gain = 0.10;    ///< above this share of its dry pressure oil helps, 0 to 1
    FigureSource source = FigureSource::common_practice; ///< the two defaults are from memory
};

enum class CompressionStanding { even, low, undecided };

/// What oil says of a cylinder.
enum class WetFinding {
    oil_helps,      ///< rings or bore
    oil_is_no_help, ///< valves, gasket or a hole
    undecided,
    not_tested,
};

struct CylinderCompression {
    int cylinder = 1;
    Interval share_of_highest; ///< of the highest of the others; over 1 for the highest itself
    CompressionStanding standing = CompressionStanding::even;
    std::optional<Interval> wet_gain; ///< share of its dry pressure
    WetFinding wet = WetFinding::not_tested;
};

struct CompressionTest {
    Interval highest_kPa;
    Interval lowest_kPa;
    Interval spread_kPa;
    std::vector<CylinderCompression> cylinders; ///< in the order given
    /// Neighbours that are both low and that oil doesn't surely help: the gasket between them.
    std::vector<std::pair<int, int>> low_neighbours;
};

/// `neighbours`: cylinders side by side in one bank. Errors: too_few_rows ("cylinder"),
/// duplicate_field ("cylinder"), cylinder_unknown ("neighbours"), out_of_range, not_a_number,
/// order_wrong ("dry", above 0; "wet"; `line` the place; "limits/least_share", "limits/wet_gain").
Result<CompressionTest> compression_test(const std::vector<CrankingPressure>& readings,
                                         const std::vector<std::pair<int, int>>& neighbours = {},
                                         const CompressionLimits& limits = {});

} // namespace rodway
