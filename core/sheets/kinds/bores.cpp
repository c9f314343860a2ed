#include "core/bottom_end/bore_survey.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/read_diameters.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    for (const std::string& cylinder : parts_read(facts.readings, {"bore"}, PlacePart::cylinder)) {
        const ReadDiameters bore =
            diameters_at(facts.readings, "bore", PlacePart::cylinder, cylinder);
        if (bore.readings.empty()) {
            continue;
        }
        outcome.figures.push_back({"bore_size", cylinder, mean_diameter_mm(bore.readings)});
        if (const auto taper = bore.taper()) {
            outcome.figures.push_back({"bore_taper", cylinder, *taper});
        }
        if (const auto out_of_round = bore.out_of_round()) {
            outcome.figures.push_back({"bore_out_of_round", cylinder, *out_of_round});
        }
    }
    return outcome;
}

/// A road engine's bores: half a thousandth as new, one thousandth for a bore that is kept.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    constexpr double kept_mm = 0.001 * inch_mm;
    return {
        common_practice("bore_taper", std::nullopt, common_taper_mm),
        common_practice("bore_taper", std::nullopt, kept_mm, {}, LimitFor::serviceable),
        common_practice("bore_out_of_round", std::nullopt, common_out_of_round_mm),
        common_practice("bore_out_of_round", std::nullopt, kept_mm, {}, LimitFor::serviceable),
    };
}

} // namespace

SheetKind bores_sheet() {
    return {"bores",
            {
                {"bore", Form::length, Place::bore, "in"},
                {"bore_size", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"bore_taper", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"bore_out_of_round", Form::length, Place::cylinder, "in", "", Origin::worked_out},
                {"bore_finish", Form::words, Place::engine},
                {"torque_plate", Form::words, Place::engine},
                {"sonic_wall", Form::length, Place::cylinder_side, "in"},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
