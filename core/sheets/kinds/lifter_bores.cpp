#include "core/bottom_end/size_table.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// The bore's diameters at its two ends and in its middle, upper end first.
std::vector<DiameterReading> bore_diameters(const TakenReadings& readings,
                                            const std::string& valve) {
    std::vector<DiameterReading> diameters;
    int along = 0;
    for (const char* quantity : {"lifter_bore_top", "lifter_bore_diameter", "lifter_bore_bottom"}) {
        if (const auto range = readings.number(quantity, valve)) {
            const DiameterReading reading{along, 0, *range};
            if (!wrong_diameter("bore", reading, 1)) {
                diameters.push_back(reading);
            }
        }
        ++along;
    }
    return diameters;
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    for (const std::string& valve : parts_read(
             facts.readings, {"lifter_bore_top", "lifter_bore_diameter", "lifter_bore_bottom"},
             PlacePart::valve)) {
        const auto bore = bore_diameters(facts.readings, valve);
        if (bore.empty()) {
            continue;
        }
        if (const auto taper = taper_of(bore)) {
            add_beside_reading(outcome, facts.readings, "lifter_bore_taper", valve, taper->size_mm);
        }
        const auto lifter = facts.readings.number("lifter_diameter", valve);
        if (!lifter) {
            continue;
        }
        std::vector<Interval> sizes;
        for (const DiameterReading& reading : bore) {
            sizes.push_back(reading.diameter_mm);
        }
        const Interval all{least_of(sizes).low, greatest_of(sizes).high};
        outcome.figures.push_back({"lifter_bore_clearance", valve, all - *lifter});
    }
    return outcome;
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("lifter_bore_clearance", 0.0010 * inch_mm, 0.0020 * inch_mm)};
}

} // namespace

SheetKind lifter_bores_sheet() {
    return {"lifter_bores",
            {
                {"lifter_bore_diameter", Form::length, Place::valve, "in"},
                {"lifter_bore_top", Form::length, Place::valve, "in"},
                {"lifter_bore_bottom", Form::length, Place::valve, "in"},
                {"lifter_bore_taper", Form::length, Place::valve, "in"},
                {"lifter_bore_clearance", Form::length, Place::valve, "in", "", Origin::worked_out},
                {"lifter_bore_offset", Form::length, Place::valve, "in"},
                {"lifter_bore_angle", Form::angle, Place::valve, "deg"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
