#include "core/piston/piston_to_valve.h"

#include "core/piston/least_of_row.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

/// A valve's drops, each from where the cam holds it: what is left there.
std::vector<ClearanceAtAngle> drops_of(const TakenReadings& readings, const std::string& valve,
                                       std::vector<std::string>& positions) {
    std::vector<ClearanceAtAngle> drops;
    for (const Taken& taken : readings.of("valve_drop")) {
        const auto drop_mm = taken.range();
        const auto angle = taken.place.angle();
        if (drop_mm && angle && taken.place.part(PlacePart::valve) == valve) {
            drops.push_back({*angle, not_below_zero(*drop_mm)});
            positions.push_back(sheet_position_text(taken.place));
        }
    }
    return drops;
}

void add_least(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    std::vector<std::string> positions;
    const auto drops = drops_of(readings, valve, positions);
    const auto found = least_of_row(drops);
    if (!found) {
        return;
    }
    if (found->at_end) {
        figures.point_out(PointedOut::least_at_end, "valve_drop", {positions[found->lowest]},
                          {drops[found->lowest].clearance_mm.middle()});
        return;
    }
    const bool clay = readings.word("piston_to_valve_method") == std::optional<std::string>("clay");
    figures.add_beside_reading("piston_to_valve_clearance", valve, found->least_mm,
                               clay ? PointedOut::methods_differ : PointedOut::stated_differs);
    figures.add("piston_to_valve_angle", valve, Interval::exactly(found->after_overlap->in_deg()));
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve : valves_read(facts.readings, {"valve_drop"})) {
        add_least(figures, facts.readings, valve);
    }
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    const PistonToValveLimits usual;
    const bool aluminium =
        facts.readings.word("connecting_rod_metal") == std::optional<std::string>("aluminium");
    std::vector<SheetLimit> limits{common_practice("piston_to_valve_side", usual.radial_mm, {})};
    std::vector<std::string> valves =
        valves_read(facts.readings, {"valve_drop", "piston_to_valve_clearance"});
    if (facts.places != nullptr) {
        for (const ValvePosition& valve : facts.places->valves) {
            valves.push_back(position_name(valve));
        }
    }
    for (const std::string& valve : valves) {
        limits.push_back(common_practice("piston_to_valve_clearance",
                                         usual.along_valve_mm(valve_called(valve).kind, aluminium),
                                         {}, valve));
    }
    return limits;
}

} // namespace

SheetKind piston_to_valve_sheet() {
    return {"piston_to_valve",
            {
                {"valve_drop", Form::length, Place::valve_angle, "in"},
                {"piston_to_valve_clearance", Form::clearance, Place::valve, "in"},
                {"piston_to_valve_angle", Form::crank_angle, Place::valve, "deg"},
                {"piston_to_valve_side", Form::clearance, Place::valve, "in"},
                {"piston_to_valve_cam_position", Form::crank_angle, Place::engine, "deg"},
                {"piston_to_valve_gasket", Form::length, Place::engine, "in"},
                {"connecting_rod_metal", Form::choice, Place::engine, "", "steel aluminium"},
                {"piston_to_valve_method", Form::choice, Place::engine, "", "clay dial"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
