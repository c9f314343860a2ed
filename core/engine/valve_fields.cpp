#include "core/engine/valve_fields.h"

#include <algorithm>

#include "core/piston/piston_to_valve.h"

namespace rodway {
namespace {

/// Chrome-silicon wire, by far the commonest in valve springs: Shigley's Mechanical Engineering
/// Design, table 10-5 (from memory); density of steel.
constexpr double shear_modulus_MPa = 77200.0;
constexpr double density_t_per_mm3 = 7.85e-9;

/// Takes a leaf from a valve's own fields, or from those of its kind.
class OwnOrShared {
  public:
    OwnOrShared(const FieldReader& fields, std::string own, std::string shared)
        : fields_(fields), own_(std::move(own)), shared_(std::move(shared)) {}
    [[nodiscard]] std::string path(const std::string& leaf) const {
        return fields_.has(own_ + leaf) ? own_ + leaf : shared_ + leaf;
    }
    [[nodiscard]] bool has(const std::string& leaf) const { return fields_.has(path(leaf)); }

  private:
    const FieldReader& fields_;
    std::string own_;
    std::string shared_;
};

ValveSpring read_spring(FieldReader& fields, const OwnOrShared& from) {
    ValveSpring spring;
    spring.installed_height_mm = fields.length_mm(from.path("/installed_height"));
    for (const auto& [height, load] : fields.pairs(from.path("/loads"))) {
        spring.loads.push_back({height, load});
    }
    spring.bind_height_mm = fields.length_mm_if_any(from.path("/bind_height"));
    spring.retainer_to_seal_mm = fields.length_mm_if_any(from.path("/retainer_to_seal"));
    if (from.has("/wire/diameter")) {
        SpringWire wire;
        wire.wire_mm = fields.length_mm(from.path("/wire/diameter"));
        wire.mean_diameter_mm = fields.length_mm(from.path("/wire/mean_diameter"));
        wire.active_coils = fields.amount(from.path("/wire/active_coils"));
        wire.total_coils = fields.amount(from.path("/wire/total_coils"));
        wire.shear_modulus_MPa = shear_modulus_MPa;
        wire.density_t_per_mm3 = density_t_per_mm3;
        spring.wire = wire;
    }
    return spring;
}

} // namespace

bool check_valve_names(FieldReader& fields, const Engine& engine, const std::string& section,
                       bool kinds_too) {
    for (const std::string& name : fields.names_under(section)) {
        if (kinds_too && (name == "intake" || name == "exhaust")) {
            continue;
        }
        const std::string path = section + "/" + name;
        const auto valve = parse_position(name);
        if (!valve || position_name(*valve) != name) {
            fields.refuse(bad_field(ErrorCode::not_a_position, path, name, "3I"));
            return false;
        }
        if (!engine.train(*valve)) {
            fields.refuse(bad_field(ErrorCode::valve_unknown, path, name));
            return false;
        }
    }
    return true;
}

void read_springs(FieldReader& fields, Engine& engine) {
    if (!check_valve_names(fields, engine, "springs", true)) {
        return;
    }
    for (const Train& train : engine.trains) {
        const ValvePosition& valve = train.position;
        const std::string own = "springs/" + position_name(valve);
        const std::string shared =
            valve.kind == ValveKind::intake ? "springs/intake" : "springs/exhaust";
        if (!fields.has_any_under(own) && !fields.has_any_under(shared)) {
            continue;
        }
        const OwnOrShared from(fields, own, shared);
        const ValveSpring spring = read_spring(fields, from);
        if (fields.error()) {
            return;
        }
        if (const auto checked = check_spring(spring); !checked) {
            Error error = checked.error();
            error.field = from.path("/" + error.field);
            fields.refuse(error);
            return;
        }
        engine.springs.emplace(valve, spring);
    }
}

void read_valve_drops(FieldReader& fields, Engine& engine) {
    if (!check_valve_names(fields, engine, "piston_to_valve", false)) {
        return;
    }
    for (const std::string& name : fields.names_under("piston_to_valve")) {
        const std::string path = "piston_to_valve/" + name;
        ValveDrops measured;
        for (const auto& [angle, drop] : fields.pairs(path + "/drops")) {
            measured.drops.push_back({CrankAngle::deg(angle), drop});
        }
        measured.radial_gap_mm = fields.length_mm_if_any(path + "/radial_gap");
        if (fields.error()) {
            return;
        }
        if (const auto checked = check_valve_drops(measured); !checked) {
            Error error = checked.error();
            error.field = path + "/drops";
            fields.refuse(error);
            return;
        }
        engine.valve_drops.emplace(*parse_position(name), measured);
    }
}

} // namespace rodway
