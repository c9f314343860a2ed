#include "core/sheets/kinds/built_in.h"

namespace rodway {

SheetKind dyno_pull_sheet() {
    return {"dyno_pull",
            {
                {"pull_torque", Form::torque, Place::pull_speed, "lb-ft"},
                {"pull_power", Form::power, Place::pull_speed, "hp"},
                {"pull_air_pressure", Form::pressure, Place::pull, "inHg"},
                {"pull_dry_bulb", Form::temperature, Place::pull, "degF"},
                {"pull_humidity", Form::percent, Place::pull, "%"},
                {"pull_wet_bulb", Form::temperature, Place::pull, "degF"},
                {"pull_correction", Form::choice, Place::pull, "",
                 "none j607 j1349 iso_1585 din_70020"},
                {"pull_correction_factor", Form::ratio, Place::pull, "", "", Origin::worked_out},
                {"pull_method", Form::choice, Place::pull, "", "inertia step sweep"},
                {"pull_ignition_timing", Form::crank_angle, Place::pull, "btdc"},
                {"pull_jets", Form::words, Place::pull},
                {"pull_air_fuel_ratio", Form::ratio, Place::pull_cylinder},
                {"pull_exhaust_temperature", Form::temperature, Place::pull_cylinder, "degF"},
                {"pull_oil_temperature", Form::temperature, Place::pull, "degF"},
                {"pull_oil_pressure", Form::pressure, Place::pull_speed, "psi"},
                {"pull_water_temperature", Form::temperature, Place::pull, "degF"},
                {"pull_fuel_flow", Form::number, Place::pull_speed, "lb/h"},
                {"pull_specific_consumption", Form::number, Place::pull_speed, "lb/hp-h", "",
                 Origin::worked_out},
                {"pull_change_made", Form::words, Place::pull},
            }};
}

} // namespace rodway
