#include "core/handoff/settings_card.h"

namespace rodway {

const std::vector<SettingsGroup>& settings_groups() {
    static const std::vector<SettingsGroup> groups{
        {SettingsTopic::lash,
         {"lash_hot", "lash_cold", "lash_hot_wanted", "lifter_preload", "preload_turns"},
         {},
         {"lash_hot", "lash_cold", "lifter_preload"}},
        {SettingsTopic::ignition,
         {"firing_order", "turning_direction", "cylinder_numbering", "number_one_location",
          "tdc_mark_true", "cam_advance_set", "distributor_phase", "pull_ignition_timing"},
         {"distributor", "ignition_coil", "ignition_lead", "spark_plug"},
         {"pull_ignition_timing", "distributor_phase"}},
        {SettingsTopic::fuel, {"pull_jets"}, {"carburettor", "fuel_pump"}, {}},
        {SettingsTopic::oil,
         {"oil_used", "oil_filter_used", "prime_pressure", "first_start_oil_pressure"},
         {"oil", "break_in_oil", "oil_filter"},
         {"oil_used"}},
        {SettingsTopic::cooling, {}, {"coolant", "thermostat"}, {}},
        {SettingsTopic::torque,
         {"joint_thread", "joint_lubricant", "joint_steps", "joint_order", "retorque"},
         {"head_bolt", "intake_bolt", "exhaust_bolt", "rocker_bolt", "rocker_stud"},
         {"joint_steps"}},
        {SettingsTopic::break_in,
         {"prime_time", "break_in_total", "break_in_in_band", "break_in_longest_idle",
          "break_in_missing", "filter_look"},
         {},
         {"break_in_time"}},
    };
    return groups;
}

} // namespace rodway
