#include "core/bottom_end/bearing_clearance.h"
#include "core/sheets/kinds/bearing_pair.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/read_diameters.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome =
        bearing_outcome(facts.readings,
                        {"rod_journal_diameter", "rod_bearing_bore", "rod_housing_bore",
                         "rod_bearing_clearance", PlacePart::cylinder},
                        "rod_bearing_clearance_method");
    for (const std::string& cylinder : parts_read(
             facts.readings, {"rod_journal_diameter", "rod_housing_bore"}, PlacePart::cylinder)) {
        const ReadDiameters pin =
            diameters_at(facts.readings, "rod_journal_diameter", PlacePart::cylinder, cylinder);
        if (const auto taper = pin.taper()) {
            outcome.figures.push_back({"rod_journal_taper", cylinder, *taper});
        }
        const ReadDiameters housing =
            diameters_at(facts.readings, "rod_housing_bore", PlacePart::cylinder, cylinder);
        if (const auto out_of_round = housing.out_of_round()) {
            outcome.figures.push_back({"rod_housing_out_of_round", cylinder, *out_of_round});
        }
    }
    return outcome;
}

std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    std::vector<SheetLimit> limits;
    for (const std::string& cylinder :
         parts_read(facts.readings, {"rod_journal_diameter"}, PlacePart::cylinder)) {
        if (const auto pin =
                spread_at(facts.readings, "rod_journal_diameter", PlacePart::cylinder, cylinder)) {
            const SizeBand usual = common_bearing_clearance(pin->middle());
            limits.push_back(
                common_practice("rod_bearing_clearance", usual.low_mm, usual.high_mm, cylinder));
        }
    }
    return limits;
}

} // namespace

SheetKind rod_bearings_sheet() {
    return {"rod_bearings",
            {
                {"rod_journal_diameter", Form::length, Place::rod_pin, "in"},
                {"rod_housing_bore", Form::length, Place::rod_pin, "in"},
                {"rod_bearing_bore", Form::length, Place::rod_pin, "in"},
                {"rod_bearing_clearance", Form::length, Place::cylinder, "in"},
                {"rod_bearing_clearance_method", Form::choice, Place::cylinder, "",
                 "bore_gauge plastic_strip"},
                {"rod_journal_taper", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"rod_housing_out_of_round", Form::length, Place::cylinder, "in", "",
                 Origin::worked_out},
                {"rod_bearing_code", Form::words, Place::cylinder},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
