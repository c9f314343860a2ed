#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/dyno/power_correction.h"
#include "core/units/power.h"
#include "core/units/pressure.h"
#include "core/units/torque.h"
#include "core/units/volume.h"

namespace rodway {

/// Power of a torque at a speed, and the torque of a power: P = 2π·n·T. `speed_rpm` above 0. In
/// pounds-feet and horsepower it is T·n/5252.113 (33 000/2π), not 5252.
[[nodiscard]] Power power_of(Torque torque, double speed_rpm);
[[nodiscard]] Torque torque_of(Power power, double speed_rpm);

/// Of a four-stroke engine: 4π·T/V. Source: Heywood, Internal Combustion Engine Fundamentals,
/// eq. 2.20. `displacement` above 0.
[[nodiscard]] Pressure brake_mean_effective_pressure(Torque torque, Volume displacement);

/// One line of a dyno sheet.
struct PullRow {
    double speed_rpm = 0.0; ///< 1 to 30 000
    Torque torque;          ///< 0 to 20 000 N m
};
/// A pull: torque as the brake read it, by rising speed. Nothing corrected ever takes its place.
struct Pull {
    std::vector<PullRow> rows; ///< 1 to 100 000
};
/// Errors, `line` the row counted from 1: too_few_rows, order_wrong (speeds not rising),
/// not_a_number, out_of_range; "rows", "speed", "torque".
Result<Done> check_pull(const Pull& pull);

/// A band of speeds, ends included.
struct SpeedBand {
    double low_rpm = 0.0;
    double high_rpm = 0.0;
};
/// From the first row to the last.
[[nodiscard]] SpeedBand whole_band(const Pull& pull);

/// One row, worked out.
struct PullPoint {
    double speed_rpm = 0.0;
    Torque torque;
    Power power;
    std::optional<Pressure> bmep; ///< nothing without a displacement
};
/// What a pull shows: its rows, and the greatest torque and power among them (the first of
/// several). Between rows nothing is guessed.
struct PullFigures {
    std::vector<PullPoint> points;
    PullPoint peak_torque;
    PullPoint peak_power;
};
/// Errors: as `check_pull`; out_of_range ("displacement", 10 to 200 000 cc).
Result<PullFigures> pull_figures(const Pull& pull, std::optional<Volume> displacement = {});

/// Averages over a band. By area: under lines drawn straight from row to row, cut at the band's
/// ends, so that rows that stand closer together don't count for more. Of rows: the plain mean of
/// those in the band, as contests count it.
struct BandAverages {
    Torque torque_by_area;
    Power power_by_area;
    std::size_t rows = 0;                 ///< in the band
    std::optional<Torque> torque_of_rows; ///< nothing where no row is in the band
    std::optional<Power> power_of_rows;
};
/// The band must lie within the pull's own. Errors: as `check_pull`; not_a_number, out_of_range
/// ("band/low", "band/high", which must be above low).
Result<BandAverages> band_averages(const Pull& pull, const SpeedBand& band);

/// Torque plus power for a displacement, as contests score it: pounds-feet plus horsepower for each
/// 1000 cubic inches. The units are part of it. `displacement` above 0.
[[nodiscard]] double torque_plus_power_per_1000_ci(Torque torque, Power power, Volume displacement);

/// A pull raw, and corrected beside it.
struct CorrectedPull {
    PowerCorrection correction;
    PullFigures raw;
    PullFigures corrected;
};
/// Errors: as `pull_figures`; not_a_number, out_of_range ("factor", 0.5 to 2).
Result<CorrectedPull> corrected_pull(const Pull& pull, const PowerCorrection& correction,
                                     std::optional<Volume> displacement = {});

/// A pull with every torque multiplied.
[[nodiscard]] Pull multiplied(const Pull& pull, double factor);

/// Torque at a speed within the pull's band, on the straight line between its rows.
[[nodiscard]] Torque torque_at(const Pull& pull, double speed_rpm);

} // namespace rodway
