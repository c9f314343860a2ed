#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind crank_sheet() {
    return {"crank",
            {
                {"crank_end_play", Form::length, Place::engine, "in"},
                {"rod_side_clearance", Form::length, Place::cylinder, "in"},
                {"crank_runout", Form::length, Place::main_journal, "in"},
                {"stroke", Form::length, Place::cylinder, "in"},
                {"damper", Form::words, Place::engine},
            }};
}

} // namespace rodway
