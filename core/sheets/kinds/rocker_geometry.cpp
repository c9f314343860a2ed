#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind rocker_geometry_sheet() {
    return {"rocker_geometry",
            {
                {"rocker_ratio_nominal", Form::ratio, Place::valve},
                {"rocker_ratio_measured", Form::ratio, Place::valve},
                {"rocker_valve_arm", Form::length, Place::valve, "in"},
                {"rocker_pushrod_arm", Form::length, Place::valve, "in"},
                {"adjuster_threads_showing", Form::number, Place::valve, "threads"},
                {"rocker_stand_height", Form::length, Place::spot, "in"},
                {"rocker_stand_shim", Form::length, Place::spot, "in"},
                {"rocker_shaft_clearance", Form::length, Place::valve, "in"},
                {"sweep_position", Form::length, Place::valve_lift, "in"},
                {"sweep_width", Form::length, Place::valve, "in"},
                {"tip_centre_offset", Form::length, Place::valve, "in"},
                {"guide_plate", Form::words, Place::valve},
                {"stud_height", Form::length, Place::valve, "in"},
                {"retainer_to_rocker", Form::clearance, Place::valve, "in"},
            }};
}

} // namespace rodway
