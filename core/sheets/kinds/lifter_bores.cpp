#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind lifter_bores_sheet() {
    return {"lifter_bores",
            {
                {"lifter_bore_diameter", Form::length, Place::valve, "in"},
                {"lifter_bore_taper", Form::length, Place::valve, "in"},
                {"lifter_bore_offset", Form::length, Place::valve, "in"},
                {"lifter_bore_angle", Form::angle, Place::valve, "deg"},
            }};
}

} // namespace rodway
