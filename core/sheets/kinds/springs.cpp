#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind springs_sheet() {
    return {"springs",
            {
                {"spring_marking", Form::words, Place::valve},
                {"spring_installed_height", Form::length, Place::valve, "in"},
                {"spring_shim", Form::length, Place::valve, "in"},
                {"retainer_and_lock", Form::words, Place::valve},
                {"spring_seat_load", Form::force, Place::valve, "lbf"},
                {"spring_open_load", Form::force, Place::valve, "lbf"},
                {"spring_load_at_height", Form::force, Place::spring_height, "lbf"},
                {"spring_bind_height", Form::length, Place::valve, "in"},
                {"spring_bind_margin", Form::length, Place::valve, "in", "", Origin::worked_out},
                {"retainer_to_guide", Form::clearance, Place::valve, "in"},
                {"spring_pocket_fit", Form::words, Place::valve},
            }};
}

} // namespace rodway
