#pragma once

#include <optional>

#include "core/base/result.h"
#include "core/units/figure_band.h"

namespace rodway {

/// What is turned to set a hydraulic lifter's preload.
enum class PreloadThread {
    fulcrum_nut,  ///< a nut on the rocker's stud: it moves the pivot, the rod's seat by 1 + 1/ratio
    rocker_screw, ///< a screw in the rocker's end: it moves the rod's seat itself
};

struct PreloadTurning {
    PreloadThread thread = PreloadThread::fulcrum_nut;
    double pitch_mm = 0.0;     ///< 0.2 to 5
    double rocker_ratio = 0.0; ///< 0.5 to 4; a rocker screw doesn't ask
};

struct TurnedPreload {
    double lever =
        1.0; ///< rod's seat per travel of nut or screw; rule of thumb, see lash_setting.h
    Interval preload_mm;
    /// What the plunger can still go down; negative: it stands on its bottom and the valve is held
    /// open. Empty if its travel isn't known.
    std::optional<Interval> travel_left_mm;
};

/// Question 11: what preload so many turns after zero lash are. `turns`: 0 to 20; a doubt about
/// where zero lash was belongs in it. `plunger_travel_mm`: 0 to 50.
/// Errors: out_of_range, not_a_number, order_wrong ("pitch", "turns", "ratio", "plunger_travel").
Result<TurnedPreload> preload_for_turns(const PreloadTurning& turning, const Interval& turns,
                                        const std::optional<Interval>& plunger_travel_mm = {});

/// Turns after zero lash for a wanted preload, 0 to 50 mm. Errors: as above; "preload".
Result<Interval> turns_for_preload(const PreloadTurning& turning, const Interval& preload_mm);

/// .020 to .060 in (common practice, no source; the lifter's maker goes before it).
[[nodiscard]] FigureBand usual_preload_mm();

} // namespace rodway
