#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/loads/valve_spring.h"

namespace rodway {

/// What shims under a spring are to bring about: a seat load (N) or an installed height (mm),
/// within a band, and as near as can be to a target in it.
struct ShimAim {
    enum class Of { seat_load, installed_height };
    Of of = Of::seat_load;
    double low = 0.0;
    double high = 0.0;
    std::optional<double> target; ///< the band's middle if left empty
};

/// The shims on the shelf. The defaults are common practice, no source: .015, .030 and .060 in, a
/// stack of no more than .060 in, .060 in left before the coils touch. A shop sets its own.
struct ShimStock {
    std::vector<double> thicknesses_mm = {0.381, 0.762, 1.524}; ///< at most 12, 0.05 to 10 mm
    double greatest_stack_mm = 1.524;                           ///< 0 to 20
    int most_in_a_stack = 4;                                    ///< 0 to 6
    double least_to_bind_mm = 1.524;                            ///< at full lift, 0 to 20
};

enum class ShimStatus {
    in_band,
    not_in_band,  ///< the nearest that may be fitted; no stack brings it into the band
    held_by_bind, ///< a stack would bring it into the band, but would leave too little before bind
    binds_bare,   ///< too little is left before bind even without a shim: none is chosen
};

/// The stack chosen for one valve, and the spring on it.
struct ShimChoice {
    ShimStatus status = ShimStatus::in_band;
    std::vector<double> shims_mm; ///< thickest first; none: the spring stands as it is
    double stack_mm = 0.0;
    double installed_height_mm = 0.0;
    double seat_load_N = 0.0;
    SpringAtFullLift open;     ///< its `to_bind_mm` is empty where the bind height isn't known
    bool bind_checked = false; ///< false: no bind height is known, so that nothing was ruled out
};

/// Chooses among all stacks of stocked shims that leave enough before bind: one in the band before
/// one outside it, then the nearest to the target, then the fewest shims. A shim shortens the
/// spring; valve and retainer stay where they are. `spring` is as measured without shims,
/// `full_valve_lift_mm` net of lash, 0 to 50.
/// Errors: those of `check_spring`; out_of_range and not_a_number for "aim/low", "aim/high",
/// "aim/target", "thicknesses", "greatest_stack", "most_in_a_stack", "least_to_bind",
/// "full_valve_lift".
Result<ShimChoice> choose_shims(const ValveSpring& spring, const ShimAim& aim,
                                const ShimStock& stock, double full_valve_lift_mm);

} // namespace rodway
