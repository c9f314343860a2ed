#pragma once

#include <string>
#include <vector>

#include "core/build/records.h"
#include "core/clearance/gap_reading.h"

namespace rodway {

/// A reading that no longer says anything of the engine as it stands, and the fields of the set-up
/// whose change makes it so, in alphabetical order.
struct StaleReading {
    std::string name;
    std::vector<std::string> fields;
};

/// Readings taken in one set-up that another one makes stale. A field counts if it places the
/// reading's rod or its passage there:
/// - of its own train: lifter, rod, rocker, adjuster, valve and the passage it was taken in, but
///   not what only limits or describes them (thread left, cup, tip, body, wall);
/// - of castings: its own bank's; where the passage is in an intake over all banks, every bank's,
///   since the intake rests on all of them; gaskets under the intake only for what is in the
///   intake;
/// - of its lobe: base circle and lash always; the lift curve except on the heel; where full lift
///   falls, and the firing order, for readings at a crank angle;
/// - any field not known to leave rods and passages where they are: better one reading too many.
/// Springs, limits, doubts, piston to valve and obstacles never do. A value typed another way
/// (".5" and "1/2") is no change.
[[nodiscard]] std::vector<StaleReading> stale_readings(const SetUpFields& before,
                                                       const SetUpFields& after,
                                                       const std::vector<GapReading>& readings);

/// The changed fields by which one reading is stale; none: it still holds.
[[nodiscard]] std::vector<std::string> stale_by(const SetUpFields& before, const SetUpFields& after,
                                                const GapReading& reading);

} // namespace rodway
