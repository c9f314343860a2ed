#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind tube_job_sheet() {
    return {"tube_job",
            {
                {"tube_bore", Form::length, Place::valve_tube, "in"},
                {"tube_seal", Form::words, Place::valve},
                {"tube_cure", Form::words, Place::valve},
                {"tube_leak_before_relief", Form::words, Place::valve},
                {"tube_leak_after_relief", Form::words, Place::valve},
                {"tube_wall_left", Form::length, Place::valve, "in"},
            }};
}

} // namespace rodway
