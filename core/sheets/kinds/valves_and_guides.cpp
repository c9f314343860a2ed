#include "core/heads/stem_clearance.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/kinds/worked_figures.h"

namespace rodway {
namespace {

void add_stem(WorkedFigures& figures, const TakenReadings& readings, const std::string& valve) {
    const auto bore_mm = readings.number("guide_bore", valve);
    const auto stem_mm = readings.number("valve_stem_diameter", valve);
    const auto unworn_mm = readings.number("valve_stem_unworn", valve);
    if (stem_mm && unworn_mm) {
        figures.add("valve_stem_wear", valve, *unworn_mm - *stem_mm);
    }
    if (!bore_mm || !stem_mm) {
        return;
    }
    // The largest bore and the smallest stem are what is written: depths don't matter.
    if (const auto clearance = stem_clearance({{{0.0, bore_mm, stem_mm}}, unworn_mm})) {
        figures.add_beside_reading("stem_clearance", valve, clearance->loosest_mm);
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    WorkedFigures figures(facts.readings);
    for (const std::string& valve :
         valves_read(facts.readings, {"guide_bore", "valve_stem_diameter"})) {
        add_stem(figures, facts.readings, valve);
    }
    return figures.outcome();
}

std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    std::vector<SheetLimit> limits;
    for (const std::string& valve :
         valves_read(facts.readings, {"guide_bore", "valve_stem_diameter", "stem_clearance"})) {
        const FigureBand usual = usual_stem_clearance_mm(valve_called(valve).kind);
        limits.push_back(common_practice("stem_clearance", usual.low, usual.high, valve));
    }
    return limits;
}

} // namespace

SheetKind valves_and_guides_sheet() {
    return {"valves_and_guides",
            {
                {"valve_head_diameter", Form::length, Place::valve, "in"},
                {"valve_stem_diameter", Form::length, Place::valve, "in"},
                {"valve_stem_unworn", Form::length, Place::valve, "in"},
                {"valve_stem_wear", Form::length, Place::valve, "in", "", Origin::worked_out},
                {"guide_bore", Form::length, Place::valve, "in"},
                {"stem_clearance", Form::length, Place::valve, "in"},
                {"valve_margin", Form::length, Place::valve, "in"},
                {"seat_width", Form::length, Place::valve, "in"},
                {"seat_angle", Form::angle, Place::valve, "deg"},
                {"valve_tip_height", Form::length, Place::valve, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
