#include "core/dyno/pull.h"

#include <algorithm>
#include <functional>
#include <numbers>
#include <string>

#include "core/base/assert.h"
#include "core/engine/crank_slider.h"
#include "core/units/typed_text.h"
#include "core/units/within.h"

namespace rodway {
namespace {

constexpr std::size_t most_rows = 100000;
const Limits speed_limits{1.0, 30000.0, "rpm"};
const Limits torque_limits{0.0, 20000.0, "Nm"};
const Limits displacement_limits{10.0, 200000.0, "cc"};
constexpr double W_per_kW = 1000.0;

/// First row at or above a speed within the pull.
std::vector<PullRow>::const_iterator at_or_above(const Pull& pull, double speed_rpm) {
    return std::lower_bound(pull.rows.begin(), pull.rows.end(), speed_rpm,
                            [](const PullRow& row, double rpm) { return row.speed_rpm < rpm; });
}

/// Torque and power at a speed, each on the straight line between its rows.
PullPoint point_at(const Pull& pull, double speed_rpm) {
    const auto point = [](const PullRow& row) {
        return PullPoint{row.speed_rpm, row.torque, power_of(row.torque, row.speed_rpm), {}};
    };
    const auto above = at_or_above(pull, speed_rpm);
    RODWAY_ASSERT(above != pull.rows.end());
    if (above->speed_rpm == speed_rpm) {
        return point(*above);
    }
    RODWAY_ASSERT(above != pull.rows.begin());
    const PullPoint from = point(*(above - 1));
    const PullPoint to = point(*above);
    const double share = (speed_rpm - from.speed_rpm) / (to.speed_rpm - from.speed_rpm);
    return {speed_rpm,
            from.torque + (to.torque - from.torque) * share,
            from.power + (to.power - from.power) * share,
            {}};
}

/// The rows of a band, with its ends drawn between theirs.
std::vector<PullPoint> cut(const Pull& pull, const SpeedBand& band) {
    std::vector<PullPoint> points{point_at(pull, band.low_rpm)};
    for (const PullRow& row : pull.rows) {
        if (row.speed_rpm > band.low_rpm && row.speed_rpm < band.high_rpm) {
            points.push_back(point_at(pull, row.speed_rpm));
        }
    }
    points.push_back(point_at(pull, band.high_rpm));
    return points;
}

std::optional<Error> wrong_band(const Pull& pull, const SpeedBand& band) {
    const SpeedBand whole = whole_band(pull);
    if (auto bad = outside("band/low", band.low_rpm, {whole.low_rpm, whole.high_rpm, "rpm"})) {
        return bad;
    }
    const Limits above_low{band.low_rpm, whole.high_rpm, "rpm"};
    if (auto bad = outside("band/high", band.high_rpm, above_low)) {
        return bad;
    }
    if (band.high_rpm == band.low_rpm) {
        return Error{
            ErrorCode::out_of_range, "band/high", exact_text(band.high_rpm), {}, {}, above_low};
    }
    return std::nullopt;
}

} // namespace

Power power_of(Torque torque, double speed_rpm) {
    return Power::kW(torque.in_Nm() * rad_per_s(speed_rpm) / W_per_kW);
}

Torque torque_of(Power power, double speed_rpm) {
    return Torque::Nm(power.in_kW() * W_per_kW / rad_per_s(speed_rpm));
}

Pressure brake_mean_effective_pressure(Torque torque, Volume displacement) {
    // N m over litres is kPa.
    return Pressure::kPa(4.0 * std::numbers::pi * torque.in_Nm() / displacement.in_litres());
}

Result<Done> check_pull(const Pull& pull) {
    if (pull.rows.empty()) {
        return Error{ErrorCode::too_few_rows, "rows", "0", "1", {}, {}};
    }
    if (const auto bad = outside("rows", static_cast<double>(pull.rows.size()),
                                 {1.0, static_cast<double>(most_rows), {}})) {
        return *bad;
    }
    for (std::size_t at = 0; at < pull.rows.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (const auto bad = outside("speed", pull.rows[at].speed_rpm, speed_limits, line)) {
            return *bad;
        }
        if (const auto bad = outside("torque", pull.rows[at].torque.in_Nm(), torque_limits, line)) {
            return *bad;
        }
        if (at > 0 && pull.rows[at].speed_rpm <= pull.rows[at - 1].speed_rpm) {
            return Error{ErrorCode::order_wrong,
                         "speed",
                         exact_text(pull.rows[at].speed_rpm),
                         exact_text(pull.rows[at - 1].speed_rpm),
                         line,
                         {}};
        }
    }
    return Done{};
}

SpeedBand whole_band(const Pull& pull) {
    RODWAY_ASSERT(!pull.rows.empty());
    return {pull.rows.front().speed_rpm, pull.rows.back().speed_rpm};
}

Result<PullFigures> pull_figures(const Pull& pull, std::optional<Volume> displacement) {
    if (const auto good = check_pull(pull); !good) {
        return good.error();
    }
    if (displacement) {
        if (const auto bad = outside("displacement", displacement->in_cc(), displacement_limits)) {
            return *bad;
        }
    }
    PullFigures figures;
    for (const PullRow& row : pull.rows) {
        PullPoint point{row.speed_rpm, row.torque, power_of(row.torque, row.speed_rpm), {}};
        if (displacement) {
            point.bmep = brake_mean_effective_pressure(row.torque, *displacement);
        }
        figures.points.push_back(point);
    }
    const auto greatest = [&](auto figure) {
        return *std::max_element(figures.points.begin(), figures.points.end(),
                                 [&](const PullPoint& one, const PullPoint& other) {
                                     return std::invoke(figure, one) < std::invoke(figure, other);
                                 });
    };
    figures.peak_torque = greatest(&PullPoint::torque);
    figures.peak_power = greatest(&PullPoint::power);
    return figures;
}

Result<BandAverages> band_averages(const Pull& pull, const SpeedBand& band) {
    if (const auto good = check_pull(pull); !good) {
        return good.error();
    }
    if (const auto bad = wrong_band(pull, band)) {
        return *bad;
    }
    Torque torque_area; // times rpm
    Power power_area;
    const std::vector<PullPoint> points = cut(pull, band);
    for (std::size_t at = 1; at < points.size(); ++at) {
        const PullPoint& from = points[at - 1];
        const PullPoint& to = points[at];
        const double half_rpm = (to.speed_rpm - from.speed_rpm) / 2.0;
        torque_area = torque_area + (from.torque + to.torque) * half_rpm;
        power_area = power_area + (from.power + to.power) * half_rpm;
    }
    BandAverages averages;
    averages.torque_by_area = torque_area / (band.high_rpm - band.low_rpm);
    averages.power_by_area = power_area / (band.high_rpm - band.low_rpm);
    Torque torque_sum;
    Power power_sum;
    for (const PullRow& row : pull.rows) {
        if (row.speed_rpm >= band.low_rpm && row.speed_rpm <= band.high_rpm) {
            ++averages.rows;
            torque_sum = torque_sum + row.torque;
            power_sum = power_sum + power_of(row.torque, row.speed_rpm);
        }
    }
    if (averages.rows > 0) {
        averages.torque_of_rows = torque_sum / static_cast<double>(averages.rows);
        averages.power_of_rows = power_sum / static_cast<double>(averages.rows);
    }
    return averages;
}

double torque_plus_power_per_1000_ci(Torque torque, Power power, Volume displacement) {
    return 1000.0 * (torque.in_lbf_ft() + power.in_hp()) / displacement.in_cubic_inches();
}

Result<CorrectedPull> corrected_pull(const Pull& pull, const PowerCorrection& correction,
                                     std::optional<Volume> displacement) {
    if (const auto bad = outside("factor", correction.factor, {0.5, 2.0, {}})) {
        return *bad;
    }
    const auto raw = pull_figures(pull, displacement);
    if (!raw) {
        return raw.error();
    }
    const auto corrected = pull_figures(multiplied(pull, correction.factor), displacement);
    if (!corrected) {
        return corrected.error();
    }
    return CorrectedPull{correction, *raw, *corrected};
}

Pull multiplied(const Pull& pull, double factor) {
    Pull product = pull;
    for (PullRow& row : product.rows) {
        row.torque = row.torque * factor;
    }
    return product;
}

Torque torque_at(const Pull& pull, double speed_rpm) {
    return point_at(pull, speed_rpm).torque;
}

} // namespace rodway
