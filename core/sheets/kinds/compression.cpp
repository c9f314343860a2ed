#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind compression_sheet() {
    return {"compression",
            {
                {"gasket_bore", Form::length, Place::engine, "in"},
                {"gasket_compressed", Form::length, Place::engine, "in"},
                {"crevice_volume", Form::volume, Place::engine, "cc"},
                {"compression_ratio", Form::ratio, Place::cylinder, "", "", Origin::worked_out},
                {"quench", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"dynamic_intake_closing", Form::crank_angle, Place::engine, "deg"},
            }};
}

} // namespace rodway
