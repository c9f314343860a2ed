#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/engine/valve_position.h"
#include "core/loads/valve_spring.h"
#include "core/units/figure_band.h"

namespace rodway {

/// From spring seat to retainer, one valve closed, as measured.
struct InstalledHeight {
    ValvePosition valve;
    Interval height_mm;
};

/// One kind of spring at one valve's installed height.
struct InstalledSpring {
    ValvePosition valve;
    Interval height_mm;
    Interval seat_load_N;
    Interval open_load_N;               ///< at full lift
    std::optional<Interval> to_bind_mm; ///< left at full lift; empty if no bind height is known
    /// What shims would have to fill to bring the spring to the lowest of all heights. Not below 0.
    Interval above_lowest_mm;
};

struct InstalledHeights {
    std::vector<InstalledSpring> valves; ///< in the order given
    Interval lowest_mm;
    Interval height_spread_mm;
    Interval seat_load_spread_N; ///< by the heights alone: the springs are taken to be alike
};

/// What heights and lift say of springs that are alike: their own installed height isn't used.
/// Which shims are to be had is the business of `choose_shims`. `full_valve_lift_mm` is net of
/// lash, 0 to 50 and less than the lowest height.
/// Errors: those of `check_spring`; too_few_rows and duplicate_field ("valve"); out_of_range and
/// not_a_number ("height", 1 to 500 mm, `line` the valve's place in the list; "full_valve_lift").
Result<InstalledHeights> installed_heights(const std::vector<InstalledHeight>& heights,
                                           const ValveSpring& spring,
                                           const Interval& full_valve_lift_mm);

/// Before the coils touch at full lift: .060 in, .040 to .100 being seen (common practice, no
/// source). The band has the .060 as its least, and no greatest.
[[nodiscard]] FigureBand usual_to_bind_mm();

} // namespace rodway
