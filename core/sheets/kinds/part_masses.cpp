#include "core/sheets/kinds/part_masses.h"

#include "core/bottom_end/rotating_balance.h"

namespace rodway {

void add_mass_figures(SheetOutcome& outcome, const TakenReadings& readings, std::string_view mass,
                      std::string_view spread, std::string_view over) {
    std::vector<WeighedPart> parts;
    for (const Taken& taken : readings.of(mass)) {
        const auto cylinder = taken.place.cylinder();
        const auto range = taken.range();
        if (cylinder && range) {
            parts.push_back({std::string(mass), *cylinder, *range});
        }
    }
    const auto spreads = spread_of_parts(parts);
    if (!spreads || !spreads->front().masses.true_spread) {
        return;
    }
    outcome.figures.push_back({std::string(spread), "", *spreads->front().masses.true_spread});
    for (const PartToMatch& part : spreads->front().parts) {
        outcome.figures.push_back(
            {std::string(over), std::to_string(part.cylinder), part.heavier_by_g});
    }
}

} // namespace rodway
