#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind rings_sheet() {
    return {"rings",
            {
                {"ring_gap", Form::clearance, Place::ring, "in"},
                {"ring_side_clearance", Form::clearance, Place::ring, "in"},
                {"ring_orientation", Form::words, Place::engine},
            }};
}

} // namespace rodway
