#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind cam_sheet() {
    return {"cam",
            {
                {"base_circle", Form::length, Place::lobe, "in"},
                {"lobe_nose", Form::length, Place::lobe, "in"},
                {"lobe_lift", Form::length, Place::lobe, "in"},
                {"cam_journal_diameter", Form::length, Place::cam_journal, "in"},
                {"cam_runout", Form::length, Place::cam_journal, "in"},
                {"cam_bearing_clearance", Form::length, Place::cam_journal, "in"},
                {"cam_end_play", Form::length, Place::engine, "in"},
                {"cam_button_clearance", Form::length, Place::engine, "in"},
            }};
}

} // namespace rodway
