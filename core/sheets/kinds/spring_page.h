#pragma once

#include "core/sheets/kinds/worked_figures.h"

namespace rodway {

/// A spring's figures as a page prints them in two columns: the rate that each column makes, and
/// rows in which the two contradict each other by more than rounding. What was measured of the
/// valves' lift says which of them goes with the rest.
void judge_page(WorkedFigures& figures, const SheetFacts& facts);

} // namespace rodway
