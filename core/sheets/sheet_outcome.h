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
    /// The same thing in two units contradicts itself: first; second; then that of the two which
    /// goes with the rest, if one does.
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
    /// A stop rule of the first start has been broken: the reading; the limit; none of them where
    /// the rule is answered by yes or no.
    stop_rule,
    /// Nothing can be worked out with a reading: the reading; the least and the greatest with which
    /// it can. Its quantity, of which the numbers are, is in `other`.
    out_of_range,
    /// Something is smaller than what it must clear: its size; the other's. The other's quantity is
    /// in `other`.
    too_small_beside,
    /// One slip of the keys put right would make a figure right that was written down, which proves
    /// nothing: as written; what may have been meant. The figure's quantity is in `other`.
    likely_slip,
    /// What is wanted can't be had with what there is: the nearest to it; its low and high end. In
    /// `other` the quantity that stands in its way, if one does.
    out_of_reach,
    /// The least of a row stands at its end, so that the true least may lie beyond: the reading.
    least_at_end,
    /// A test after the work shows less than the one before it: before; after.
    worse_than_before,
    /// Neighbours, in `positions`, are low together, which points to what lies between them.
    low_together,
    /// What is written can't be so; in `other` what stands there.
    cannot_be,
    /// What is written isn't what the set-up says; in `other` the set-up's.
    differs_from_set_up,
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
