#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind deck_sheet() {
    return {"deck",
            {
                {"deck_clearance", Form::deck, Place::cylinder_side, "in"},
            }};
}

} // namespace rodway
