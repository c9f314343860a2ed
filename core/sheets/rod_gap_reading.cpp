#include "core/sheets/rod_gap_reading.h"

#include "core/sheets/rod_clearance_reading.h"

namespace rodway {
namespace {

Error in_text(Error error) {
    error.field = "text";
    return error;
}

} // namespace

Result<GapReading> read_rod_gap(const Reading& reading) {
    const auto position = parse_rod_gap_position(reading.position);
    if (!position) {
        return position.error();
    }
    if (reading.unit != "in" && reading.unit != "mm") {
        return Error{ErrorCode::not_a_choice, "unit", reading.unit, "in mm", {}, {}};
    }
    if (reading.text.empty()) {
        return Error{ErrorCode::empty_text, "text", {}, {}, {}, {}};
    }
    const auto felt = parse_rod_clearance(reading.text, reading.unit == "in");
    if (!felt) {
        return in_text(felt.error());
    }
    GapReading gap;
    gap.name = std::to_string(reading.id);
    gap.valve = position->valve;
    gap.passage = position->passage;
    gap.set_up_id = reading.set_up_id;
    gap.place = position->place;
    gap.crank = position->crank;
    gap.end = position->end;
    if (position->clock_minutes) {
        gap.clock_hours = *position->clock_minutes / 60.0;
    }
    if (felt->has_high_limit()) {
        gap.high_mm = felt->high_mm;
    }
    // Only 'touch' says by itself that nothing is left; ".010 no" says nothing of the other side.
    if (felt->low_mm > 0.0 || felt->touch || !gap.high_mm) {
        gap.low_mm = felt->low_mm;
    }
    if (const auto checked = check_gap_reading(gap); !checked) {
        return in_text(checked.error());
    }
    return gap;
}

} // namespace rodway
