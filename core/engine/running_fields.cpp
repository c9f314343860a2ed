#include "core/engine/running_fields.h"

#include "core/engine/valve_fields.h"

namespace rodway {
namespace {

constexpr double MPa_per_GPa = 1000.0;
constexpr double t_per_g = 1e-6;

/// The path of a leaf: the valve's own, else that of its kind.
std::string path_for(const FieldReader& fields, const std::string& section,
                     const ValvePosition& valve, const std::string& leaf) {
    const std::string own = section + position_name(valve) + leaf;
    const std::string kind = valve.kind == ValveKind::intake ? "intake" : "exhaust";
    return fields.has(own) ? own : section + kind + leaf;
}

RunningValve read_valve(FieldReader& fields, const ValvePosition& valve) {
    const auto path = [&](const std::string& section, const std::string& leaf) {
        return path_for(fields, "running/" + section + "/", valve, leaf);
    };
    const auto tonnes = [&](const std::string& leaf) {
        const auto grams = fields.amount_if_any(path("masses", leaf));
        return grams ? std::optional(t_per_g * *grams) : std::nullopt;
    };
    RunningValve stated;
    stated.wall_mm = fields.length_mm_if_any(path("rods", "/wall"));
    if (const auto modulus = fields.amount_if_any(path("rods", "/modulus"))) {
        stated.modulus_MPa = MPa_per_GPa * *modulus;
    }
    stated.runout_mm = fields.length_mm_if_any(path("rods", "/runout"));
    stated.valve_side_t = tonnes("/valve_side");
    stated.rocker_at_valve_t = tonnes("/rocker_at_valve");
    stated.rod_t = tonnes("/rod");
    return stated;
}

RunningStated read_stated(FieldReader& fields, const Engine& engine) {
    RunningStated stated;
    stated.crank_rpm = fields.amount_if_any("running/speed");
    for (const Train& train : engine.trains) {
        stated.valves.emplace(train.position, read_valve(fields, train.position));
    }
    return stated;
}

} // namespace

Result<RunningStated> read_running(const SetUpFields& set_up, const Engine& engine) {
    FieldReader fields(set_up);
    RunningStated stated = read_stated(fields, engine);
    if (fields.error()) {
        return *fields.error();
    }
    return stated;
}

void check_running(FieldReader& fields, const Engine& engine) {
    if (!check_valve_names(fields, engine, "running/rods", true) ||
        !check_valve_names(fields, engine, "running/masses", true)) {
        return;
    }
    for (const Train& train : engine.trains) {
        const RunningValve stated = read_valve(fields, train.position);
        if (stated.wall_mm && *stated.wall_mm > train.rod.diameter_mm / 2.0) {
            fields.refuse_length(path_for(fields, "running/rods/", train.position, "/wall"), 0.2,
                                 train.rod.diameter_mm / 2.0);
        }
    }
}

} // namespace rodway
