#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind lash_sheet() {
    return {"lash",
            {
                {"lash_hot", Form::lash, Place::valve, "in", "hot"},
                {"lash_cold", Form::lash, Place::valve, "in", "cold"},
            }};
}

} // namespace rodway
