#pragma once

#include <optional>
#include <stop_token>
#include <vector>

#include "core/describe/description.h"
#include "core/engine/lobes_made.h"

namespace rodway {

/// One size of a described engine and what not knowing it better is worth.
struct SizeWorth {
    const EngineDimension* dimension = nullptr;
    DescribedSize size;
    /// How much a minimum clearance changes when the size is wrong by its ±, all else that was
    /// typed as it is: the greater way, mm, of the valve where it does most. Empty if with such a
    /// size no train would close: then it is worth more than can be said.
    std::optional<double> worth_mm;
    ValvePosition valve; ///< where it does most
};

/// One valve's least clearance and what the described sizes leave open of it.
struct DescribedClearance {
    ValvePosition valve;
    std::optional<double> clearance_mm; ///< empty if it has none
    /// ±: the sizes' worths at this valve, combined by squares (JCGM 100:2008, 5.1.2, each at its
    /// 95 %). Empty if the worth of one can't be said.
    std::optional<double> doubt_mm;
};

struct DescriptionWorth {
    std::vector<SizeWorth> sizes; ///< by worth, greatest first; those without an answer before them
    std::vector<DescribedClearance> valves; ///< in the plan's order
};

/// What each size of a described set-up is worth in clearance: the engine is made again with the
/// size one ± greater and one ± less, and its minima are found anew. A tube located by gaps follows
/// the rod, as it does when it is measured so. A stop asked for meanwhile ends it with what is done
/// so far. Errors: those of `make_engine`; not for a set-up that isn't described.
Result<DescriptionWorth> description_worth(const SetUpFields& fields, LobesMade& made,
                                           const std::stop_token& stop = {});

} // namespace rodway
