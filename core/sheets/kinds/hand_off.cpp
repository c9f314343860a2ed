#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind hand_off_sheet() {
    return {"hand_off",
            {
                {"engine_weight", Form::mass, Place::engine, "lb"},
                {"seal_numbers", Form::words, Place::engine},
            }};
}

} // namespace rodway
