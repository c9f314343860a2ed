#include "core/cam/callipered_lift.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"
#include "core/sheets/row_statistics.h"

namespace rodway {
namespace {

/// Nose less heel; where the callipers stood on flanks that had risen already, they took off so
/// much too much.
void add_lift(WorkedFigures& figures, const TakenReadings& readings, const std::string& lobe) {
    const auto nose_mm = readings.number("lobe_nose", lobe);
    const auto heel_mm = readings.number("base_circle", lobe);
    if (!nose_mm || !heel_mm) {
        return;
    }
    // A heel's diameter is by its meaning read where no flank has begun to rise.
    const Interval risen_mm =
        readings.number("flank_rise_at_sides", lobe).value_or(Interval::exactly(0.0));
    const auto lift_mm = callipered_lift_mm(
        {*nose_mm, *heel_mm, not_below_zero(risen_mm), not_below_zero(risen_mm)});
    if (lift_mm) {
        figures.add_beside_reading("lobe_lift", lobe, *lift_mm, PointedOut::methods_differ);
    }
}

/// Lobes of one kind are ground alike: one that stands apart is worn, or misread.
void point_out_odd_lobes(WorkedFigures& figures, const TakenReadings& readings, ValveKind kind) {
    std::vector<RowReading> row;
    for (const Taken& taken : readings.of("lobe_lift")) {
        const auto lift_mm = taken.range();
        if (lift_mm && taken.place.valve()->kind == kind) {
            row.push_back({sheet_position_text(taken.place), *lift_mm});
        }
    }
    const auto statistics = row_statistics(row);
    if (!statistics) {
        return;
    }
    for (const OddReading& odd : statistics->odd) {
        figures.point_out(PointedOut::odd_one_out, "lobe_lift", {row[odd.index].position},
                          {row[odd.index].value.middle(), statistics->median});
    }
}

void add_bearings(WorkedFigures& figures, const TakenReadings& readings) {
    for (const std::string& journal :
         parts_read(readings, {"cam_bearing_bore"}, PlacePart::journal)) {
        const auto bore_mm = spread_at(readings, "cam_bearing_bore", PlacePart::journal, journal);
        const auto shaft_mm =
            spread_at(readings, "cam_journal_diameter", PlacePart::journal, journal);
        if (bore_mm && shaft_mm) {
            figures.add_beside_reading("cam_bearing_clearance", 'J' + journal,
                                       *bore_mm - *shaft_mm);
        }
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& lobe : valves_read(facts.readings, {"lobe_nose"})) {
        add_lift(figures, facts.readings, lobe);
    }
    point_out_odd_lobes(figures, facts.readings, ValveKind::intake);
    point_out_odd_lobes(figures, facts.readings, ValveKind::exhaust);
    add_bearings(figures, facts.readings);
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("cam_end_play", 0.004 * inch_mm, 0.010 * inch_mm)};
}

} // namespace

SheetKind cam_sheet() {
    return {"cam",
            {
                {"base_circle", Form::length, Place::lobe, "in"},
                {"lobe_nose", Form::length, Place::lobe, "in"},
                {"flank_rise_at_sides", Form::length, Place::lobe, "in"},
                {"lobe_lift", Form::length, Place::lobe, "in"},
                {"cam_journal_diameter", Form::length, Place::cam_journal, "in"},
                {"cam_runout", Form::length, Place::cam_journal, "in"},
                {"cam_bearing_bore", Form::length, Place::cam_journal, "in"},
                {"cam_bearing_clearance", Form::length, Place::cam_journal, "in"},
                {"cam_end_play", Form::length, Place::engine, "in"},
                {"cam_button_clearance", Form::length, Place::engine, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
