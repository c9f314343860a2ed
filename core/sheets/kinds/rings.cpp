#include "core/bottom_end/ring_gap.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/read_diameters.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// As it was measured, else as the set-up has it.
std::optional<double> bore_mm(const SheetFacts& facts, const std::string& cylinder) {
    const ReadDiameters bore = diameters_at(facts.readings, "bore", PlacePart::cylinder, cylinder);
    if (!bore.readings.empty()) {
        return mean_diameter_mm(bore.readings).middle();
    }
    return facts.engine != nullptr && facts.engine->layout.bore_mm > 0.0
               ? std::optional(facts.engine->layout.bore_mm)
               : std::nullopt;
}

/// What is to come off a ring's ends to reach the least gap that rules there, ends of the doubt
/// included; 0 where the gap is there already.
SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    for (const Taken& taken : facts.readings.of("ring_gap")) {
        const std::string position = sheet_position_text(taken.place);
        const auto gap = taken.range();
        const SheetLimit* limit =
            ruling_limit(facts.limits, "ring_gap", position, LimitFor::new_parts);
        if (gap && limit != nullptr && limit->low) {
            outcome.figures.push_back(
                {"ring_to_file", position, not_below_zero(Interval::exactly(*limit->low) - *gap)});
        }
    }
    return outcome;
}

/// From the least of a road engine to the most of a boosted one: what the engine is for, the sheet
/// doesn't know.
std::vector<SheetLimit> usual_limits(const SheetFacts& facts) {
    std::vector<std::string> cylinders =
        parts_read(facts.readings, {"ring_gap", "bore"}, PlacePart::cylinder);
    if (facts.places != nullptr) {
        cylinders = usual_positions(Place::cylinder, *facts.places, EntryOrder::by_number);
    }
    std::vector<SheetLimit> limits;
    for (const std::string& cylinder : cylinders) {
        const auto bore = bore_mm(facts, cylinder);
        if (!bore) {
            continue;
        }
        for (const auto& [ring, name] :
             {std::pair{PistonRing::top, "top"}, std::pair{PistonRing::second, "second"}}) {
            limits.push_back(common_practice(
                "ring_gap", common_ring_gap(ring, RingUse::road).least_per_bore * *bore,
                common_ring_gap(ring, RingUse::boosted).most_per_bore * *bore,
                cylinder + ' ' + name));
        }
    }
    return limits;
}

} // namespace

SheetKind rings_sheet() {
    return {"rings",
            {
                {"ring_gap", Form::clearance, Place::ring, "in"},
                {"ring_to_file", Form::length, Place::ring, "in", "", Origin::worked_out},
                {"ring_side_clearance", Form::clearance, Place::ring, "in"},
                {"ring_orientation", Form::words, Place::engine},
            },
            work_out,
            usual_limits};
}

} // namespace rodway
