#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/engine/compression.h"
#include "core/sheets/kinds/refused_reading.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One cylinder at top dead centre as its readings make it.
struct CylinderRoom {
    std::optional<CylinderAtTop> cylinder; ///< nothing while a reading is missing
    std::vector<std::string_view> missing; ///< quantities
};

/// The crevice counts where it was read; most figures of the trade leave it out. A gasket's volume
/// goes before its bore. A dome is positive, a dish negative.
[[nodiscard]] CylinderRoom cylinder_room(const SheetFacts& facts, const std::string& cylinder);

/// Every cylinder that the set-up has or that was measured for its room.
[[nodiscard]] std::vector<std::string> cylinders_with_room(const SheetFacts& facts);

/// The rod's length, mm, as read or else the set-up's; nothing if neither is there.
[[nodiscard]] std::optional<Bounded> rod_length_mm(const SheetFacts& facts,
                                                   const std::string& cylinder);

/// Where the intake valve counts as shut, crank degrees after bottom dead centre, -180 to under
/// 180.
[[nodiscard]] std::optional<Bounded> intake_closes_crank_deg(const SheetFacts& facts);

/// What the errors of `core/engine/compression.h` and `dynamic_compression.h` speak of.
[[nodiscard]] const std::vector<ReadingOfField>& room_readings();

} // namespace rodway
