#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind rotating_clearances_sheet() {
    return {"rotating_clearances",
            {
                {"rod_to_block_clearance", Form::clearance, Place::cylinder, "in"},
                {"rod_to_cam_clearance", Form::clearance, Place::cylinder, "in"},
                {"counterweight_to_block_clearance", Form::clearance, Place::main_journal, "in"},
                {"counterweight_to_piston_clearance", Form::clearance, Place::cylinder, "in"},
                {"crank_to_pump_clearance", Form::clearance, Place::engine, "in"},
            }};
}

} // namespace rodway
