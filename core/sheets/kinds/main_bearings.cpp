#include <cmath>

#include "core/sheets/kinds/bearing_pair.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    return bearing_outcome(
        facts.readings,
        {"main_diameter", "main_bearing_bore", {}, "main_clearance", PlacePart::journal, "J"},
        "main_clearance_method");
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
