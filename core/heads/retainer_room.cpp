#include "core/heads/retainer_room.h"

#include "core/units/length.h"

namespace rodway {

Result<RetainerRoom> retainer_room(const RetainerReadings& readings, double wanted_mm) {
    if (const auto bad =
            first_outside({{"closed", readings.closed_mm, {0.0, 100.0, "mm"}},
                           {"gross_valve_lift", readings.gross_valve_lift_mm, {0.0, 50.0, "mm"}},
                           {"lash", readings.lash_mm, {0.0, 5.0, "mm"}},
                           {"wanted", Interval::exactly(wanted_mm), {0.0, 20.0, "mm"}}})) {
        return *bad;
    }
    RetainerRoom room;
    room.net_valve_lift_mm = not_below_zero(readings.gross_valve_lift_mm - readings.lash_mm);
    room.at_full_lift_mm = readings.closed_mm - room.net_valve_lift_mm;
    room.with_lash_gone_mm = readings.closed_mm - readings.gross_valve_lift_mm;
    room.to_take_off_mm = not_below_zero(Interval::exactly(wanted_mm) - room.at_full_lift_mm);
    return room;
}

FigureBand usual_retainer_room_mm() {
    return {Length::inches(0.050).in_mm(), {}, FigureSource::common_practice};
}

} // namespace rodway
