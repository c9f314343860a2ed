#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind main_bearings_sheet() {
    return {"main_bearings",
            {
                {"main_diameter", Form::length, Place::main_journal, "in"},
                {"main_bearing_bore", Form::length, Place::main_journal, "in"},
                {"main_clearance", Form::length, Place::main_journal, "in"},
                {"main_clearance_method", Form::choice, Place::main_journal, "",
                 "bore_gauge plastic_strip"},
                {"main_bearing_code", Form::words, Place::main_journal},
            }};
}

} // namespace rodway
