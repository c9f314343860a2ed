#include <algorithm>

#include "core/sheets/kinds/built_in.h"
#include "core/sheets/kinds/engine_size.h"
#include "core/sheets/kinds/pull_air.h"
#include "core/sheets/kinds/pull_averages.h"
#include "core/sheets/kinds/pull_factors.h"
#include "core/sheets/kinds/pull_rows.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

/// Every pull of which something was written that another figure follows from.
std::vector<std::string> pulls_of(const TakenReadings& readings) {
    return parts_read(readings,
                      {"pull_torque", "pull_power", "pull_fuel_flow", "pull_air_pressure",
                       "pull_dry_bulb", "pull_humidity", "pull_wet_bulb", "pull_correction",
                       "pull_correction_factor", "pull_average_torque", "pull_average_power",
                       "pull_average_torque_corrected", "pull_average_power_corrected"},
                      PlacePart::pull);
}

/// No torque is below nothing; rows of such a pull make no figures.
bool rows_are_good(const std::vector<ReadRow>& rows, const std::string& pull,
                   SheetOutcome& outcome) {
    for (const Pull& end : {lowest(rows), highest(rows)}) {
        const auto checked = check_pull(end);
        if (!checked) {
            point_out_refused(checked.error(), "pull_peak_torque", pull,
                              {{"torque", "pull_torque"}}, outcome);
            return false;
        }
    }
    return true;
}

void put_row(const ReadRow& row, const std::optional<PullCorrection>& correction,
             const std::optional<Interval>& displacement_cc, SheetOutcome& outcome) {
    const auto put = [&](const char* quantity, const Interval& value) {
        outcome.figures.push_back({quantity, row.position, value});
    };
    put(row.torque_read ? "pull_power" : "pull_torque",
        row.torque_read ? row.power_kW : row.torque_Nm);
    if (displacement_cc) {
        put("pull_mean_pressure", mean_effective_pressure_kPa(row.torque_Nm, *displacement_cc));
    }
    if (correction) {
        put("pull_torque_corrected", product(row.torque_Nm, correction->factor));
        put("pull_power_corrected", product(row.power_kW, correction->factor));
    }
}

/// Fuel may be written at speeds that have no torque.
void put_fuel_of(const TakenReadings& readings, const std::string& pull,
                 const std::vector<ReadRow>& rows, SheetOutcome& outcome) {
    for (const Taken& flow : readings.of("pull_fuel_flow")) {
        if (flow.place.part(PlacePart::pull) != pull) {
            continue;
        }
        const std::string position = sheet_position_text(flow.place);
        const auto row = std::find_if(rows.begin(), rows.end(),
                                      [&](const ReadRow& one) { return one.position == position; });
        put_fuel(readings, row == rows.end() ? nullptr : &*row, position, outcome);
    }
}

PullMeans work_out_pull(const SheetFacts& facts, const std::string& number,
                        const std::optional<Interval>& displacement_cc, SheetOutcome& outcome) {
    const std::string pull = "pull " + number;
    const auto air = work_out_air(facts, pull, outcome);
    if (air) {
        put_factors(*air, pull, outcome);
    }
    const auto correction = work_out_correction(facts, pull, air, outcome);
    std::vector<ReadRow> rows = rows_of(facts.readings, number);
    if (!rows.empty() && !rows_are_good(rows, pull, outcome)) {
        rows.clear();
    }
    for (const ReadRow& row : rows) {
        put_row(row, correction, displacement_cc, outcome);
    }
    point_out_powers(rows, outcome);
    put_fuel_of(facts.readings, number, rows, outcome);
    const PullMeans means = work_out_averages(facts, pull, rows, correction, outcome);
    if (displacement_cc && means.torque_Nm && means.power_kW) {
        outcome.figures.push_back(
            {"pull_score", pull, score(*means.torque_Nm, *means.power_kW, *displacement_cc)});
    }
    return means;
}

SheetOutcome work_out(const SheetFacts& facts) {
    SheetOutcome outcome;
    const auto displacement_cc = known_displacement_cc(facts);
    std::vector<std::string> pulls;
    std::vector<PullMeans> means;
    for (const std::string& number : pulls_of(facts.readings)) {
        pulls.push_back("pull " + number);
        means.push_back(work_out_pull(facts, number, displacement_cc, outcome));
    }
    work_out_mean_of_pulls(facts, pulls, means, displacement_cc, outcome);
    return outcome;
}

/// A factor beyond .90 to 1.09 is suspect whatever its standard.
std::vector<SheetLimit> usual_limits(const SheetFacts&) {
    std::vector<SheetLimit> limits;
    for (const char* factor : {"pull_correction_factor", "pull_factor_j607", "pull_factor_j1349",
                               "pull_factor_iso_1585", "pull_factor_din_70020"}) {
        limits.push_back(common_practice(factor, usual_factor_low, usual_factor_high));
    }
    return limits;
}

