#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind lifters_sheet() {
    return {"lifters",
            {
                {"lifter_marking", Form::words, Place::valve},
                {"lifter_seat_height", Form::length, Place::valve, "in"},
                {"lifter_diameter", Form::length, Place::valve, "in"},
                {"lifter_clearance", Form::length, Place::valve, "in"},
                {"lifter_plunger_travel", Form::length, Place::valve, "in"},
                {"lifter_preload", Form::length, Place::valve, "in"},
                {"lifter_spins", Form::yes_no, Place::valve},
            }};
}

} // namespace rodway
