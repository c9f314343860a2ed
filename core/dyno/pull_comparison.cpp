#include "core/dyno/pull_comparison.h"

#include <algorithm>
#include <string>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

std::optional<Error> wrong_pull(const char* which, const Pull& pull) {
    const auto good = check_pull(pull);
    if (good) {
        return std::nullopt;
    }
    Error error = good.error();
    error.field = which + error.field;
    return error;
}

/// Every speed at which either pull has a row, within the band and at its ends.
std::vector<double> speeds_in(const SpeedBand& band, const Pull& first, const Pull& second) {
    std::vector<double> speeds{band.low_rpm, band.high_rpm};
    for (const Pull* pull : {&first, &second}) {
        for (const PullRow& row : pull->rows) {
            if (row.speed_rpm > band.low_rpm && row.speed_rpm < band.high_rpm) {
                speeds.push_back(row.speed_rpm);
            }
        }
    }
    std::sort(speeds.begin(), speeds.end());
    speeds.erase(std::unique(speeds.begin(), speeds.end()), speeds.end());
    return speeds;
}

/// The pull is good and the band within it.
ComparedAverages averages_of(const Pull& pull, const SpeedBand& band, double factor) {
    const BandAverages raw = *band_averages(pull, band);
    BandAverages corrected = raw;
    corrected.torque_by_area = raw.torque_by_area * factor;
    corrected.power_by_area = raw.power_by_area * factor;
    if (raw.rows > 0) {
        corrected.torque_of_rows = *raw.torque_of_rows * factor;
        corrected.power_of_rows = *raw.power_of_rows * factor;
    }
    return {raw, corrected};
}

} // namespace

Result<PullComparison> compare_pulls(const PullInAir& first, const PullInAir& second,
                                     PowerStandard standard) {
    if (const auto bad = wrong_pull("first/", first.pull)) {
        return *bad;
    }
    if (const auto bad = wrong_pull("second/", second.pull)) {
        return *bad;
    }
    const auto first_by = power_correction(standard, first.air);
    if (!first_by) {
        return first_by.error();
    }
    const auto second_by = power_correction(standard, second.air);
    if (!second_by) {
        return second_by.error();
    }
    const SpeedBand one = whole_band(first.pull);
    const SpeedBand other = whole_band(second.pull);
    PullComparison found;
    found.first_by = *first_by;
    found.second_by = *second_by;
    found.band = {std::max(one.low_rpm, other.low_rpm), std::min(one.high_rpm, other.high_rpm)};
    if (found.band.low_rpm >= found.band.high_rpm) {
        return Error{ErrorCode::out_of_range,
                     "band",
                     exact_text(other.low_rpm) + " " + exact_text(other.high_rpm),
                     {},
                     {},
                     Limits{one.low_rpm, one.high_rpm, "rpm"}};
    }
    for (const double speed_rpm : speeds_in(found.band, first.pull, second.pull)) {
        const Torque first_raw = torque_at(first.pull, speed_rpm);
        const Torque second_raw = torque_at(second.pull, speed_rpm);
        found.points.push_back({speed_rpm, first_raw, second_raw, first_raw * first_by->factor,
                                second_raw * second_by->factor});
    }
    found.first = averages_of(first.pull, found.band, first_by->factor);
    found.second = averages_of(second.pull, found.band, second_by->factor);
    found.raw_torque_gained = found.second.raw.torque_by_area - found.first.raw.torque_by_area;
    found.raw_power_gained = found.second.raw.power_by_area - found.first.raw.power_by_area;
    found.torque_gained =
        found.second.corrected.torque_by_area - found.first.corrected.torque_by_area;
    found.power_gained = found.second.corrected.power_by_area - found.first.corrected.power_by_area;
    found.air_turned_it = found.raw_power_gained.in_kW() * found.power_gained.in_kW() < 0.0;
    return found;
}

} // namespace rodway
