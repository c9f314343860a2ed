#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind intake_sheet() {
    return {"intake",
            {
                {"intake_face_removed", Form::length, Place::spot, "in"},
                {"port_mismatch", Form::length, Place::cylinder_side, "in"},
                {"intake_face_gap", Form::length, Place::spot, "in"},
                {"end_rail_gap", Form::length, Place::spot, "in"},
                {"intake_gasket", Form::words, Place::engine},
                {"end_rail_bead", Form::length, Place::engine, "in"},
                {"intake_bolt_length", Form::length, Place::bolt, "in"},
                {"intake_bolt_sealer", Form::words, Place::bolt},
                {"valley_leak_test", Form::words, Place::engine},
            }};
}

} // namespace rodway
