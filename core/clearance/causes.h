#pragma once

#include <optional>
#include <vector>

#include "core/clearance/clearance_place.h"
#include "core/clearance/clearance_rate.h"
#include "core/clearance/engine_parameter.h"

namespace rodway {

/// How the minimum changes to one side of a parameter as it stands: mm for one unit of it (mm or
/// rad), and which place is then the nearest (index into `MinimumCauses::places`), which says wall
/// and end.
struct SideRate {
    double per_unit = 0.0;
    std::size_t place = 0;
};

/// The two differ only where the minimum switches place: the nearest place rules, so growing takes
/// the least of the rates and shrinking the greatest.
struct CauseRate {
    SideRate when_less;
    SideRate when_more;

    [[nodiscard]] double size() const;
};

/// What one parameter does to a minimum, by what is held. Empty where that can't be: see
/// `clearance_rate`.
struct Cause {
    EngineParameter parameter;
    std::optional<CauseRate> adjuster_reset;
    std::optional<CauseRate> rod_rechosen;
};

/// Why a minimum is what it is.
struct MinimumCauses {
    std::vector<ClearancePlace> places; ///< the minimum's own first; more only where places tie
    /// Largest first, by the lash set again with the adjuster (by the rod where that can't be).
    /// A tilt's millimetre counts at 25.4 mm from where it turns, so that a thou for a thou and a
    /// thou for a thou an inch compare.
    std::vector<Cause> causes;
};

/// Every parameter that can act on a train beside one thing.
[[nodiscard]] std::vector<EngineParameter> parameters_at(const Engine& engine, const Train& train,
                                                         const ClearancePlace& place);

/// Causes of a minimum whose places are known. Parameters are those of the first place's thing, and
/// of the others' where several tie. `train` as it stands now, as `linkage` was closed from it.
[[nodiscard]] MinimumCauses causes_at(const Engine& engine, const Train& train,
                                      const Linkage& linkage, std::vector<ClearancePlace> places);

/// Causes of the minimum that decides, of a train and everything beside its rod; empty if it has
/// none (see `certified_minima`). Error: banks_parallel.
[[nodiscard]] Result<std::optional<MinimumCauses>> causes_of(const Engine& engine,
                                                             const Train& train);

} // namespace rodway
