#include "core/distributor/drive_height.h"
#include "core/distributor/gear_float.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// Washer under the gear, feeler under the housing.
void add_float(WorkedFigures& figures, const TakenReadings& readings) {
    const auto washer_mm = readings.number("distributor_washer");
    const auto gap_mm = readings.number("distributor_washer_gap");
    if (!washer_mm || !gap_mm) {
        return;
    }
    const auto found = gear_float({*washer_mm, not_below_zero(*gap_mm)}, usual_gear_float_mm());
    if (found) {
        figures.add_beside_reading("distributor_float", "", found->float_mm,
                                   PointedOut::methods_differ);
        figures.add("distributor_shim_to_add", "", found->to_target_mm);
    }
}

void add_height(WorkedFigures& figures, const TakenReadings& readings) {
    std::vector<DriveHeightItem> items;
    const auto count = [&](const char* quantity, DriveHeightCause cause) {
        if (const auto raised_mm = readings.number(quantity)) {
            items.push_back({cause, *raised_mm});
        }
    };
    count("distributor_raised_by_intake", DriveHeightCause::intake);
    count("distributor_raised_by_gasket", DriveHeightCause::distributor_gasket);
    count("distributor_raised_by_shim", DriveHeightCause::housing_shim);
    count("distributor_gear_raised", DriveHeightCause::gear_on_shaft);
    count("distributor_raised_by_block", DriveHeightCause::block_or_pump);
    const auto found = drive_height(items, readings.number("pump_drive_room_before"));
    if (found) {
        figures.add("distributor_raised", "", found->raised_mm);
        figures.add("distributor_height_shim", "", found->housing_shim_mm);
        figures.add("pump_drive_room", "", found->pump_room_mm);
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    add_float(figures, facts.readings);
    add_height(figures, facts.readings);
    return figures.outcome();
}

/// The shaft must not stand on the pump's drive.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const FigureBand usual = usual_gear_float_mm();
    return {common_practice("distributor_float", usual.low, usual.high),
            common_practice("pump_drive_room", 0.0, {})};
}

} // namespace

SheetKind distributor_sheet() {
    const Origin follows = Origin::worked_out;
    return {"distributor",
            {
                {"distributor_washer", Form::length, Place::engine, "in"},
                {"distributor_washer_gap", Form::length, Place::engine, "in"},
                {"distributor_float", Form::length, Place::engine, "in"},
                {"distributor_shim_to_add", Form::length, Place::engine, "in", "", follows},
                {"distributor_gear_clearance", Form::length, Place::engine, "in"},
                {"distributor_shim", Form::length, Place::engine, "in"},
                {"distributor_raised_by_intake", Form::length, Place::engine, "in"},
                {"distributor_raised_by_gasket", Form::length, Place::engine, "in"},
                {"distributor_raised_by_shim", Form::length, Place::engine, "in"},
                {"distributor_gear_raised", Form::length, Place::engine, "in"},
                {"distributor_raised_by_block", Form::length, Place::engine, "in"},
                {"distributor_raised", Form::length, Place::engine, "in", "", follows},
                {"distributor_height_shim", Form::length, Place::engine, "in", "", follows},
                {"pump_drive_room_before", Form::length, Place::engine, "in"},
                {"pump_drive_room", Form::length, Place::engine, "in", "", follows},
                {"distributor_phase", Form::words, Place::engine},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
