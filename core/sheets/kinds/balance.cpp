#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind balance_sheet() {
    return {"balance",
            {
                {"balance_card", Form::words, Place::engine},
                {"ring_set_mass", Form::mass, Place::engine, "g"},
                {"pin_mass", Form::mass, Place::engine, "g"},
                {"pin_lock_mass", Form::mass, Place::engine, "g"},
                {"rod_bearing_mass", Form::mass, Place::engine, "g"},
                {"oil_allowance_mass", Form::mass, Place::engine, "g"},
                {"balance_factor", Form::percent, Place::engine, "%"},
                {"bobweight", Form::mass, Place::engine, "g", "", Origin::worked_out},
            }};
}

} // namespace rodway
