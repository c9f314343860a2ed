#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind distributor_sheet() {
    return {"distributor",
            {
                {"distributor_float", Form::length, Place::engine, "in"},
                {"distributor_gear_clearance", Form::length, Place::engine, "in"},
                {"distributor_shim", Form::length, Place::engine, "in"},
                {"distributor_phase", Form::words, Place::engine},
            }};
}

} // namespace rodway
