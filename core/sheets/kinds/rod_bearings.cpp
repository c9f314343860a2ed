#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind rod_bearings_sheet() {
    return {"rod_bearings",
            {
                {"rod_journal_diameter", Form::length, Place::rod_pin, "in"},
                {"rod_housing_bore", Form::length, Place::rod_pin, "in"},
                {"rod_bearing_bore", Form::length, Place::rod_pin, "in"},
                {"rod_bearing_clearance", Form::length, Place::cylinder, "in"},
                {"rod_bearing_clearance_method", Form::choice, Place::cylinder, "",
                 "bore_gauge plastic_strip"},
                {"rod_bearing_code", Form::words, Place::cylinder},
            }};
}

} // namespace rodway
