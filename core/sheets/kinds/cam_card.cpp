#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind cam_card_sheet() {
    return {"cam_card",
            {
                {"cam_grind", Form::words, Place::engine},
                {"cam_core", Form::words, Place::engine},
                {"card_duration", Form::crank_angle, Place::card_height, "deg"},
                {"card_lift", Form::length, Place::card_lobe, "in"},
                {"card_lobe_separation", Form::cam_angle, Place::engine, "deg"},
                {"card_centreline", Form::crank_angle, Place::card_lobe, "deg"},
            }};
}

} // namespace rodway
