#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/deck_readings.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    std::vector<Interval> means;
    for (const std::string& cylinder :
         parts_read(facts.readings, {"deck_clearance"}, PlacePart::cylinder)) {
        const DeckReadings found = deck_readings(facts.readings, cylinder);
        if (found.mean) {
            outcome.figures.push_back({"deck_clearance_mean", cylinder, *found.mean});
            means.push_back(*found.mean);
        }
        if (found.rock) {
            outcome.figures.push_back({"deck_rock", cylinder, *found.rock});
        }
        // Read over the pin, a piston's height should be the mean of its sides.
        if (found.mean && found.by_sides && found.over_pin &&
            !overlap(*found.over_pin, *found.mean)) {
            outcome.findings.push_back(
                {PointedOut::methods_differ,
                 "deck_clearance",
                 {cylinder},
                 {found.over_pin->middle(), found.mean->low, found.mean->high},
                 Dimension::length});
        }
    }
    if (means.size() > 1) {
        outcome.figures.push_back({"deck_clearance_spread", "", spread_of(means)});
    }
    return outcome;
}

/// From .002 to .003 in between the cylinders is good.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    return {common_practice("deck_clearance_spread", std::nullopt, 0.003 * inch_mm)};
}

} // namespace

SheetKind deck_sheet() {
    return {
        "deck",
        {
            {"deck_clearance", Form::deck, Place::cylinder_side, "in"},
            {"deck_clearance_mean", Form::deck, Place::cylinder, "in", "", Origin::worked_out},
            {"deck_rock", Form::length, Place::cylinder, "in", "", Origin::worked_out},
            {"deck_clearance_spread", Form::length, Place::engine, "in", "", Origin::worked_out},
        },
        work_out,
        usual_limits};
}

} // namespace rodway
