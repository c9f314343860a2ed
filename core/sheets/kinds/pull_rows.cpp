#include "core/sheets/kinds/pull_rows.h"

#include <algorithm>

#include "core/dyno/fuel_power.h"
#include "core/sheets/kinds/bounded_reading.h"
#include "core/sheets/kinds/work_out.h"

namespace rodway {
namespace {

constexpr std::size_t most_pointed_out_alone = 2;

double power_kW(double torque_Nm, double speed_rpm) {
    return power_of(Torque::Nm(torque_Nm), speed_rpm).in_kW();
}

/// A speed is written in whole revolutions.
Interval power_with_rounded_speed_kW(const ReadRow& row) {
    return {power_kW(row.torque_Nm.low, row.speed_rpm - 0.5),
            power_kW(row.torque_Nm.high, row.speed_rpm + 0.5)};
}

Pull pull_of(const std::vector<ReadRow>& rows, double Interval::*end) {
    Pull pull;
    for (const ReadRow& row : rows) {
        pull.rows.push_back({row.speed_rpm, Torque::Nm(row.torque_Nm.*end)});
    }
    return pull;
}

} // namespace

std::vector<ReadRow> rows_of(const TakenReadings& readings, const std::string& pull) {
    std::vector<ReadRow> rows;
    for (const std::string& speed :
         parts_read(readings, {"pull_torque", "pull_power"}, PlacePart::speed)) {
        ReadRow row;
        row.position = "pull " + pull + ' ' + speed + " rpm";
        row.speed_rpm = std::stod(speed);
        row.torque_read = readings.number("pull_torque", row.position);
        row.power_read = readings.number("pull_power", row.position);
        const double kW_per_Nm = power_kW(1.0, row.speed_rpm);
        if (row.torque_read) {
            row.torque_Nm = rounded_from_zero(*row.torque_read);
        } else if (row.power_read) {
            row.torque_Nm = rounded_from_zero(*row.power_read) / kW_per_Nm;
        } else {
            continue;
        }
        row.power_kW = row.torque_Nm * kW_per_Nm;
        rows.push_back(row);
    }
    std::sort(rows.begin(), rows.end(), [](const ReadRow& one, const ReadRow& other) {
        return one.speed_rpm < other.speed_rpm;
    });
    return rows;
}

Pull highest(const std::vector<ReadRow>& rows) {
    return pull_of(rows, &Interval::high);
}

Pull lowest(const std::vector<ReadRow>& rows) {
    return pull_of(rows, &Interval::low);
}

void point_out_powers(const std::vector<ReadRow>& rows, SheetOutcome& outcome) {
    std::vector<SheetFinding> found;
    for (const ReadRow& row : rows) {
        if (!row.torque_read || !row.power_read) {
            continue;
        }
        const Interval own = power_with_rounded_speed_kW(row);
        if (!overlap(*row.power_read, own)) {
            found.push_back({PointedOut::stated_differs,
                             "pull_power",
                             {row.position},
                             {row.power_read->middle(), own.low, own.high},
                             Dimension::power});
        }
    }
    if (found.size() <= most_pointed_out_alone) {
        outcome.findings.insert(outcome.findings.end(), found.begin(), found.end());
        return;
    }
    SheetFinding all = found.front();
    all.what = PointedOut::columns_contradict;
    all.numbers = {all.numbers[0], (all.numbers[1] + all.numbers[2]) / 2.0};
    for (std::size_t at = 1; at < found.size(); ++at) {
        all.positions.push_back(found[at].positions.front());
    }
    outcome.findings.push_back(std::move(all));
}

Interval mean_effective_pressure_kPa(const Interval& torque_Nm, const Interval& displacement_cc) {
    const auto kPa = [](double Nm, double cc) {
        return brake_mean_effective_pressure(Torque::Nm(Nm), Volume::cc(cc)).in_kPa();
    };
    return {kPa(torque_Nm.low, displacement_cc.high), kPa(torque_Nm.high, displacement_cc.low)};
}

Interval score(const Interval& torque_Nm, const Interval& power_kW,
               const Interval& displacement_cc) {
    const auto of = [](double Nm, double kW, double cc) {
        return torque_plus_power_per_1000_ci(Torque::Nm(Nm), Power::kW(kW), Volume::cc(cc));
    };
    return {of(torque_Nm.low, power_kW.low, displacement_cc.high),
            of(torque_Nm.high, power_kW.high, displacement_cc.low)};
}

void put_fuel(const TakenReadings& readings, const ReadRow* row, const std::string& position,
              SheetOutcome& outcome) {
    const auto flow_lb_per_h = readings.number("pull_fuel_flow", position);
    if (!flow_lb_per_h) {
        return;
    }
    const Bounded flow = bounded(*flow_lb_per_h * kg_per_h_per_lb_per_h);
    if (row != nullptr) {
        if (const auto found = specific_consumption_g_per_kWh(flow, bounded(row->power_kW))) {
            outcome.figures.push_back({"pull_specific_consumption", position,
                                       range_of(*found) / g_per_kWh_per_lb_per_hp_h});
        }
    }
    if (const auto consumption = readings.number("pull_specific_consumption", position)) {
        const auto found =
            power_from_fuel_kW(flow, bounded(*consumption * g_per_kWh_per_lb_per_hp_h));
        if (found) {
            outcome.figures.push_back({"pull_power_by_fuel", position, range_of(*found)});
        }
    }
}

} // namespace rodway
