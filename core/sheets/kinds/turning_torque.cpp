#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind turning_torque_sheet() {
    return {"turning_torque",
            {
                {"turning_torque_crank", Form::torque, Place::engine, "in-lb"},
                {"turning_torque_with_piston", Form::torque, Place::cylinder, "in-lb"},
                {"turning_torque_short_block", Form::torque, Place::engine, "in-lb"},
            }};
}

} // namespace rodway
