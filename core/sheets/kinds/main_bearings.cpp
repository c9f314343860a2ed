#include <cmath>

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// What the gauge makes of a journal: bore less journal, over all directions read.
std::optional<Interval> gauged(const TakenReadings& readings, const std::string& journal) {
    const auto bore = spread_at(readings, "main_bearing_bore", PlacePart::journal, journal);
    const auto shaft = spread_at(readings, "main_diameter", PlacePart::journal, journal);
    if (!bore || !shaft) {
        return std::nullopt;
    }
    return *bore - *shaft;
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    for (const std::string& journal :
         parts_read(facts.readings, {"main_diameter", "main_bearing_bore"}, PlacePart::journal)) {
        const auto clearance = gauged(facts.readings, journal);
        if (!clearance) {
            continue;
        }
        const std::string position = 'J' + journal;
        outcome.figures.push_back({"main_clearance", position, *clearance});
        const auto written = facts.readings.number("main_clearance", position);
        if (written && !overlap(*written, *clearance)) {
            // A plastic strip that differs is a second opinion, not a slip of the pen: both stay.
            const bool strip = facts.readings.word("main_clearance_method", position) ==
                               std::optional<std::string>("plastic_strip");
            outcome.findings.push_back(
                {strip ? PointedOut::methods_differ : PointedOut::stated_differs,
                 "main_clearance",
                 {position},
                 {written->middle(), clearance->low, clearance->high},
                 Dimension::length});
        }
    }
    return outcome;
}

/// .001 in of clearance for an inch of journal, give or take half a thousandth.
std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    std::vector<SheetLimit> limits;
    for (const std::string& journal :
         parts_read(facts.readings, {"main_diameter"}, PlacePart::journal)) {
        if (const auto shaft =
                spread_at(facts.readings, "main_diameter", PlacePart::journal, journal)) {
            const double usual_in = std::round(10.0 * shaft->middle() / inch_mm) / 10000.0;
            limits.push_back(common_practice("main_clearance", (usual_in - 0.0005) * inch_mm,
                                             (usual_in + 0.0005) * inch_mm, 'J' + journal));
        }
    }
    return limits;
}

} // namespace

SheetKind main_bearings_sheet() {
    return {"main_bearings",
            {
                {"main_diameter", Form::length, Place::main_journal, "in"},
                {"main_bearing_bore", Form::length, Place::main_journal, "in"},
                {"main_clearance", Form::length, Place::main_journal, "in"},
                {"main_clearance_method", Form::choice, Place::main_journal, "",
                 "bore_gauge plastic_strip"},
                {"main_bearing_code", Form::words, Place::main_journal},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
