#include "core/build/check_dependence.h"

#include <algorithm>
#include <initializer_list>

namespace rodway {
namespace {

using R = DependenceReason;
using List = std::vector<Dependence>;

constexpr auto engine = DependenceReach::engine;
constexpr auto bank = DependenceReach::bank;
constexpr auto cylinder = DependenceReach::cylinder;
constexpr auto valve = DependenceReach::valve;

Dependence part(std::string_view role, DependenceReach reach, R reason) {
    return {DependsOn::part_role, role, reach, reason};
}
Dependence part_of_joint(std::string_view role, std::string_view joint, DependenceReach reach) {
    return {DependsOn::part_role, role, reach, R::changes_clamping, false, joint};
}
Dependence path(std::string_view what, DependenceReach reach, R reason) {
    return {DependsOn::set_up_path, what, reach, reason};
}
/// What a reading found: another value is a change.
Dependence reading(std::string_view quantity, DependenceReach reach, R reason) {
    return {DependsOn::quantity, quantity, reach, reason};
}
/// What was taken off, or done: the first reading of it is a change.
Dependence work(std::string_view quantity, DependenceReach reach, R reason) {
    return {DependsOn::quantity, quantity, reach, reason, true};
}

List all_of(std::initializer_list<List> lists) {
    List all;
    for (const List& list : lists) {
        all.insert(all.end(), list.begin(), list.end());
    }
    return all;
}

/// How high the head stands over crank and lifters. An intake between two heads is left out: which
/// checks it concerns differs.
List head_height() {
    return {part("block", engine, R::moves_head),
            part("head", bank, R::moves_head),
            part("head_gasket", bank, R::moves_head),
            path("banks/*/head", bank, R::moves_head),
            path("banks/*/deck_milled", bank, R::moves_head),
            path("described/*/deck_height", bank, R::moves_head),
            path("described/*/head_gasket", bank, R::moves_head),
            work("deck_removed", bank, R::moves_head),
            work("head_removed", bank, R::moves_head),
            reading("deck_height", bank, R::moves_head),
            reading("head_thickness", bank, R::moves_head),
            reading("gasket_compressed", engine, R::moves_head)};
}

/// Where the intake stands: it rests on the heads of all banks, so that one side moves it for all.
List intake_seat() {
    return {part("intake_manifold", engine, R::moves_intake),
            part("intake_gasket", engine, R::moves_intake),
            part("intake_end_seal", engine, R::moves_intake),
            path("banks/*/flange", engine, R::moves_intake),
            path("engine/intake_casting", engine, R::moves_intake),
            path("described/*/intake_gasket", engine, R::moves_intake),
            work("intake_face_removed", engine, R::moves_intake),
            reading("intake_gasket", engine, R::moves_intake)};
}

/// The pushrod from the cam to its lower end.
List rod_foot() {
    return {part("camshaft", engine, R::lifts_further),
            part("lifter", valve, R::moves_rod_foot),
            path("lobes", engine, R::lifts_further),
            path("trains/*/lifter/seat_height", valve, R::moves_rod_foot),
            path("trains/*/lifter/kind", valve, R::moves_rod_foot),
            path("trains/*/lifter/preload", valve, R::moves_rod_foot),
            path("described/*/base_circle", valve, R::moves_rod_foot),
            path("described/*/seat_height", valve, R::moves_rod_foot),
            path("described/*/lifter", valve, R::moves_rod_foot),
            path("described/*/preload", valve, R::moves_rod_foot),
            reading("lifter_seat_height", valve, R::moves_rod_foot)};
}

/// What the rocker turns on, and the rocker: shafts and stands carry a bank's.
List rocker_seat() {
    return {part("rocker", valve, R::moves_rod_top),
            part("adjuster", valve, R::moves_rod_top),
            part("rocker_stud", valve, R::moves_rod_top),
            part("rocker_shaft", bank, R::moves_rod_top),
            part("rocker_stand", bank, R::moves_rod_top),
            part("rocker_stand_shim", bank, R::moves_rod_top),
            path("trains/*/rocker/ball_arm", valve, R::moves_rod_top),
            path("trains/*/rocker/tip_arm", valve, R::moves_rod_top),
            path("trains/*/rocker/mount", valve, R::moves_rod_top),
            path("trains/*/adjuster/kind", valve, R::moves_rod_top),
            path("described/*/ball_arm", valve, R::moves_rod_top),
            path("described/*/tip_arm", valve, R::moves_rod_top),
            path("described/*/mount", valve, R::moves_rod_top),
            reading("rocker_stand_height", bank, R::moves_rod_top),
            work("rocker_stand_shim", bank, R::moves_rod_top),
            reading("stud_height", valve, R::moves_rod_top)};
}

List the_rod() {
    return {part("pushrod", valve, R::is_the_rod),
            path("trains/*/rod", valve, R::is_the_rod),
            path("described/*/rod_overall", valve, R::is_the_rod),
            path("described/*/rod_ball", valve, R::is_the_rod),
            path("described/*/rod_diameter", valve, R::is_the_rod),
            reading("pushrod_length", valve, R::is_the_rod),
            reading("pushrod_diameter", valve, R::is_the_rod)};
}

List valve_in_head() {
    return {part("intake_valve", valve, R::moves_valve),
            part("exhaust_valve", valve, R::moves_valve), part("valve_seat", valve, R::moves_valve),
            reading("valve_tip_height", valve, R::moves_valve)};
}

List piston_height() {
    return {part("block", engine, R::moves_piston),
            part("crankshaft", engine, R::moves_piston),
            part("connecting_rod", cylinder, R::moves_piston),
            part("piston", cylinder, R::moves_piston),
            path("engine/stroke", engine, R::moves_piston),
            path("engine/connecting_rod", engine, R::moves_piston),
            work("deck_removed", bank, R::moves_piston),
            work("align_hone", engine, R::moves_piston),
            reading("connecting_rod_length", cylinder, R::moves_piston),
            reading("compression_height", engine, R::moves_piston),
            reading("stroke", engine, R::moves_piston)};
}

/// The cam to the crank.
List timing() {
    return {part("camshaft", engine, R::shifts_timing),
            part("timing_set", engine, R::shifts_timing),
            part("crank_key", engine, R::shifts_timing),
            path("lobes", engine, R::shifts_timing),
            reading("timing_set_position", engine, R::shifts_timing),
            reading("cam_advance_set", engine, R::shifts_timing)};
}

/// By hand, in the engine as it stood. Where the survey of a casting put a centre or an axis is
/// left out: to survey it better moves no wall. So is what was ground out of the passage: it is
/// written down with the reading behind it, and only gives more room.
CheckDependences rod_clearance_by_hand() {
    return {"rod_clearance",
            {"rod_clearance", "rod_gap"},
            all_of({{part("intake_bolt", engine, R::bolt_end_near_rod),
                     reading("intake_bolt_length", engine, R::bolt_end_near_rod),
                     path("obstacles", engine, R::bolt_end_near_rod),
                     part("pushrod_tube", valve, R::is_the_passage),
                     part("tube_seal", valve, R::is_the_passage),
                     part("guide_plate", cylinder, R::is_the_passage),
                     path("trains/*/tube/bore", valve, R::is_the_passage),
                     path("trains/*/tube/long_bore", valve, R::is_the_passage),
                     path("trains/*/passages/*/bore", valve, R::is_the_passage),
                     path("trains/*/passages/*/long_bore", valve, R::is_the_passage)},
                    head_height(),
                    intake_seat(),
                    rod_foot(),
                    the_rod(),
                    rocker_seat(),
                    valve_in_head()})};
}

/// From the set-up. A part and the fields that speak of it stand there for the same reason: by that
/// it is known which fields answer a change of a part.
CheckDependences rod_clearance_worked_out() {
    CheckDependences entry{
        std::string_view(clearance_check),
        {},
        all_of({{part("intake_bolt", engine, R::bolt_end_near_rod),
                 path("obstacles", engine, R::bolt_end_near_rod),
                 part("pushrod_tube", valve, R::is_the_passage),
                 part("guide_plate", cylinder, R::is_the_passage),
                 path("trains/*/tube", valve, R::is_the_passage),
                 path("trains/*/passages", valve, R::is_the_passage),
                 path("trains/*/lifter", valve, R::moves_rod_foot),
                 path("trains/*/rocker", valve, R::moves_rod_top),
                 path("trains/*/adjuster", valve, R::moves_rod_top),
                 path("trains/*/valve", valve, R::moves_valve),
                 path("banks/*/lean", bank, R::moves_head),
                 path("cylinders/*/bank", cylinder, R::moves_head),
                 path("limits", engine, R::judged_by), path("doubt", engine, R::judged_by)},
                head_height(),
                intake_seat(),
                rod_foot(),
                the_rod(),
                rocker_seat(),
                valve_in_head(),
                // The rest of what a builder measured: the places of rod and tube go by it.
                {path("described", valve, R::is_the_passage)}}),
        false};
    // What was cut stands in the set-up already when somebody writes it on a sheet.
    for (Dependence& one : entry.on) {
        one.first_reading_counts = false;
    }
    return entry;
}

CheckDependences piston_to_valve() {
    return {"piston_to_valve",
            {"valve_drop", "piston_to_valve_clearance", "piston_to_valve_side"},
            all_of({piston_height(),
                    head_height(),
                    timing(),
                    rod_foot(),
                    the_rod(),
                    rocker_seat(),
                    valve_in_head(),
                    {reading("valve_relief_depth", valve, R::changes_fit),
                     reading("lash_cold", valve, R::lifts_further)}})};
}

/// What closes the train: a part in it or under it changes what is left between its ends.
List train_length() {
    return all_of({head_height(), rod_foot(), rocker_seat(), valve_in_head()});
}

std::vector<CheckDependences> of_the_valvetrain() {
    return {
        rod_clearance_worked_out(),
        rod_clearance_by_hand(),
        piston_to_valve(),
        {"lash", {"lash_cold", "lash_hot"}, all_of({train_length(), the_rod()})},
        {"lifters", {"preload_turns", "lifter_preload"}, all_of({train_length(), the_rod()})},
        {"lifters",
         {"lifter_clearance", "lifter_spins"},
         {part("lifter", valve, R::changes_fit), part("camshaft", engine, R::changes_fit),
          part("block", engine, R::changes_fit),
          reading("lifter_bore_diameter", valve, R::changes_fit)}},
        {"pushrods", {"pushrod_checker_turns"}, train_length()},
        {"rocker_geometry",
         {"sweep_position", "sweep_width", "tip_centre_offset", "adjuster_threads_showing",
          "dial_at_lifter", "dial_at_valve", "rocker_ratio_measured"},
         all_of({train_length(), the_rod()})},
        {"rocker_geometry",
         {"retainer_to_rocker"},
         all_of(
             {{part("retainer", valve, R::changes_fit), part("valve_lock", valve, R::changes_fit)},
              rocker_seat(),
              valve_in_head()})},
        {"rocker_geometry",
         {"rocker_shaft_clearance"},
         {part("rocker", valve, R::changes_fit), part("rocker_shaft", bank, R::changes_fit)}},
        {"tube_job",
         {"tube_leak_after_relief", "leak_start_after_relief", "leak_end_after_relief",
          "leak_time_after_relief"},
         {part("pushrod_tube", valve, R::carries_oil), part("tube_seal", valve, R::carries_oil),
          part("intake_manifold", engine, R::carries_oil),
          reading("tube_relieved_by", valve, R::carries_oil)}},
    };
}

std::vector<CheckDependences> of_the_heads() {
    return {
        {"valves_and_guides",
         {"stem_clearance"},
         {part("intake_valve", valve, R::changes_fit), part("exhaust_valve", valve, R::changes_fit),
          part("valve_guide", valve, R::changes_fit), reading("guide_bore", valve, R::changes_fit),
          reading("valve_stem_diameter", valve, R::changes_fit)}},
        {"valves_and_guides",
         {"valve_tip_height"},
         {part("intake_valve", valve, R::moves_valve), part("exhaust_valve", valve, R::moves_valve),
          part("valve_seat", valve, R::moves_valve), part("head", bank, R::moves_valve)}},
        {"heads",
         {"chamber_volume"},
         {part("head", bank, R::changes_chamber), part("intake_valve", valve, R::changes_chamber),
          part("exhaust_valve", valve, R::changes_chamber),
          part("valve_seat", valve, R::changes_chamber),
          part("spark_plug", cylinder, R::changes_chamber),
          work("head_removed", bank, R::changes_chamber)}},
        {"heads",
         {"head_thickness", "port_height", "intake_bolt_height"},
         {part("head", bank, R::moves_head), work("head_removed", bank, R::moves_head)}},
        {"springs",
         {"spring_installed_height", "spring_seat_load"},
         all_of(
             {{part("valve_spring", valve, R::changes_spring),
               part("inner_spring", valve, R::changes_spring),
               part("retainer", valve, R::changes_spring),
               part("valve_lock", valve, R::changes_spring),
               part("spring_seat", valve, R::changes_spring),
               part("spring_shim", valve, R::changes_spring), part("head", bank, R::changes_spring),
               reading("spring_shim", valve, R::changes_spring)},
              valve_in_head()})},
        {"springs",
         {"spring_open_load"},
         all_of(
             {{part("valve_spring", valve, R::changes_spring),
               part("inner_spring", valve, R::changes_spring),
               part("retainer", valve, R::changes_spring),
               part("spring_shim", valve, R::changes_spring),
               part("camshaft", engine, R::lifts_further), part("rocker", valve, R::lifts_further),
               reading("spring_shim", valve, R::changes_spring)},
              valve_in_head()})},
        {"springs",
         {"spring_load_at_height", "spring_bind_height", "spring_pocket_fit"},
         {part("valve_spring", valve, R::changes_spring),
          part("inner_spring", valve, R::changes_spring)}},
        {"springs",
         {"retainer_to_guide_closed", "retainer_to_guide", "full_valve_lift"},
         all_of(
             {{part("retainer", valve, R::changes_fit), part("valve_lock", valve, R::changes_fit),
               part("valve_seal", valve, R::changes_fit),
               part("valve_guide", valve, R::changes_fit),
               part("camshaft", engine, R::lifts_further), part("rocker", valve, R::lifts_further),
               path("lobes", engine, R::lifts_further)},
              valve_in_head()})},
    };
}

std::vector<CheckDependences> of_the_crankcase() {
    const List crank_drag{
        part("crankshaft", engine, R::drags), part("main_bearing", engine, R::drags),
        part("main_bolt", engine, R::changes_clamping), part("rear_seal", engine, R::drags)};
    return {
        {"block",
         {"main_housing_bore"},
         {part("main_cap", engine, R::changes_clamping),
          part("main_bolt", engine, R::changes_clamping),
          work("align_hone", engine, R::changes_fit)}},
        {"main_bearings",
         {"main_bearing_bore", "main_clearance"},
         {part("block", engine, R::changes_fit), part("crankshaft", engine, R::changes_fit),
          part("main_bearing", engine, R::changes_fit),
          part("main_cap", engine, R::changes_clamping),
          part("main_bolt", engine, R::changes_clamping),
          work("align_hone", engine, R::changes_fit),
          reading("main_diameter", engine, R::changes_fit)}},
        {"rod_bearings",
         {"rod_bearing_bore", "rod_bearing_clearance"},
         {part("crankshaft", engine, R::changes_fit),
          part("connecting_rod", cylinder, R::changes_fit),
          part("rod_bearing", cylinder, R::changes_fit),
          part("rod_bolt", cylinder, R::changes_clamping),
          reading("rod_journal_diameter", cylinder, R::changes_fit),
          reading("rod_housing_bore", cylinder, R::changes_fit)}},
        {"rod_bearings",
         {"rod_housing_bore"},
         {part("connecting_rod", cylinder, R::changes_fit),
          part("rod_bolt", cylinder, R::changes_clamping)}},
        {"crank",
         {"crank_end_play"},
         {part("block", engine, R::changes_fit), part("crankshaft", engine, R::changes_fit),
          part("thrust_bearing", engine, R::changes_fit),
          part("main_bearing", engine, R::changes_fit)}},
        {"crank",
         {"rod_side_clearance"},
         {part("crankshaft", engine, R::changes_fit),
          part("connecting_rod", cylinder, R::changes_fit)}},
        {"crank", {"crank_runout", "stroke"}, {part("crankshaft", engine, R::changes_fit)}},
        {"turning_torque", {"turning_torque_crank"}, crank_drag},
        {"turning_torque",
         {"turning_torque_with_piston", "turning_torque_short_block"},
         all_of(
             {crank_drag,
              {part("connecting_rod", cylinder, R::drags), part("rod_bearing", cylinder, R::drags),
               part("piston", cylinder, R::drags), part("ring", cylinder, R::drags)}})},
    };
}

std::vector<CheckDependences> of_the_cylinders() {
    return {
        {"connecting_rods",
         {"pin_fit"},
         {part("connecting_rod", cylinder, R::changes_fit),
          part("piston", cylinder, R::changes_fit), part("piston_pin", cylinder, R::changes_fit),
          part("pin_bush", cylinder, R::changes_fit)}},
        {"pistons",
         {"piston_wall_clearance"},
         {part("block", engine, R::changes_fit), part("piston", cylinder, R::changes_fit),
          reading("bore", cylinder, R::changes_fit),
          reading("piston_size", cylinder, R::changes_fit)}},
        {"rings",
         {"ring_gap", "ring_side_clearance"},
         {part("block", engine, R::changes_fit), part("ring", cylinder, R::changes_fit),
          part("piston", cylinder, R::changes_fit), reading("bore", cylinder, R::changes_fit)}},
        {"deck", {"deck_clearance"}, piston_height()},
        {"compression",
         {"gasket_bore", "gasket_compressed", "gasket_volume"},
         {part("head_gasket", engine, R::changes_chamber)}},
        {"balance",
         {"balance_card"},
         {part("crankshaft", engine, R::changes_balance),
          part("piston", engine, R::changes_balance),
          part("piston_pin", engine, R::changes_balance), part("ring", engine, R::changes_balance),
          part("connecting_rod", engine, R::changes_balance),
          part("rod_bearing", engine, R::changes_balance),
          part("damper", engine, R::changes_balance),
          part("flywheel", engine, R::changes_balance)}},
        {"rotating_clearances",
         {"rod_to_block_clearance", "rod_to_cam_clearance", "counterweight_to_block_clearance",
          "counterweight_to_piston_clearance", "crank_to_pump_clearance"},
         {part("block", engine, R::swings_near), part("crankshaft", engine, R::swings_near),
          part("connecting_rod", cylinder, R::swings_near),
          part("rod_bolt", cylinder, R::swings_near), part("piston", cylinder, R::swings_near),
          part("camshaft", engine, R::swings_near), part("oil_pump", engine, R::swings_near),
          part("oil_pickup", engine, R::swings_near), path("engine/stroke", engine, R::swings_near),
          path("engine/connecting_rod", engine, R::swings_near)}},
    };
}

std::vector<CheckDependences> of_the_cam() {
    return {
        {"cam",
         {"base_circle", "lobe_nose", "lobe_lift", "cam_journal_diameter", "cam_runout"},
         {part("camshaft", engine, R::changes_fit)}},
        {"cam",
         {"cam_bearing_bore", "cam_bearing_clearance"},
         {part("camshaft", engine, R::changes_fit), part("cam_bearing", engine, R::changes_fit),
          part("block", engine, R::changes_fit)}},
        {"cam",
         {"cam_end_play", "cam_button_clearance"},
         {part("camshaft", engine, R::changes_fit),
          part("cam_thrust_plate", engine, R::changes_fit),
          part("timing_set", engine, R::changes_fit), part("timing_cover", engine, R::changes_fit),
          part("timing_cover_gasket", engine, R::changes_fit)}},
        {"cam_timing",
         {"lift_at_angle", "lobe_event", "full_lift_angle", "lobe_centreline", "cam_advance_found"},
         all_of({{part("lifter", valve, R::lifts_further)}, timing()})},
        {"cam_timing",
         {"tdc_stop_reading"},
         {part("crankshaft", engine, R::shifts_timing), part("crank_key", engine, R::shifts_timing),
          part("damper", engine, R::shifts_timing)}},
        {"cam_timing",
         {"chain_slack", "timing_gear_backlash"},
         {part("timing_set", engine, R::sets_mesh), part("camshaft", engine, R::sets_mesh),
          work("align_hone", engine, R::sets_mesh)}},
    };
}

/// Bolts are done again where their joint was taken apart.
std::vector<CheckDependences> of_the_joints() {
    return {
        {"fasteners",
         {"fastener_torque", "fastener_angle", "fastener_tight_length", "fastener_stretch"},
         {part_of_joint("main_bolt", "main", engine),
          part_of_joint("main_cap", "main", engine),
          part_of_joint("main_bearing", "main", engine),
          part_of_joint("crankshaft", "main", engine),
          part_of_joint("rod_bolt", "rod", cylinder),
          part_of_joint("rod_bearing", "rod", cylinder),
          part_of_joint("connecting_rod", "rod", cylinder),
          part_of_joint("crankshaft", "rod", engine),
          part_of_joint("head", "head", bank),
          part_of_joint("head_bolt", "head", bank),
          part_of_joint("head_gasket", "head", bank),
          part_of_joint("rocker_shaft", "rocker", bank),
          part_of_joint("rocker_stand", "rocker", bank),
          part_of_joint("rocker_stand_shim", "rocker", bank),
          part_of_joint("rocker_bolt", "rocker", bank),
          part_of_joint("intake_manifold", "intake", engine),
          part_of_joint("intake_gasket", "intake", engine),
          part_of_joint("intake_bolt", "intake", engine),
          part_of_joint("exhaust_manifold", "exhaust", bank),
          part_of_joint("exhaust_gasket", "exhaust", bank),
          part_of_joint("exhaust_bolt", "exhaust", bank),
          part_of_joint("camshaft", "cam", engine),
          part_of_joint("timing_set", "cam", engine),
          part_of_joint("cam_bolt", "cam", engine),
          part_of_joint("damper", "damper", engine),
          part_of_joint("damper_bolt", "damper", engine),
          part_of_joint("flywheel", "flywheel", engine),
          part_of_joint("flywheel_bolt", "flywheel", engine),
          part_of_joint("timing_cover", "front cover", engine),
          part_of_joint("timing_cover_gasket", "front cover", engine),
          part_of_joint("oil_pan", "pan", engine),
          part_of_joint("oil_pan_gasket", "pan", engine),
          part_of_joint("oil_pan_bolt", "pan", engine),
          part_of_joint("oil_pump", "oil pump", engine),
          part_of_joint("water_pump", "water pump", engine),
          part_of_joint("water_pump_gasket", "water pump", engine),
          part_of_joint("rocker_cover", "rocker cover", bank),
          part_of_joint("rocker_cover_gasket", "rocker cover", bank)}},
    };
}

std::vector<CheckDependences> of_intake_and_oil() {
    const List port_faces = all_of({head_height(), intake_seat()});
    return {
        {"intake",
         {"port_mismatch", "intake_port_height", "intake_face_gap", "end_rail_gap"},
         port_faces},
        {"intake",
         {"head_port_height"},
         {part("head", bank, R::moves_head), work("head_removed", bank, R::moves_head)}},
        {"intake",
         {"intake_bolt_grip", "intake_hole_to_passage"},
         all_of({{part("intake_bolt", engine, R::bolt_end_near_rod)}, port_faces})},
        {"intake", {"intake_bolt_length"}, {part("intake_bolt", engine, R::bolt_end_near_rod)}},
        {"intake",
         {"valley_leak_test"},
         {part("head", engine, R::carries_oil), part("intake_manifold", engine, R::carries_oil),
          part("intake_gasket", engine, R::carries_oil),
          part("intake_end_seal", engine, R::carries_oil),
          part("intake_bolt", engine, R::carries_oil), part("valve_seal", engine, R::carries_oil)}},
        {"distributor",
         {"distributor_washer_gap", "distributor_float", "distributor_gear_clearance"},
         {part("distributor", engine, R::sets_mesh),
          part("distributor_gear", engine, R::sets_mesh)}},
        {"distributor",
         {"distributor_gear_raised", "pump_drive_room_before", "distributor_phase"},
         all_of({{part("distributor", engine, R::sets_mesh),
                  part("distributor_gear", engine, R::sets_mesh),
                  part("distributor_gasket", engine, R::sets_mesh),
                  part("camshaft", engine, R::sets_mesh), part("oil_pump", engine, R::sets_mesh),
                  part("oil_pump_drive", engine, R::sets_mesh)},
                 port_faces})},
        {"oiling",
         {"pump_end_clearance", "pump_drive_clearance"},
         {part("oil_pump", engine, R::changes_fit), part("oil_pump_drive", engine, R::changes_fit),
          part("distributor", engine, R::changes_fit)}},
        {"oiling",
         {"pan_depth", "pickup_below_rail", "pickup_depth"},
         {part("oil_pan", engine, R::changes_fit), part("oil_pan_gasket", engine, R::changes_fit),
          part("oil_pump", engine, R::changes_fit), part("oil_pickup", engine, R::changes_fit)}},
        {"oiling",
         {"prime_pressure"},
         {part("oil_pump", engine, R::carries_oil), part("main_bearing", engine, R::carries_oil),
          part("rod_bearing", engine, R::carries_oil), part("cam_bearing", engine, R::carries_oil),
          part("lifter", engine, R::carries_oil), part("gallery_plug", engine, R::carries_oil)}},
    };
}

std::vector<CheckDependences> make_table() {
    std::vector<CheckDependences> table;
    for (auto& part_of_table :
         {of_the_valvetrain(), of_the_heads(), of_the_crankcase(), of_the_cylinders(), of_the_cam(),
          of_the_joints(), of_intake_and_oil()}) {
        table.insert(table.end(), part_of_table.begin(), part_of_table.end());
    }
    return table;
}

} // namespace

const std::vector<CheckDependences>& check_dependences() {
    static const std::vector<CheckDependences> table = make_table();
    return table;
}

const CheckDependences* dependences_of(std::string_view check, std::string_view quantity) {
    for (const CheckDependences& entry : check_dependences()) {
        const auto& has = entry.quantities;
        if (entry.check == check &&
            (has.empty() ? quantity.empty()
                         : std::find(has.begin(), has.end(), quantity) != has.end())) {
            return &entry;
        }
    }
    return nullptr;
}

std::vector<std::string_view> check_quantities(std::string_view kind) {
    std::vector<std::string_view> all;
    for (const CheckDependences& entry : check_dependences()) {
        if (entry.check == kind) {
            all.insert(all.end(), entry.quantities.begin(), entry.quantities.end());
        }
    }
    return all;
}

bool path_is_of(std::string_view path, std::string_view what) {
    while (true) {
        const auto path_end = path.find('/');
        const auto what_end = what.find('/');
        const std::string_view name = path.substr(0, path_end);
        const std::string_view wanted = what.substr(0, what_end);
        if (name.empty() || (wanted != "*" && wanted != name)) {
            return false;
        }
        if (what_end == std::string_view::npos) {
            return true;
        }
        if (path_end == std::string_view::npos) {
            return false;
        }
        path.remove_prefix(path_end + 1);
        what.remove_prefix(what_end + 1);
    }
}

} // namespace rodway
