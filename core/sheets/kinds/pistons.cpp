#include "core/bottom_end/piston_wall.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/part_masses.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Across the thrust sides, where the bore is narrowest; a reading whose direction nobody wrote
/// counts, one along the pin doesn't.
std::optional<Interval> bore_for_piston(const TakenReadings& readings, int cylinder) {
    std::vector<Interval> bores;
    for (const Taken& taken : readings.of("bore")) {
        const auto range = taken.range();
        if (range && taken.place.cylinder() == cylinder &&
            taken.place.part(PlacePart::bore_direction) != "pin") {
            bores.push_back(*range);
        }
    }
    return bores.empty() ? std::nullopt : std::optional(least_of(bores));
}

std::vector<PistonInBore> pistons_in_bores(const TakenReadings& readings) {
    std::vector<PistonInBore> pistons;
    const auto height = readings.number("piston_gauge_height");
    for (const Taken& taken : readings.of("piston_size")) {
        PistonInBore piston;
        piston.cylinder = taken.place.cylinder().value_or(0);
        piston.piston_mm = taken.range();
        if (height) {
            piston.gauge_height_mm = height->middle();
        }
        piston.bore_mm = bore_for_piston(readings, piston.cylinder);
        pistons.push_back(piston);
    }
    return pistons;
}

void add_wall_clearances(SheetOutcome& outcome, const TakenReadings& readings) {
    bool unsure = false;
    for (const PistonInBore& piston : pistons_in_bores(readings)) {
        // One by one, so that a size that can't be true takes no other with it.
        const auto walls = piston_walls({piston}, {});
        if (!walls || !walls->front().clearance_mm) {
            continue;
        }
        add_beside_reading(outcome, readings, "piston_wall_clearance",
                           std::to_string(piston.cylinder), *walls->front().clearance_mm);
        unsure = unsure || walls->front().gauge_height_unsure;
    }
    if (unsure) {
        outcome.findings.push_back({PointedOut::needs_reading,
                                    "piston_wall_clearance",
                                    {},
                                    {},
                                    Dimension::none,
                                    "piston_gauge_height"});
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    add_wall_clearances(outcome, facts.readings);
    add_mass_figures(outcome, facts.readings, "piston_mass", "piston_mass_spread",
                     "piston_over_lightest");
    return outcome;
}

} // namespace

SheetKind pistons_sheet() {
    return {"pistons",
            {
                {"piston_size", Form::length, Place::cylinder, "in"},
                {"piston_gauge_height", Form::length, Place::engine, "in"},
                {"piston_mass", Form::mass, Place::cylinder, "g"},
                {"piston_over_lightest", Form::mass, Place::cylinder, "g", "", Origin::worked_out},
                {"piston_mass_spread", Form::mass, Place::engine, "g", "", Origin::worked_out},
                {"piston_wall_clearance", Form::length, Place::cylinder, "in"},
                {"compression_height", Form::length, Place::engine, "in"},
                {"dome_volume", Form::dome, Place::cylinder, "cc"},
                {"valve_relief_depth", Form::length, Place::valve, "in"},
            },
            work_out};
}

} // namespace rodway
