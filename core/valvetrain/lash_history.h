#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/valve_position.h"
#include "core/units/figure_band.h"

namespace rodway {

enum class EngineHeat { cold, hot };

/// One valve's lash at one check.
struct CheckedLash {
    ValvePosition valve;
    std::optional<Interval> found_mm; ///< before anything was turned; empty: not looked at
    std::optional<Interval> left_mm;  ///< as set afterwards; empty: left as found
};

/// One round of lash, all of it at one heat.
struct LashCheck {
    EngineHeat heat = EngineHeat::cold;
    std::vector<CheckedLash> valves;
};

enum class LashChange {
    steady,           ///< no more than the alarm
    opened,           ///< by more than the alarm: a lobe, lifter, tip or adjuster going
    closed,           ///< by more than the alarm: a seat or valve going
    may_have_changed, ///< the feeler's steps leave it open
    nothing_before,   ///< never checked at this heat, or set since at the other
    not_looked_at,    ///< not in the last check
};

struct LashSinceLast {
    ValvePosition valve;
    LashChange change = LashChange::nothing_before;
    std::optional<Interval> was_mm; ///< as it was left, at the same heat
    std::optional<Interval> now_mm;
    std::optional<Interval> opened_by_mm; ///< negative: closed by
    /// The same less what the valves share: their median change. Empty without a change.
    std::optional<Interval> apart_from_rest_mm;
    bool apart = false; ///< and that is more than the alarm, surely: this valve, not the engine
};

struct LashHistory {
    std::vector<LashSinceLast> valves;      ///< every valve of any check, by position
    std::optional<double> shared_change_mm; ///< median of the changes' middles
};

/// Question 23: what changed since the last check, whatever the size. `checks` in the order in
/// which they were made, the last one being looked at; `alarm_mm` 0 to 5: a change beyond it
/// counts. A valve is compared with how it was left the last time it was checked at the same heat;
/// if it was set at the other heat since, nothing is known. Errors: too_few_rows ("checks");
/// duplicate_field ("valve", twice in one check); out_of_range, not_a_number, order_wrong ("found",
/// "left": 0 to 10 mm; "alarm"); `line` is the check's place.
Result<LashHistory> lash_since_last(const std::vector<LashCheck>& checks, double alarm_mm);

/// Worth looking into: .003 in either way (common practice, from memory).
[[nodiscard]] FigureBand usual_lash_change_mm();

} // namespace rodway
