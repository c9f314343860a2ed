#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind block_sheet() {
    return {"block",
            {
                {"deck_flatness", Form::length, Place::bank, "in"},
                {"deck_height", Form::length, Place::spot, "in"},
                {"deck_removed", Form::length, Place::bank, "in"},
                {"main_housing_bore", Form::length, Place::main_journal, "in"},
                {"align_hone", Form::words, Place::engine},
                {"cam_housing_bore", Form::length, Place::cam_journal, "in"},
                {"dowel_fit", Form::words, Place::spot},
                {"gallery_plug", Form::words, Place::plug},
                {"thread_repair", Form::words, Place::hole},
                {"head_bolt_hole_depth", Form::length, Place::hole, "in"},
                {"bank_angle", Form::angle, Place::engine, "deg"},
                {"cam_to_crank_distance", Form::length, Place::engine, "in"},
            }};
}

} // namespace rodway
