#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind pistons_sheet() {
    return {"pistons",
            {
                {"piston_size", Form::length, Place::cylinder, "in"},
                {"piston_gauge_height", Form::length, Place::engine, "in"},
                {"piston_mass", Form::mass, Place::cylinder, "g"},
                {"piston_wall_clearance", Form::length, Place::cylinder, "in"},
                {"compression_height", Form::length, Place::engine, "in"},
                {"dome_volume", Form::dome, Place::cylinder, "cc"},
                {"valve_relief_depth", Form::length, Place::valve, "in"},
            }};
}

} // namespace rodway
