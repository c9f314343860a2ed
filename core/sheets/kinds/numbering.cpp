#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind numbering_sheet() {
    return {
        "numbering",
        {
            {"cylinder_numbering", Form::words, Place::engine},
            {"bank_names", Form::words, Place::engine},
            {"turning_direction", Form::choice, Place::engine, "", "clockwise counter_clockwise"},
            {"firing_order", Form::words, Place::engine},
            {"valve_order", Form::words, Place::engine},
            {"lifter_numbering", Form::words, Place::engine},
            {"number_one_location", Form::words, Place::engine},
            {"tdc_mark_true", Form::yes_no, Place::engine},
            {"degrees_counted_as", Form::choice, Place::engine, "", "crank cam"},
        }};
}

} // namespace rodway
