#pragma once

#include <string>
#include <string_view>

#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// Of parts that are weighed one for each cylinder: adds how much the heaviest weighs more than the
/// lightest, `spread`, and at every cylinder how much its part weighs more than the lightest,
/// `over`, as `spread_of_parts` has both.
void add_mass_figures(SheetOutcome& outcome, const TakenReadings& readings, std::string_view mass,
                      std::string_view spread, std::string_view over);

} // namespace rodway
