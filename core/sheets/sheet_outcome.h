#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/sheets/engine_places.h"
#include "core/sheets/sheet_limit.h"
#include "core/sheets/taken_readings.h"
#include "core/units/measure_unit.h"

namespace rodway {

/// What a sheet may look at when it works something out.
struct SheetFacts {
    const TakenReadings& readings;
    const EnginePlaces* places = nullptr;    ///< nothing while the build has no set-up
    const Engine* engine = nullptr;          ///< the same
    std::span<const SheetLimit> limits = {}; ///< all that hold: usual ones before the shop's
};

/// A figure that follows from readings: a quantity that is worked out, at one position.
struct SheetFigure {
    std::string quantity;
    std::string position;
    Interval value; ///< in the unit in which its dimension is held
};

/// What a sheet points out. Behind each, what `positions` and `numbers` hold.
enum class PointedOut {
    /// A figure written down isn't what the readings make: written; low and high of what they make.
    stated_differs,
    /// A reading differs by a whole turn or step of the micrometer, as if misread: the reading;
    /// what
    /// its mates, or what goes with it, make it; the slip.
    misread_by_a_turn,
    /// Two ways of measuring the same don't agree: one; the other.
    methods_differ,
    /// A reading stands apart from the rest of its row: the reading; the row's middle.
    odd_one_out,
    /// The same thing in two units contradicts itself: first; second.
    columns_contradict,
    /// A factor is not that of the standard it is named for: written; what that standard gives.
    factor_not_of_standard,
    /// The weather lies outside what the standard allows a correction for: the factor.
    factor_outside_standard,
    /// Bolts that a pass has left out: in `positions`. In `other` the pass, "pass 2", or the
    /// quantity
    /// of what is done once more after the run.
    bolts_missed,
    /// Bolts done twice in one pass: the same.
    bolts_twice,
    /// A bolt's torque, angle or stretch is not the pass's: the bolt's; the pass's.
    torque_off_step,
    /// What is written down needs a reading that isn't there: its quantity in `other`.
    needs_reading,
    /// A stop rule of the first start has been broken: the reading; the limit.
    stop_rule,
    /// Words that should name a thread, steps or an order can't be read as that, or could mean two
    /// things: as written, in `other`.
    not_understood,
};

/// One thing pointed out: facts only, words are made elsewhere.
struct SheetFinding {
    PointedOut what = PointedOut::odd_one_out;
    std::string quantity;
    std::vector<std::string> positions;
    std::vector<double> numbers;           ///< as the finding says
    Dimension dimension = Dimension::none; ///< of the numbers
    std::string other = {};                ///< a second quantity, a standard, a pass
};

struct SheetOutcome {
    std::vector<SheetFigure> figures;
    std::vector<SheetFinding> findings;
};

} // namespace rodway
