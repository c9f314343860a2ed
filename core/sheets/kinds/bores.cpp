#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind bores_sheet() {
    return {"bores",
            {
                {"bore", Form::length, Place::bore, "in"},
                {"bore_taper", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"bore_out_of_round", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"bore_finish", Form::words, Place::engine},
                {"torque_plate", Form::words, Place::engine},
                {"sonic_wall", Form::length, Place::cylinder_side, "in"},
            }};
}

} // namespace rodway
