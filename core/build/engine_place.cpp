#include "core/build/engine_place.h"

#include "core/build/word_list.h"
#include "core/engine/set_up_fields.h"
#include "core/sheets/position.h"

namespace rodway {
namespace {

EnginePlace at_valve(const ValvePosition& valve) {
    return {valve, valve.cylinder, std::nullopt, std::nullopt};
}

std::optional<EnginePlace> place_named(const std::string& word) {
    for (const Place place : {Place::valve, Place::cylinder, Place::bank}) {
        const auto position = parse_sheet_position(word, place);
        if (position && !position->parts.empty()) {
            return place_of_position(word, place);
        }
    }
    return std::nullopt;
}

std::optional<std::string> bank_of(const EnginePlace& place, const BanksOfCylinders& banks) {
    if (place.bank || !place.cylinder) {
        return place.bank;
    }
    const auto found = banks.find(*place.cylinder);
    return found == banks.end() ? std::nullopt : std::optional(found->second);
}

} // namespace

BanksOfCylinders banks_of_cylinders(const SetUpFields& fields) {
    BanksOfCylinders banks;
    for (const auto& [path, value] : fields) {
        if (path_is_of(path, "cylinders/*/bank")) {
            const auto place = place_of_path(path);
            if (place.cylinder) {
                banks[*place.cylinder] = value.text;
            }
        }
    }
    return banks;
}

EnginePlace place_of_position(std::string_view position, Place place) {
    const auto parsed = parse_sheet_position(position, place);
    if (!parsed) {
        return {};
    }
    EnginePlace found;
    found.valve = parsed->valve();
    found.cylinder = parsed->cylinder();
    found.bank = parsed->part(PlacePart::bank);
    if (const auto joint = parsed->part(PlacePart::joint)) {
        found.joint = without_blanks(joint->substr(0, joint->find_first_of("0123456789")));
    }
    return found;
}

std::vector<EnginePlace> places_of_part(std::string_view position) {
    std::vector<EnginePlace> places;
    for (const std::string& word : split_list(position, ',')) {
        auto place = place_named(word);
        if (!place) {
            return {};
        }
        places.push_back(std::move(*place));
    }
    return places;
}

EnginePlace place_of_path(std::string_view path) {
    const std::vector<std::string> parts = path_parts(path);
    if (parts.size() < 2) {
        return {};
    }
    const std::string& name = parts[1];
    const bool of_bank = parts[0] == "banks" || (parts[0] == "described" && name != "intake" &&
                                                 name != "exhaust" && !parse_position(name));
    if (of_bank) {
        return {std::nullopt, std::nullopt, name, std::nullopt};
    }
    if (parts[0] == "cylinders") {
        return place_of_position(name, Place::cylinder);
    }
    const auto valve = parts[0] == "trains" || parts[0] == "lobes" || parts[0] == "described"
                           ? parse_position(name)
                           : Result<ValvePosition>(Error{});
    return valve ? at_valve(*valve) : EnginePlace{};
}

bool reaches(const EnginePlace& change, const EnginePlace& check, DependenceReach reach,
             const BanksOfCylinders& banks) {
    if (reach == DependenceReach::engine) {
        return true;
    }
    if (reach == DependenceReach::valve && change.valve && check.valve) {
        return change.valve == check.valve;
    }
    if (reach != DependenceReach::bank && change.cylinder && check.cylinder) {
        return change.cylinder == check.cylinder;
    }
    const auto of_change = bank_of(change, banks);
    const auto of_check = bank_of(check, banks);
    return !of_change || !of_check || of_change == of_check;
}

} // namespace rodway
