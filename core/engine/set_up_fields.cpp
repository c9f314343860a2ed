#include "core/engine/set_up_fields.h"

#include <algorithm>

namespace rodway {
namespace {

constexpr double anywhere = 2000.0;

constexpr std::string_view metals =
    "carbon_steel alloy_steel grey_iron ductile_iron "
    "strong_ductile_iron cast_aluminium wrought_aluminium "
    "titanium_alloy";

/// Where a stated doubt comes from.
constexpr std::string_view sources = "assumed measured from_the_box common_practice";

using K = FieldKind;

const std::vector<FieldSpec> specs = {
    {"engine/name", K::words},
    {"engine/arrangement", K::choice, 0, 0, true, "vee inline flat"},
    {"engine/turns", K::choice, 0, 0, true, "clockwise counter_clockwise"},
    {"engine/firing_order", K::words},
    {"engine/bore", K::length, 40, 200},
    {"engine/stroke", K::length, 30, 250},
    {"engine/connecting_rod", K::length, 60, 500, false},
    {"engine/intake_casting", K::choice, 0, 0, false, "one_for_all one_for_each_bank"},
    {"camshaft/beside_crank", K::length, -500, 500},
    {"camshaft/above_crank", K::length, -500, 500},
    {"banks/*/lean", K::angle, -90, 90},
    {"banks/*/deck_milled", K::length, 0, 5, false},
    {"banks/*/head/gasket", K::length, 0, 10, false},
    {"banks/*/head/gasket_new", K::length, 0, 10, false},
    {"banks/*/head/gasket_crushed", K::length, 0, 10, false},
    {"banks/*/head/gasket_state", K::choice, 0, 0, false, "new crushed"},
    {"banks/*/head/gasket_when_located", K::length, 0, 10, false},
    {"banks/*/head/deck_face_milled", K::length, 0, 5, false},
    {"banks/*/flange/normal/x", K::direction, -1, 1, false},
    {"banks/*/flange/normal/y", K::direction, -1, 1, false},
    {"banks/*/flange/normal/z", K::direction, -1, 1, false},
    {"banks/*/flange/gasket", K::length, 0, 25, false},
    {"banks/*/flange/gasket_new", K::length, 0, 25, false},
    {"banks/*/flange/gasket_crushed", K::length, 0, 25, false},
    {"banks/*/flange/gasket_state", K::choice, 0, 0, false, "new crushed"},
    {"banks/*/flange/gasket_when_located", K::length, 0, 25, false},
    {"banks/*/flange/spacer", K::length, 0, 50, false},
    {"banks/*/flange/spacer_when_located", K::length, 0, 50, false},
    {"banks/*/flange/head_face_milled", K::length, 0, 10, false},
    {"banks/*/flange/manifold_face_milled", K::length, 0, 10, false},
    {"cylinders/*/bank", K::words},
    {"cylinders/*/centre_x", K::length, 0, anywhere},
    // What a builder measures: `core/describe` knows the dimensions and their own limits.
    {"described/*/cylinders", K::words, 0, 0, false},
    {"described/*/valves", K::words, 0, 0, false},
    {"described/*/mount", K::choice, 0, 0, false, "shaft stud ball_pivot"},
    {"described/*/guided_by", K::choice, 0, 0, false, "guide_plate tip_rails"},
    {"described/*/top_end", K::choice, 0, 0, false, "ball cup"},
    {"described/*/tube_shape", K::choice, 0, 0, false, "round obround"},
    {"described/*/tube_long", K::choice, 0, 0, false, "along_crank across_crank"},
    {"described/*/lifter", K::choice, 0, 0, false, "solid hydraulic"},
    {"described/*/follower", K::choice, 0, 0, false, "flat roller"},
    {"described/*/tube_casting", K::choice, 0, 0, false, "intake head"},
    {"described/*/*/size", K::length, -anywhere, anywhere, false},
    {"described/*/*/angle", K::angle, -90, 90, false},
    {"described/*/*/doubt", K::length, 0, 100, false},
    {"described/*/*/angle_doubt", K::angle, 0, 45, false},
    {"described/*/*/source", K::choice, 0, 0, false, sources},
    {"lobes/*/base_circle_radius", K::length, 5, 60},
    {"lobes/*/lash", K::length, 0, 3},
    {"lobes/*/centreline", K::crank_angle, 60, 160},
    {"lobes/*/lift_table", K::lift_table, 0, 0, false},
    {"lobes/*/card/peak_lift", K::length, 1, 20, false},
    {"lobes/*/card/durations", K::durations, 0, 0, false},
    {"springs/*/installed_height", K::length, 10, 120, false},
    {"springs/*/loads", K::spring_loads, 0, 0, false},
    {"springs/*/bind_height", K::length, 5, 100, false},
    {"springs/*/retainer_to_seal", K::length, 0, 60, false},
    {"springs/*/wire/diameter", K::length, 0.5, 20, false},
    {"springs/*/wire/mean_diameter", K::length, 5, 100, false},
    {"springs/*/wire/active_coils", K::number, 1, 30, false},
    {"springs/*/wire/total_coils", K::number, 1, 35, false},
    {"piston_to_valve/*/drops", K::valve_drops, 0, 0, false},
    {"piston_to_valve/*/radial_gap", K::length, 0, 20, false},
    {"running/speed", K::speed, 100, 20000, false},
    {"running/rods/*/wall", K::length, 0.2, 12.5, false},
    {"running/rods/*/runout", K::length, 0, 5, false},
    {"running/rods/*/modulus", K::modulus, 10, 450, false},
    {"running/masses/*/valve_side", K::mass, 1, 5000, false},
    {"running/masses/*/rocker_at_valve", K::mass, 0, 5000, false},
    {"running/masses/*/rod", K::mass, 1, 5000, false},
    {"hot/cold_temperature", K::temperature, -40, 60, false},
    {"hot/parts/*/metal", K::choice, 0, 0, false, metals},
    {"hot/parts/*/expansion", K::expansion, 0, 60, false},
    {"hot/parts/*/temperature", K::temperature, -40, 500, false},
    {"hot/parts/head_gasket/thickness", K::length, 0, 10, false},
    {"hot/banks/*/deck_height", K::length, 50, 800, false},
    {"hot/banks/*/intake_face", K::length, -500, 1000, false},
    {"hot/valves/*/seat_to_tip", K::length, 20, 400, false},
    {"limits/rod_clearance", K::length, 0, 5, false},
    {"doubt/assumed", K::length, 0, 5, false},
    {"doubt/assumed_for", K::words, 0, 0, false},
    {"doubt/lash_float/source", K::choice, 0, 0, false, sources},
    {"doubt/end_float/source", K::choice, 0, 0, false, sources},
    {"doubt/seat_off_axis/size", K::length, 0, 5, false},
    {"doubt/seat_off_axis/source", K::choice, 0, 0, false, sources},
    {"doubt/rod_runout/size", K::length, 0, 5, false},
    {"doubt/rod_runout/source", K::choice, 0, 0, false, sources},
    {"doubt/lifter_bore_slop/size", K::length, 0, 2, false},
    {"doubt/lifter_bore_slop/source", K::choice, 0, 0, false, sources},
    {"doubt/leak_down/size", K::length, 0, 15, false},
    {"doubt/leak_down/source", K::choice, 0, 0, false, sources},
    {"doubt/inputs/*/size", K::length, 0, 5, false},
    {"doubt/inputs/*/angle", K::angle, 0, 5, false},
    {"doubt/inputs/*/source", K::choice, 0, 0, false, sources},
    {"trains/*/lifter/foot/x", K::length, -anywhere, anywhere},
    {"trains/*/lifter/foot/y", K::length, -anywhere, anywhere},
    {"trains/*/lifter/foot/z", K::length, -anywhere, anywhere},
    {"trains/*/lifter/axis/x", K::direction, -1, 1},
    {"trains/*/lifter/axis/y", K::direction, -1, 1},
    {"trains/*/lifter/axis/z", K::direction, -1, 1},
    {"trains/*/lifter/seat_height", K::length, 5, 150},
    {"trains/*/lifter/kind", K::choice, 0, 0, false, "solid hydraulic"},
    {"trains/*/lifter/preload", K::length, 0, 10, false},
    {"trains/*/lifter/plunger_travel", K::length, 0, 15, false},
    {"trains/*/lifter/follower", K::choice, 0, 0, false, "flat roller"},
    {"trains/*/lifter/face_diameter", K::length, 10, 60, false},
    {"trains/*/lifter/roller_radius", K::length, 3, 40, false},
    {"trains/*/lifter/body_diameter", K::length, 8, 60, false},
    {"trains/*/lifter/body_length", K::length, 10, 150, false},
    {"trains/*/rod/length", K::length, 25, 1000, false},
    {"trains/*/rod/overall_length", K::length, 25, 1050, false},
    {"trains/*/rod/effective_length", K::length, 10, 1050, false},
    {"trains/*/rod/gauge_length", K::length, 25, 1050, false},
    {"trains/*/rod/diameter", K::length, 4, 25, false},
    {"trains/*/rod/profile", K::rod_profile, 0, 0, false},
    {"trains/*/rod/lower_ball", K::length, 3, 25, false},
    {"trains/*/rod/upper_ball", K::length, 3, 25, false},
    {"trains/*/rod/top_end", K::choice, 0, 0, false, "ball cup"},
    {"trains/*/rod/cup_depth", K::length, 0.5, 25, false},
    {"trains/*/rod/cup_outside", K::length, 3, 40, false},
    {"trains/*/rod/gauge_hole", K::length, 0.5, 25, false},
    {"trains/*/rocker/mount", K::choice, 0, 0, false, "shaft stud ball_pivot"},
    {"trains/*/rocker/guided_by", K::choice, 0, 0, false, "guide_plate tip_rails"},
    {"trains/*/rocker/shaft", K::words, 0, 0, false},
    {"trains/*/rocker/pivot/x", K::length, -anywhere, anywhere},
    {"trains/*/rocker/pivot/y", K::length, -anywhere, anywhere},
    {"trains/*/rocker/pivot/z", K::length, -anywhere, anywhere},
    {"trains/*/rocker/axis/x", K::direction, -1, 1, false},
    {"trains/*/rocker/axis/y", K::direction, -1, 1, false},
    {"trains/*/rocker/axis/z", K::direction, -1, 1, false},
    {"trains/*/rocker/ball_arm/x", K::length, -300, 300},
    {"trains/*/rocker/ball_arm/y", K::length, -300, 300},
    {"trains/*/rocker/ball_arm/z", K::length, -300, 300},
    {"trains/*/rocker/tip_arm/x", K::length, -300, 300},
    {"trains/*/rocker/tip_arm/y", K::length, -300, 300},
    {"trains/*/rocker/tip_arm/z", K::length, -300, 300},
    {"trains/*/rocker/end_float", K::length, 0, 5, false},
    {"trains/*/rocker/body/from/x", K::length, -300, 300, false},
    {"trains/*/rocker/body/from/y", K::length, -300, 300, false},
    {"trains/*/rocker/body/from/z", K::length, -300, 300, false},
    {"trains/*/rocker/body/to/x", K::length, -300, 300, false},
    {"trains/*/rocker/body/to/y", K::length, -300, 300, false},
    {"trains/*/rocker/body/to/z", K::length, -300, 300, false},
    {"trains/*/rocker/body/diameter", K::length, 2, 100, false},
    {"trains/*/adjuster/kind", K::choice, 0, 0, false, "screw nut none"},
    {"trains/*/adjuster/axis/x", K::direction, -1, 1, false},
    {"trains/*/adjuster/axis/y", K::direction, -1, 1, false},
    {"trains/*/adjuster/axis/z", K::direction, -1, 1, false},
    {"trains/*/adjuster/thread_towards_rod", K::length, 0, 50, false},
    {"trains/*/adjuster/thread_away_from_rod", K::length, 0, 50, false},
    {"trains/*/adjuster/pitch", K::length, 0.2, 5, false},
    {"trains/*/adjuster/cup_limit", K::angle, 0, 60, false},
    {"trains/*/valve/axis/x", K::direction, -1, 1},
    {"trains/*/valve/axis/y", K::direction, -1, 1},
    {"trains/*/valve/axis/z", K::direction, -1, 1},
    {"trains/*/valve/tip/x", K::length, -anywhere, anywhere, false},
    {"trains/*/valve/tip/y", K::length, -anywhere, anywhere, false},
    {"trains/*/valve/tip/z", K::length, -anywhere, anywhere, false},
    {"trains/*/tube/shape", K::choice, 0, 0, false, "round obround"},
    {"trains/*/tube/casting", K::choice, 0, 0, true, "intake head"},
    {"trains/*/tube/centre/x", K::length, -anywhere, anywhere},
    {"trains/*/tube/centre/y", K::length, -anywhere, anywhere},
    {"trains/*/tube/centre/z", K::length, -anywhere, anywhere},
    {"trains/*/tube/axis/x", K::direction, -1, 1},
    {"trains/*/tube/axis/y", K::direction, -1, 1},
    {"trains/*/tube/axis/z", K::direction, -1, 1},
    {"trains/*/tube/length", K::length, 5, 500},
    {"trains/*/tube/bore", K::length, 4, 100},
    {"trains/*/tube/long_bore", K::length, 4, 200, false},
    {"trains/*/tube/long_way/x", K::direction, -1, 1, false},
    {"trains/*/tube/long_way/y", K::direction, -1, 1, false},
    {"trains/*/tube/long_way/z", K::direction, -1, 1, false},
    {"trains/*/tube/top_edge", K::length, 0, 20, false},
    {"trains/*/tube/bottom_edge", K::length, 0, 20, false},
    {"trains/*/tube/wall", K::length, 0.2, 12, false},
    {"trains/*/tube/fitted_doubt", K::length, 0, 5, false},
    {"trains/*/passages/*/kind", K::choice, 0, 0, false, "tube obround_tube hole slot"},
    {"trains/*/passages/*/casting", K::choice, 0, 0, false, "head intake block"},
    {"trains/*/passages/*/centre/x", K::length, -anywhere, anywhere, false},
    {"trains/*/passages/*/centre/y", K::length, -anywhere, anywhere, false},
    {"trains/*/passages/*/centre/z", K::length, -anywhere, anywhere, false},
    {"trains/*/passages/*/axis/x", K::direction, -1, 1, false},
    {"trains/*/passages/*/axis/y", K::direction, -1, 1, false},
    {"trains/*/passages/*/axis/z", K::direction, -1, 1, false},
    {"trains/*/passages/*/length", K::length, 0.5, 500, false},
    {"trains/*/passages/*/bore", K::length, 4, 200, false},
    {"trains/*/passages/*/long_bore", K::length, 4, 300, false},
    {"trains/*/passages/*/long_way/x", K::direction, -1, 1, false},
    {"trains/*/passages/*/long_way/y", K::direction, -1, 1, false},
    {"trains/*/passages/*/long_way/z", K::direction, -1, 1, false},
    {"trains/*/passages/*/top_edge", K::length, 0, 20, false},
    {"trains/*/passages/*/bottom_edge", K::length, 0, 20, false},
    {"trains/*/passages/*/wall", K::length, 0.2, 12, false},
    {"trains/*/passages/*/fitted_doubt", K::length, 0, 5, false},
    {"obstacles/*/bank", K::words, 0, 0, false},
    {"obstacles/*/casting", K::choice, 0, 0, false, "head intake block"},
    {"obstacles/*/kind", K::choice, 0, 0, false, "plane cylinder box bolt_end"},
    {"obstacles/*/point/x", K::length, -anywhere, anywhere, false},
    {"obstacles/*/point/y", K::length, -anywhere, anywhere, false},
    {"obstacles/*/point/z", K::length, -anywhere, anywhere, false},
    {"obstacles/*/normal/x", K::direction, -1, 1, false},
    {"obstacles/*/normal/y", K::direction, -1, 1, false},
    {"obstacles/*/normal/z", K::direction, -1, 1, false},
    {"obstacles/*/axis/x", K::direction, -1, 1, false},
    {"obstacles/*/axis/y", K::direction, -1, 1, false},
    {"obstacles/*/axis/z", K::direction, -1, 1, false},
    {"obstacles/*/second_axis/x", K::direction, -1, 1, false},
    {"obstacles/*/second_axis/y", K::direction, -1, 1, false},
    {"obstacles/*/second_axis/z", K::direction, -1, 1, false},
    {"obstacles/*/diameter", K::length, 1, 500, false},
    {"obstacles/*/length", K::length, 0.5, 1000, false},
    {"obstacles/*/sizes/x", K::length, 0.5, 1000, false},
    {"obstacles/*/sizes/y", K::length, 0.5, 1000, false},
    {"obstacles/*/sizes/z", K::length, 0.5, 1000, false},
};

bool matches(std::string_view pattern, std::string_view path) {
    while (true) {
        const auto pattern_end = pattern.find('/');
        const auto path_end = path.find('/');
        const std::string_view wanted = pattern.substr(0, pattern_end);
        const std::string_view found = path.substr(0, path_end);
        if (found.empty() || (wanted != "*" && wanted != found)) {
            return false;
        }
        if (pattern_end == std::string_view::npos || path_end == std::string_view::npos) {
            return pattern_end == path_end;
        }
        pattern.remove_prefix(pattern_end + 1);
        path.remove_prefix(path_end + 1);
    }
}

} // namespace

const std::vector<FieldSpec>& set_up_field_specs() {
    return specs;
}

const FieldSpec* field_spec(std::string_view path) {
    // Every pattern ends in a plain name: its last letter tells most of them apart.
    const auto found = std::find_if(specs.begin(), specs.end(), [&](const FieldSpec& spec) {
        return !path.empty() && spec.pattern.back() == path.back() && matches(spec.pattern, path);
    });
    return found == specs.end() ? nullptr : &*found;
}

std::vector<std::string> path_parts(std::string_view path) {
    std::vector<std::string> parts;
    while (true) {
        const auto end = path.find('/');
        parts.emplace_back(path.substr(0, end));
        if (end == std::string_view::npos) {
            return parts;
        }
        path.remove_prefix(end + 1);
    }
}

bool is_list_of_pairs(FieldKind kind) {
    switch (kind) {
        case FieldKind::lift_table:
        case FieldKind::durations:
        case FieldKind::spring_loads:
        case FieldKind::valve_drops:
        case FieldKind::rod_profile:
            return true;
        default:
            return false;
    }
}

bool is_amount(FieldKind kind) {
    switch (kind) {
        case FieldKind::number:
        case FieldKind::temperature:
        case FieldKind::modulus:
        case FieldKind::mass:
        case FieldKind::speed:
        case FieldKind::expansion:
            return true;
        default:
            return false;
    }
}

bool unit_fits(FieldKind kind, std::string_view unit) {
    const auto one_of = [&](std::initializer_list<std::string_view> units) {
        return std::find(units.begin(), units.end(), unit) != units.end();
    };
    switch (kind) {
        case FieldKind::length:
            return one_of({"in", "mm", "thou"});
        case FieldKind::angle:
            return unit == "deg";
        case FieldKind::crank_angle:
            return unit == "crank_deg";
        case FieldKind::lift_table:
            return one_of({"cam_deg/in", "cam_deg/mm", "crank_deg/in", "crank_deg/mm"});
        case FieldKind::durations:
            return one_of({"in/crank_deg", "mm/crank_deg"});
        case FieldKind::spring_loads:
            return one_of({"in/lbf", "mm/N"});
        case FieldKind::valve_drops:
            return one_of({"crank_deg/in", "crank_deg/mm"});
        case FieldKind::rod_profile:
            return one_of({"in", "mm"});
        case FieldKind::temperature:
            return one_of({"degC", "degF"});
        case FieldKind::modulus:
            return one_of({"GPa", "Mpsi"});
        case FieldKind::mass:
            return one_of({"g", "oz"});
        case FieldKind::speed:
            return unit == "rpm";
        case FieldKind::expansion:
            return one_of({"ppm_K", "ppm_F"});
        case FieldKind::number:
        case FieldKind::direction:
        case FieldKind::words:
        case FieldKind::choice:
            return unit.empty();
    }
    return false;
}

} // namespace rodway
