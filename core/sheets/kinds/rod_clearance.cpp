#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind rod_clearance_sheet() {
    return {"rod_clearance",
            {
                {"rod_clearance", Form::clearance, Place::valve, "in"},
                {"rod_gap", Form::clearance, Place::rod_gap, "in"},
                {"rod_clearance_angle", Form::crank_angle, Place::valve, "deg"},
                {"rod_touch_surface", Form::words, Place::valve},
                {"rod_touch_height", Form::length, Place::valve, "in"},
                {"rod_touch_clock", Form::words, Place::valve},
                {"passage_size", Form::length, Place::valve, "in"},
                {"passage_metal_removed", Form::length, Place::valve, "in"},
                {"passage_wall_left", Form::length, Place::valve, "in"},
                {"rod_clearance_method", Form::choice, Place::valve, "",
                 "feeler pin_gauge tape dye light"},
            }};
}

} // namespace rodway
