#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/dyno/pull.h"
#include "core/sheets/sheet_outcome.h"

namespace rodway {

/// One speed of a pull as it was read. Of torque and power one makes the other.
struct ReadRow {
    std::string position; ///< "pull 3 4500 rpm"
    double speed_rpm = 0.0;
    std::optional<Interval> torque_read; ///< N m
    std::optional<Interval> power_read;  ///< kW
    Interval torque_Nm;                  ///< as read, or of the power read
    Interval power_kW;                   ///< of that torque
};

/// The rows of a pull ("3") that have a torque or a power, by rising speed.
[[nodiscard]] std::vector<ReadRow> rows_of(const TakenReadings& readings, const std::string& pull);

/// The pull as high as its readings leave open, or as low; no torque below 0.
[[nodiscard]] Pull highest(const std::vector<ReadRow>& rows);
[[nodiscard]] Pull lowest(const std::vector<ReadRow>& rows);

/// Points out powers that aren't torque times speed, however the three were rounded: each by
/// itself, or, where more than two differ, all in one (two corrections, or two units).
void point_out_powers(const std::vector<ReadRow>& rows, SheetOutcome& outcome);

/// Of a four-stroke engine, kPa.
[[nodiscard]] Interval mean_effective_pressure_kPa(const Interval& torque_Nm,
                                                   const Interval& displacement_cc);

/// As `torque_plus_power_per_1000_ci`.
[[nodiscard]] Interval score(const Interval& torque_Nm, const Interval& power_kW,
                             const Interval& displacement_cc);

/// What follows from fuel at one row: consumption and, from a written consumption, power.
void put_fuel(const TakenReadings& readings, const ReadRow* row, const std::string& position,
              SheetOutcome& outcome);

} // namespace rodway
