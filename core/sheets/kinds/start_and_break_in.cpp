#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind start_and_break_in_sheet() {
    return {"start_and_break_in",
            {
                {"prime_time", Form::time, Place::engine, "min"},
                {"oil_at_rocker", Form::yes_no, Place::valve},
                {"first_start_oil_pressure", Form::pressure, Place::engine, "psi"},
                {"first_start_temperature", Form::temperature, Place::engine, "degF"},
                {"break_in_time", Form::time, Place::series, "min"},
                {"break_in_speed", Form::speed, Place::series, "rpm"},
                {"start_faults", Form::words, Place::series},
                {"lash_after_run", Form::length, Place::valve, "in"},
                {"retorque", Form::torque, Place::bolt, "lb-ft"},
                {"filter_look", Form::words, Place::engine},
            }};
}

} // namespace rodway