/// In the order of the sheet: the air, the factors, the rows, peaks and means.
std::vector<Quantity> quantities() {
    constexpr Origin follows = Origin::worked_out;
    const auto of_pull = [](const char* id, Form form, const char* unit) {
        return Quantity{id, form, Place::pull, unit, "", follows};
    };
    const auto of_row = [](const char* id, Form form, const char* unit) {
        return Quantity{id, form, Place::pull_speed, unit, "", follows};
    };
    return {
        {"pull_air_pressure", Form::pressure, Place::pull, "inHg"},
        {"pull_barometer_kind", Form::choice, Place::pull, "", "station sea_level"},
        {"pull_altitude", Form::altitude, Place::pull, "ft"},
        {"pull_dry_bulb", Form::temperature, Place::pull, "degF"},
        {"pull_humidity", Form::percent, Place::pull, "%"},
        {"pull_wet_bulb", Form::temperature, Place::pull, "degF"},
        of_pull("pull_station_pressure", Form::pressure, "inHg"),
        of_pull("pull_vapour_pressure", Form::pressure, "inHg"),
        of_pull("pull_dry_pressure", Form::pressure, "inHg"),
        of_pull("pull_air_density", Form::number, "kg/m3"),
        {"pull_correction", Form::choice, Place::pull, "", "none j607 j1349 iso_1585 din_70020"},
        {"pull_correction_factor", Form::ratio, Place::pull},
        of_pull("pull_factor_j607", Form::ratio, ""),
        of_pull("pull_factor_j1349", Form::ratio, ""),
        of_pull("pull_factor_iso_1585", Form::ratio, ""),
        of_pull("pull_factor_din_70020", Form::ratio, ""),
        {"pull_torque", Form::torque, Place::pull_speed, "lb-ft"},
        {"pull_power", Form::power, Place::pull_speed, "hp"},
        of_row("pull_torque_corrected", Form::torque, "lb-ft"),
        of_row("pull_power_corrected", Form::power, "hp"),
        of_row("pull_mean_pressure", Form::pressure, "psi"),
        of_pull("pull_peak_torque", Form::torque, "lb-ft"),
        of_pull("pull_peak_torque_corrected", Form::torque, "lb-ft"),
        of_pull("pull_peak_torque_speed", Form::speed, "rpm"),
        of_pull("pull_peak_power", Form::power, "hp"),
        of_pull("pull_peak_power_corrected", Form::power, "hp"),
        of_pull("pull_peak_power_speed", Form::speed, "rpm"),
        {"pull_band_low", Form::speed, Place::pull, "rpm"},
        {"pull_band_high", Form::speed, Place::pull, "rpm"},
        of_pull("pull_average_torque", Form::torque, "lb-ft"),
        of_pull("pull_average_torque_corrected", Form::torque, "lb-ft"),
        of_pull("pull_area_torque", Form::torque, "lb-ft"),
        of_pull("pull_average_power", Form::power, "hp"),
        of_pull("pull_average_power_corrected", Form::power, "hp"),
        of_pull("pull_area_power", Form::power, "hp"),
        of_pull("pull_score", Form::number, "lb-ft + hp for 1000 ci"),
        {"pulls_average_torque", Form::torque, Place::engine, "lb-ft", "", follows},
        {"pulls_average_power", Form::power, Place::engine, "hp", "", follows},
        {"pulls_score", Form::number, Place::engine, "lb-ft + hp for 1000 ci", "", follows},
        {"pull_method", Form::choice, Place::pull, "", "inertia step sweep"},
        {"pull_ignition_timing", Form::crank_angle, Place::pull, "btdc"},
        {"pull_jets", Form::words, Place::pull},
        {"pull_air_fuel_ratio", Form::ratio, Place::pull_cylinder},
        {"pull_exhaust_temperature", Form::temperature, Place::pull_cylinder, "degF"},
        {"pull_oil_temperature", Form::temperature, Place::pull, "degF"},
        {"pull_oil_pressure", Form::pressure, Place::pull_speed, "psi"},
        {"pull_water_temperature", Form::temperature, Place::pull, "degF"},
        {"pull_fuel_flow", Form::number, Place::pull_speed, "lb/h"},
        of_row("pull_specific_consumption", Form::number, "lb/hp-h"),
        of_row("pull_power_by_fuel", Form::power, "hp"),
        {"pull_change_made", Form::words, Place::pull},
    };
}

} // namespace

SheetKind dyno_pull_sheet() {
    return {"dyno_pull", quantities(), work_out, usual_limits};
}

} // namespace rodway
