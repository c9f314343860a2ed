#include "core/bottom_end/end_play.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    if (const auto runouts = numbers_of(facts.readings, "crank_runout"); !runouts.empty()) {
        outcome.figures.push_back({"crank_runout_greatest", "", greatest_of(runouts)});
    }
    if (const auto spread = reading_spread(numbers_of(facts.readings, "stroke"))) {
        outcome.figures.push_back({"stroke_spread", "", *spread});
    }
    return outcome;
}

std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    const SizeBand end_play = common_crank_end_play();
    const SizeBand side = common_rod_side_clearance();
    return {common_practice("crank_end_play", end_play.low_mm, end_play.high_mm),
            common_practice("rod_side_clearance", side.low_mm, side.high_mm)};
}

} // namespace

SheetKind crank_sheet() {
    return {
        "crank",
        {
            {"crank_end_play", Form::length, Place::engine, "in"},
            {"rod_side_clearance", Form::length, Place::cylinder, "in"},
            {"crank_runout", Form::length, Place::main_journal, "in"},
            {"crank_runout_greatest", Form::length, Place::engine, "in", "", Origin::worked_out},
            {"stroke", Form::length, Place::cylinder, "in"},
            {"stroke_spread", Form::length, Place::engine, "in", "", Origin::worked_out},
            {"damper", Form::words, Place::engine},
        },
        work_out,
        usual_limits};
}

} // namespace rodway
