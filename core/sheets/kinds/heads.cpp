#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind heads_sheet() {
    return {"heads",
            {
                {"head_thickness", Form::length, Place::spot, "in"},
                {"head_flatness", Form::length, Place::bank, "in"},
                {"head_removed", Form::length, Place::bank, "in"},
                {"chamber_volume", Form::volume, Place::cylinder, "cc"},
                {"port_height", Form::length, Place::spot, "in"},
                {"intake_bolt_height", Form::length, Place::spot, "in"},
            }};
}

} // namespace rodway
