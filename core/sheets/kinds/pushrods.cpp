#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind pushrods_sheet() {
    return {"pushrods",
            {
                {"pushrod_diameter", Form::length, Place::valve, "in"},
                {"pushrod_wall", Form::length, Place::valve, "in"},
                {"pushrod_length", Form::length, Place::valve, "in"},
                {"pushrod_length_definition", Form::choice, Place::valve, "",
                 "overall gauge effective"},
                {"pushrod_checker_turns", Form::number, Place::valve, "turns"},
                {"pushrod_cup_depth", Form::length, Place::valve, "in"},
                {"pushrod_ball_diameter", Form::length, Place::valve, "in"},
            }};
}

} // namespace rodway
