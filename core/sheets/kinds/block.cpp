#include "core/bottom_end/deck_height.h"
#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/micrometer_slips.h"
#include "core/sheets/kinds/read_diameters.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Readings at the end of a deck; of one side of it, or with no side written.
std::optional<Interval> deck_at(const TakenReadings& readings, const std::string& bank,
                                std::string_view end, std::optional<std::string> flank) {
    for (const Taken& taken : readings.of("deck_height")) {
        if (taken.place.part(PlacePart::bank).value_or("") == bank &&
            taken.place.part(PlacePart::end) == end &&
            taken.place.part(PlacePart::flank) == flank) {
            return taken.range();
        }
    }
    return std::nullopt;
}

std::vector<Interval> deck_heights(const TakenReadings& readings, const std::string& bank) {
    std::vector<Interval> heights;
    for (const Taken& taken : readings.of("deck_height")) {
        const auto range = taken.range();
        if (range && taken.place.part(PlacePart::bank).value_or("") == bank) {
            heights.push_back(*range);
        }
    }
    return heights;
}

void add_deck(SheetOutcome& outcome, const TakenReadings& readings, const std::string& bank) {
    if (const auto spread = reading_spread(deck_heights(readings, bank))) {
        outcome.figures.push_back({"deck_height_spread", bank, *spread});
    }
    const auto lie = deck_lie(
        {deck_at(readings, bank, "front", "inner"), deck_at(readings, bank, "front", "outer"),
         deck_at(readings, bank, "rear", "inner"), deck_at(readings, bank, "rear", "outer")});
    if (lie && lie->rear_higher_mm) {
        outcome.figures.push_back({"deck_rear_higher", bank, *lie->rear_higher_mm});
        outcome.figures.push_back({"deck_outer_higher", bank, *lie->outboard_higher_mm});
        outcome.figures.push_back({"deck_twist", bank, *lie->twist_mm});
        return;
    }
    const auto front = deck_at(readings, bank, "front", std::nullopt);
    const auto rear = deck_at(readings, bank, "rear", std::nullopt);
    if (front && rear) {
        outcome.figures.push_back({"deck_rear_higher", bank, *rear - *front});
    }
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    std::vector<std::string> banks = parts_read(facts.readings, {"deck_height"}, PlacePart::bank);
    banks.emplace_back(); // an engine's only deck has no bank
    for (const std::string& bank : banks) {
        add_deck(outcome, facts.readings, bank);
    }
    for (const std::string& journal :
         parts_read(facts.readings, {"main_housing_bore"}, PlacePart::journal)) {
        const ReadDiameters housing =
            diameters_at(facts.readings, "main_housing_bore", PlacePart::journal, journal);
        if (const auto out_of_round = housing.out_of_round()) {
            outcome.figures.push_back({"main_housing_out_of_round", 'J' + journal, *out_of_round});
        }
    }
    outcome.findings = micrometer_slips(facts.readings,
                                        {{}, {}, "main_housing_bore", {}, PlacePart::journal, "J"});
    return outcome;
}

} // namespace

SheetKind block_sheet() {
    constexpr Origin out = Origin::worked_out;
    return {"block",
            {
                {"deck_flatness", Form::length, Place::bank, "in"},
                {"deck_height", Form::length, Place::spot, "in"},
                {"deck_height_spread", Form::length, Place::bank, "in", "", out},
                {"deck_rear_higher", Form::length, Place::bank, "in", "", out},
                {"deck_outer_higher", Form::length, Place::bank, "in", "", out},
                {"deck_twist", Form::length, Place::bank, "in", "", out},
                {"deck_removed", Form::length, Place::bank, "in"},
                {"main_housing_bore", Form::length, Place::main_journal, "in"},
                {"main_housing_out_of_round", Form::length, Place::main_journal, "in", "", out},
                {"align_hone", Form::words, Place::engine},
                {"cam_housing_bore", Form::length, Place::cam_journal, "in"},
                {"dowel_fit", Form::words, Place::spot},
                {"gallery_plug", Form::words, Place::plug},
                {"thread_repair", Form::words, Place::hole},
                {"head_bolt_hole_depth", Form::length, Place::hole, "in"},
                {"bank_angle", Form::angle, Place::engine, "deg"},
                {"cam_to_crank_distance", Form::length, Place::engine, "in"},
            },
            work_out};
}

} // namespace rodway
