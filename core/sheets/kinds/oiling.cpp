#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// Pan and pickup from the block's rail, the pan's gasket between: none of the three is left out.
SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    const auto pan_mm = facts.readings.number("pan_depth");
    const auto gasket_mm = facts.readings.number("pan_gasket");
    const auto pickup_mm = facts.readings.number("pickup_below_rail");
    if (pan_mm && gasket_mm && pickup_mm) {
        figures.add_beside_reading("pickup_depth", "", *pan_mm + *gasket_mm - *pickup_mm,
                                   PointedOut::methods_differ);
    }
    return figures.outcome();
}

} // namespace

SheetKind oiling_sheet() {
    return {"oiling",
            {
                {"pump_end_clearance", Form::length, Place::engine, "in"},
                {"pump_drive_clearance", Form::length, Place::engine, "in"},
                {"pan_depth", Form::length, Place::engine, "in"},
                {"pan_gasket", Form::length, Place::engine, "in"},
                {"pickup_below_rail", Form::length, Place::engine, "in"},
                {"pickup_depth", Form::length, Place::engine, "in"},
                {"prime_pressure", Form::pressure, Place::engine, "psi"},
                {"oil_used", Form::words, Place::engine},
                {"oil_filter_used", Form::words, Place::engine},
            },
            work_out};
}

} // namespace rodway
