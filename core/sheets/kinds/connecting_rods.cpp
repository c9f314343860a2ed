#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind connecting_rods_sheet() {
    return {"connecting_rods",
            {
                {"connecting_rod_length", Form::length, Place::cylinder, "in"},
                {"rod_big_end_mass", Form::mass, Place::cylinder, "g"},
                {"rod_small_end_mass", Form::mass, Place::cylinder, "g"},
                {"pin_fit", Form::length, Place::cylinder, "in"},
                {"pin_diameter", Form::length, Place::engine, "in"},
            }};
}

} // namespace rodway
