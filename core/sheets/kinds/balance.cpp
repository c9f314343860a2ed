#include <array>

#include "core/bottom_end/bobweight.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

constexpr auto up_and_down = PartMotion::reciprocating;
constexpr auto round = PartMotion::rotating;

/// A part of the bobweight, and where its mass is read.
struct PartRead {
    const char* quantity;
    PartMotion motion;
    PartShare share;
};
constexpr std::array parts_read_of_throw{
    PartRead{"piston_mass", up_and_down, PartShare::each_rod},
    PartRead{"ring_set_mass", up_and_down, PartShare::each_rod},
    PartRead{"pin_mass", up_and_down, PartShare::each_rod},
    PartRead{"pin_lock_mass", up_and_down, PartShare::each_rod},
    PartRead{"rod_small_end_mass", up_and_down, PartShare::each_rod},
    PartRead{"rod_big_end_mass", round, PartShare::each_rod},
    PartRead{"rod_bearing_mass", round, PartShare::each_rod},
    PartRead{"oil_allowance_mass", round, PartShare::each_throw},
};

/// Of parts weighed one by one, from the lightest to the heaviest: which are on one throw, the
/// sheet doesn't know.
std::optional<Interval> mass_of(const TakenReadings& readings, const char* quantity) {
    const auto masses = numbers_of(readings, quantity);
    return masses.empty() ? std::nullopt
                          : std::optional(Interval{least_of(masses).low, greatest_of(masses).high});
}

/// As it was written; in a row of cylinders each has its own throw.
std::optional<double> rods_on_throw(const SheetFacts& facts) {
    if (const auto read = facts.readings.number("rods_on_throw")) {
        return read->middle();
    }
    return facts.engine != nullptr && facts.engine->layout.arrangement == Arrangement::inline_row
               ? std::optional(1.0)
               : std::nullopt;
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    std::vector<BobweightPart> parts;
    std::vector<std::string> missing;
    for (const PartRead& part : parts_read_of_throw) {
        if (const auto mass = mass_of(facts.readings, part.quantity)) {
            parts.push_back({part.quantity, *mass, part.motion, part.share});
        } else {
            missing.emplace_back(part.quantity);
        }
    }
    const auto rods = rods_on_throw(facts);
    if (!rods) {
        missing.emplace_back("rods_on_throw");
    }
    const auto factor = facts.readings.number("balance_factor");
    if (!factor) {
        missing.emplace_back("balance_factor");
    }
    // While a sheet is being filled in, everything is missing; the last thing is worth a word.
    if (missing.size() == 1) {
        outcome.findings.push_back(
            {PointedOut::needs_reading, "bobweight", {""}, {}, Dimension::none, missing.front()});
    }
    if (!missing.empty()) {
        return outcome;
    }
    if (const auto weight = bobweight(parts, static_cast<int>(*rods), factor->middle())) {
        outcome.figures.push_back({"bobweight", "", weight->bobweight_g});
    }
    return outcome;
}

} // namespace

SheetKind balance_sheet() {
    return {"balance",
            {
                {"balance_card", Form::words, Place::engine},
                {"ring_set_mass", Form::mass, Place::engine, "g"},
                {"pin_mass", Form::mass, Place::engine, "g"},
                {"pin_lock_mass", Form::mass, Place::engine, "g"},
                {"rod_bearing_mass", Form::mass, Place::engine, "g"},
                {"oil_allowance_mass", Form::mass, Place::engine, "g"},
                {"rods_on_throw", Form::count, Place::engine},
                {"balance_factor", Form::percent, Place::engine, "%"},
                {"bobweight", Form::mass, Place::engine, "g", "", Origin::worked_out},
            },
            work_out};
}

} // namespace rodway
