#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind oiling_sheet() {
    return {"oiling",
            {
                {"pump_end_clearance", Form::length, Place::engine, "in"},
                {"pump_drive_clearance", Form::length, Place::engine, "in"},
                {"pickup_depth", Form::length, Place::engine, "in"},
                {"prime_pressure", Form::pressure, Place::engine, "psi"},
                {"oil_used", Form::words, Place::engine},
                {"oil_filter_used", Form::words, Place::engine},
            }};
}

} // namespace rodway
