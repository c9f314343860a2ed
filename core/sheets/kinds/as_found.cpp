#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind as_found_sheet() {
    return {"as_found",
            {
                {"as_found_leakdown", Form::percent, Place::cylinder, "%"},
                {"as_found_compression", Form::pressure, Place::cylinder, "psi"},
                {"as_found_lash", Form::lash, Place::valve, "in", "hot cold"},
                {"as_found_end_play", Form::length, Place::engine, "in"},
                {"as_found_bore_wear", Form::length, Place::cylinder, "in"},
                {"as_found_bearing_look", Form::words, Place::main_journal},
                {"as_found_lobe_look", Form::words, Place::lobe},
                {"as_found_lifter_face", Form::words, Place::valve},
                {"as_found_pushrod_marks", Form::words, Place::valve},
                {"as_found_pushrod_length", Form::length, Place::valve, "in"},
                {"as_found_bolt_torque", Form::torque, Place::bolt, "lb-ft"},
                {"crack_test", Form::words, Place::spot},
            }};
}

} // namespace rodway
