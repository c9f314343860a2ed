#pragma once

#include "core/build/records.h"
#include "core/sheets/rod_gap_position.h"

namespace rodway {

/// A record of the quantity `rod_gap` as the fit takes it, its number as name. The text is read as
/// `parse_rod_clearance` reads it; a side that no gauge was tried on has no limit.
/// Errors name the record's field: "position" as `parse_rod_gap_position`, "unit" (not_a_choice),
/// "text" (empty_text, as `parse_rod_clearance`).
Result<GapReading> read_rod_gap(const Reading& reading);

} // namespace rodway
