#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind piston_to_valve_sheet() {
    return {"piston_to_valve",
            {
                {"valve_drop", Form::length, Place::valve_angle, "in"},
                {"piston_to_valve_clearance", Form::clearance, Place::valve, "in"},
                {"piston_to_valve_angle", Form::crank_angle, Place::valve, "deg"},
                {"piston_to_valve_side", Form::clearance, Place::valve, "in"},
                {"piston_to_valve_cam_position", Form::crank_angle, Place::engine, "deg"},
                {"piston_to_valve_gasket", Form::length, Place::engine, "in"},
                {"piston_to_valve_method", Form::choice, Place::engine, "", "clay dial"},
            }};
}

} // namespace rodway
