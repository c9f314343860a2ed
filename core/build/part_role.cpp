#include "core/build/part_role.h"

#include <algorithm>

#include "core/build/word_list.h"

namespace rodway {
namespace {

Error wrong(ErrorCode code, std::string value, std::string expected = {}) {
    return Error{code, "part_roles", std::move(value), std::move(expected), {}, {}};
}

std::string all_roles() {
    std::string all;
    for (const std::string_view role : part_roles()) {
        all += all.empty() ? "" : " ";
        all += role;
    }
    return all;
}

} // namespace

const std::vector<std::string_view>& part_roles() {
    static const std::vector<std::string_view> roles{
        // block
        "block",
        "core_plug",
        "gallery_plug",
        "dowel",
        "thread_insert",
        "main_cap",
        "main_bolt",
        "main_bearing",
        "thrust_bearing",
        "cam_bearing",
        "cam_plug",
        // crank, rods, pistons
        "crankshaft",
        "crank_key",
        "pilot_bearing",
        "connecting_rod",
        "rod_bolt",
        "rod_bearing",
        "pin_bush",
        "piston",
        "piston_pin",
        "pin_lock",
        "ring",
        "damper",
        "damper_bolt",
        "flywheel",
        "flywheel_bolt",
        // cam and its drive
        "camshaft",
        "cam_thrust_plate",
        "cam_bolt",
        "timing_set",
        "timing_cover",
        "timing_cover_gasket",
        "front_seal",
        "rear_seal",
        // heads
        "head",
        "head_gasket",
        "head_bolt",
        "intake_valve",
        "exhaust_valve",
        "valve_guide",
        "valve_seat",
        "valve_seal",
        "valve_spring",
        "inner_spring",
        "spring_shim",
        "spring_seat",
        "retainer",
        "valve_lock",
        // valvetrain
        "lifter",
        "lifter_retainer",
        "pushrod",
        "pushrod_tube",
        "tube_seal",
        "guide_plate",
        "rocker",
        "rocker_shaft",
        "rocker_stand",
        "rocker_stand_shim",
        "rocker_bolt",
        "rocker_stud",
        "adjuster",
        "rocker_cover",
        "rocker_cover_gasket",
        "lifter_cover",
        "lifter_cover_gasket",
        // intake, exhaust, fuel
        "intake_manifold",
        "intake_gasket",
        "intake_end_seal",
        "intake_bolt",
        "carburettor",
        "carburettor_gasket",
        "fuel_pump",
        "fuel_pump_rod",
        "fuel_pump_gasket",
        "exhaust_manifold",
        "exhaust_gasket",
        "exhaust_bolt",
        // ignition
        "distributor",
        "distributor_gear",
        "distributor_gasket",
        "ignition_coil",
        "ignition_lead",
        "spark_plug",
        // oil and water
        "oil_pump",
        "oil_pump_drive",
        "oil_pump_gasket",
        "oil_pickup",
        "oil_filter",
        "oil_pan",
        "oil_pan_gasket",
        "oil_pan_bolt",
        "oil",
        "break_in_oil",
        "water_pump",
        "water_pump_gasket",
        "thermostat",
        "thermostat_gasket",
        "coolant",
        "fan",
        "belt",
        // consumables and marks
        "sealant",
        "thread_sealer",
        "assembly_lubricant",
        "heat_tab",
        "engine_mount",
        "other",
    };
    return roles;
}

bool is_part_role(std::string_view word) {
    const auto& roles = part_roles();
    return std::find(roles.begin(), roles.end(), word) != roles.end();
}

Result<std::vector<std::string>> parse_part_roles(std::string_view text) {
    std::vector<std::string> roles;
    for (const std::string& word : split_list(text, ',')) {
        if (word.empty()) {
            return wrong(ErrorCode::empty_text, std::string(text), all_roles());
        }
        if (!is_part_role(word)) {
            return wrong(ErrorCode::not_a_choice, word, all_roles());
        }
        if (std::find(roles.begin(), roles.end(), word) != roles.end()) {
            return wrong(ErrorCode::duplicate_field, word);
        }
        roles.push_back(word);
    }
    return roles;
}

std::string part_roles_text(const std::vector<std::string>& roles) {
    return joined(roles, ", ");
}

} // namespace rodway
