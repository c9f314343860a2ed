#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/measure_unit.h"

namespace rodway {

/// Whether a figure printed below others is their total, or their mean.
enum class TotalVerdict {
    adds_up,           ///< the parts as typed make it, to its own last digit
    rounding_explains, ///< they don't, but parts rounded before they were typed could
    not_theirs,        ///< no rounding explains it: a slip, or a part that isn't shown
    cannot_tell,       ///< a part or the figure is only "about", "below" or "above"
};

/// What a slip of the keys does to a number.
enum class SlipKind {
    digit_changed,
    digits_swapped, ///< two neighbours
    digit_too_many,
    digit_missing,
    point_moved, ///< by one place, or left out
};

/// One entry which, put right by one slip, makes the figure right to its own last digit. Several
/// may do so; none is proven.
struct LikelySlip {
    std::optional<std::size_t> part; ///< its place among the parts, from 0; nothing: the figure
    SlipKind kind = SlipKind::digit_changed;
    std::string text;   ///< what may have been meant
    double value = 0.0; ///< of that text, in the unit in which the dimension is held
};

/// Numbers are in the unit in which the dimension is held.
struct StatedTotal {
    TotalVerdict verdict = TotalVerdict::adds_up;
    double own = 0.0;    ///< total or mean of the parts as typed
    double stated = 0.0; ///< as typed
    double stated_more_by = 0.0;
    double rounding = 0.0; ///< how far half steps of all parts and of the figure may part the two
    /// Only where the figure isn't theirs. Of a total in the parts' order, the figure last; of a
    /// mean, those first that leave the parts closest together.
    std::vector<LikelySlip> slips;
};

/// Parts and figure as typed: `parse_amount` reads them, a bare number in `bare_unit`. Parts that
/// are intervals count with their middles, half their width as rounding. A total of temperatures
/// is a bug. Errors: as `parse_amount`, `field` "parts" with `line` the part's place counted from
/// 1, or "total"; too_few_rows ("parts": two), out_of_range ("parts": 10 000).
Result<StatedTotal> check_total(const std::vector<std::string>& parts, const std::string& total,
                                Dimension dimension, std::string_view bare_unit);
/// The same of a mean; the field is "mean".
Result<StatedTotal> check_mean(const std::vector<std::string>& parts, const std::string& mean,
                               Dimension dimension, std::string_view bare_unit);

} // namespace rodway
