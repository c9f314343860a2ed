#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/part_masses.h"
#include "core/sheets/kinds/work_out.h"
#include "core/sheets/reading_interval.h"

namespace rodway {
namespace {

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    if (const auto spread = reading_spread(numbers_of(facts.readings, "connecting_rod_length"))) {
        outcome.figures.push_back({"connecting_rod_length_spread", "", *spread});
    }
    add_mass_figures(outcome, facts.readings, "rod_big_end_mass", "rod_big_end_mass_spread",
                     "rod_big_end_over_lightest");
    add_mass_figures(outcome, facts.readings, "rod_small_end_mass", "rod_small_end_mass_spread",
                     "rod_small_end_over_lightest");
    return outcome;
}

} // namespace

SheetKind connecting_rods_sheet() {
    constexpr Origin out = Origin::worked_out;
    return {"connecting_rods",
            {
                {"connecting_rod_length", Form::length, Place::cylinder, "in"},
                {"connecting_rod_length_spread", Form::length, Place::engine, "in", "", out},
                {"rod_big_end_mass", Form::mass, Place::cylinder, "g"},
                {"rod_big_end_over_lightest", Form::mass, Place::cylinder, "g", "", out},
                {"rod_big_end_mass_spread", Form::mass, Place::engine, "g", "", out},
                {"rod_small_end_mass", Form::mass, Place::cylinder, "g"},
                {"rod_small_end_over_lightest", Form::mass, Place::cylinder, "g", "", out},
                {"rod_small_end_mass_spread", Form::mass, Place::engine, "g", "", out},
                {"pin_fit", Form::length, Place::cylinder, "in"},
                {"pin_diameter", Form::length, Place::engine, "in"},
            },
            work_out};
}

} // namespace rodway
