#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind lash_sheet() {
    return {"lash",
            {
                {"lash_hot", Form::length, Place::valve, "in"},
                {"lash_cold", Form::length, Place::valve, "in"},
            }};
}

} // namespace rodway
