#pragma once

#include <map>
#include <optional>

#include "core/clearance/parameter_kind.h"

namespace rodway {

/// Where a size that somebody states comes from.
enum class DoubtSource { measured, from_the_box, assumed, common_practice };

struct StatedSize {
    double size = 0.0; ///< mm; rad where it is of a tilt; not below 0
    DoubtSource source = DoubtSource::assumed;
};

/// What the clearance of a turn leaves out, as stated for an engine; what nobody has stated is
/// empty, never 0. End floats are the rockers' own (`Rocker::end_float_mm`), the lash the valves'.
struct EngineDoubt {
    std::optional<DoubtSource> lash_float; ///< stated: on the heel the lash lets the rod lift
    DoubtSource end_float = DoubtSource::assumed;
    std::optional<StatedSize> seat_off_axis;    ///< distance of the rod's seat from the lifter's
                                                ///< axis; a flat lifter spins it round
    std::optional<StatedSize> rod_runout;       ///< indicator reading of a turned rod, its middle
    std::optional<StatedSize> lifter_bore_slop; ///< clearance of a lifter in its bore, diameters
    std::optional<StatedSize> leak_down;        ///< how far a hydraulic plunger may sink
    /// Standard uncertainties (JCGM 100, 2.3.1) of what the engine was measured to be.
    std::map<ParameterKind, StatedSize> inputs;
};

} // namespace rodway
