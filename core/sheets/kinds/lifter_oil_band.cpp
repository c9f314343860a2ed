#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind lifter_oil_band_sheet() {
    return {
        "lifter_oil_band",
        {
            {"oil_band_lower_edge", Form::length, Place::valve, "in"},
            {"oil_band_upper_edge", Form::length, Place::valve, "in"},
            {"oil_feed_height", Form::length, Place::valve, "in"},
            {"oil_feed_diameter", Form::length, Place::valve, "in"},
            {"oil_band_exposed_on_heel", Form::length, Place::valve, "in", "", Origin::worked_out},
            {"oil_band_exposed_at_full_lift", Form::length, Place::valve, "in", "",
             Origin::worked_out},
        }};
}

} // namespace rodway
