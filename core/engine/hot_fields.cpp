#include "core/engine/hot_fields.h"

#include <algorithm>

#include "core/engine/valve_fields.h"

namespace rodway {
namespace {

constexpr double per_million = 1e-6;
constexpr const char* gasket_thickness = "hot/parts/head_gasket/thickness";

PartWarmth read_part(FieldReader& fields, HotPart part) {
    static constexpr std::array metals{Metal::carbon_steel,        Metal::alloy_steel,
                                       Metal::grey_iron,           Metal::ductile_iron,
                                       Metal::strong_ductile_iron, Metal::cast_aluminium,
                                       Metal::wrought_aluminium,   Metal::titanium_alloy};
    const std::string path = std::string("hot/parts/") + hot_part_name(part);
    PartWarmth stated;
    if (fields.has(path + "/metal")) {
        stated.metal = metals[fields.choice(path + "/metal")];
    }
    if (const auto millionths = fields.amount_if_any(path + "/expansion")) {
        stated.expansion_per_K = per_million * *millionths;
    }
    stated.temperature_degC = fields.amount_if_any(path + "/temperature");
    return stated;
}

std::optional<double> seat_to_tip_mm(FieldReader& fields, const ValvePosition& valve) {
    const std::string own = "hot/valves/" + position_name(valve) + "/seat_to_tip";
    const std::string kind = valve.kind == ValveKind::intake ? "intake" : "exhaust";
    return fields.length_mm_if_any(fields.has(own) ? own : "hot/valves/" + kind + "/seat_to_tip");
}

} // namespace

Result<HotStated> read_hot(const SetUpFields& set_up, const Engine& engine) {
    FieldReader fields(set_up);
    HotStated stated;
    stated.cold_degC = fields.amount_if_any("hot/cold_temperature").value_or(stated.cold_degC);
    for (const HotPart part : hot_parts()) {
        stated.parts[static_cast<std::size_t>(part)] = read_part(fields, part);
    }
    stated.head_gasket_mm = fields.length_mm_if_any(gasket_thickness);
    for (const Bank& bank : engine.layout.banks) {
        const std::string path = "hot/banks/" + bank.name;
        // Of an engine that is described it was measured already.
        const std::string measured = "described/" + bank.name + "/deck_height/size";
        const std::string deck = path + "/deck_height";
        stated.deck_height_mm.push_back(
            fields.length_mm_if_any(fields.has(deck) ? deck : measured));
        stated.intake_face_mm.push_back(fields.length_mm_if_any(path + "/intake_face"));
    }
    for (const Train& train : engine.trains) {
        stated.seat_to_tip_mm.emplace(train.position, seat_to_tip_mm(fields, train.position));
    }
    if (fields.error()) {
        return *fields.error();
    }
    return stated;
}

void check_hot(FieldReader& fields, const Engine& engine) {
    std::string names;
    for (const HotPart part : hot_parts()) {
        names += (names.empty() ? "" : " ") + std::string(hot_part_name(part));
    }
    for (const std::string& name : fields.names_under("hot/parts")) {
        const std::string path = "hot/parts/" + name;
        if (std::none_of(hot_parts().begin(), hot_parts().end(),
                         [&](HotPart part) { return hot_part_name(part) == name; })) {
            fields.refuse(bad_field(ErrorCode::not_a_choice, path, name, names));
            return;
        }
    }
    for (const std::string& name : fields.names_under("hot/banks")) {
        const auto& banks = engine.layout.banks;
        if (std::none_of(banks.begin(), banks.end(),
                         [&](const Bank& bank) { return bank.name == name; })) {
            fields.refuse(bad_field(ErrorCode::not_a_choice, "hot/banks/" + name, name));
            return;
        }
    }
    check_valve_names(fields, engine, "hot/valves", true);
}

} // namespace rodway
