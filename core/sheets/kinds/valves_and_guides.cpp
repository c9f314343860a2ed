#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind valves_and_guides_sheet() {
    return {"valves_and_guides",
            {
                {"valve_head_diameter", Form::length, Place::valve, "in"},
                {"valve_stem_diameter", Form::length, Place::valve, "in"},
                {"guide_bore", Form::length, Place::valve, "in"},
                {"stem_clearance", Form::length, Place::valve, "in"},
                {"valve_margin", Form::length, Place::valve, "in"},
                {"seat_width", Form::length, Place::valve, "in"},
                {"seat_angle", Form::angle, Place::valve, "deg"},
                {"valve_tip_height", Form::length, Place::valve, "in"},
            }};
}

} // namespace rodway
