#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind fasteners_sheet() {
    return {"fasteners",
            {
                {"fastener_lubricant", Form::words, Place::bolt},
                {"fastener_torque", Form::torque, Place::bolt_pass, "lb-ft"},
                {"fastener_angle", Form::angle, Place::bolt_pass, "deg"},
                {"fastener_free_length", Form::length, Place::bolt, "in"},
                {"fastener_stretch", Form::length, Place::bolt, "in"},
                {"fastener_reused", Form::yes_no, Place::bolt},
            }};
}

} // namespace rodway
