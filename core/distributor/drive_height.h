#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/units/interval.h"

namespace rodway {

/// What sets the height of a distributor that sits on the intake, and so where its gear meshes and
/// how deep its shaft stands in the pump's drive.
enum class DriveHeightCause {
    intake, ///< sits lower after milling, higher on thicker gaskets
    distributor_gasket,
    housing_shim,  ///< already fitted
    gear_on_shaft, ///< pinned elsewhere than it was
    block_or_pump, ///< pump or its drive stands elsewhere, counted as the gear's own way
};

/// By how much one of them raises the distributor over how it last stood right, mm, within 50;
/// negative: it lets it down.
struct DriveHeightItem {
    DriveHeightCause cause = DriveHeightCause::intake;
    Interval raises_mm;
};

enum class PumpDrive {
    clear,
    bottoms, ///< the shaft stands on the pump's drive before the housing seats
    undecided,
    not_known, ///< nobody measured the room there was
};

struct DriveHeight {
    Interval raised_mm;       ///< all together: the gear meshes so much higher
    Interval housing_shim_mm; ///< to add under the housing to put it back; negative: take out
    std::optional<Interval> pump_room_mm; ///< now; negative: it bottoms by so much
    PumpDrive pump_drive = PumpDrive::not_known;
};

/// Question 31. `pump_room_before_mm`: how far the shaft could still go down before it bottomed,
/// when all was right, 0 to 50. The same cause may stand in the list more than once.
/// Errors: too_few_rows ("item"); out_of_range, not_a_number, order_wrong ("raises", `line` the
/// item's place; "pump_room").
Result<DriveHeight> drive_height(const std::vector<DriveHeightItem>& items,
                                 const std::optional<Interval>& pump_room_before_mm = {});

} // namespace rodway
