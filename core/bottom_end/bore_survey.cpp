#include "core/bottom_end/bore_survey.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "core/units/within.h"

namespace rodway {
namespace {

using Readings = std::vector<DiameterReading>;

std::optional<Error> wrong_readings(const std::vector<BoreReading>& readings) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "bore", "0", "1", {}, {}};
    }
    for (std::size_t at = 0; at < readings.size(); ++at) {
        const int line = static_cast<int>(at) + 1;
        if (auto bad = outside("cylinder", readings[at].cylinder, {1.0, 99.0, {}}, line)) {
            return bad;
        }
        if (auto bad = wrong_diameter("bore", readings[at].reading, line)) {
            return bad;
        }
    }
    return std::nullopt;
}

std::optional<Interval> wider_above(const Readings& readings) {
    std::map<int, Readings> directions; // each by height, the uppermost first
    for (const DiameterReading& reading : readings) {
        directions[reading.around].push_back(reading);
    }
    Interval sum;
    int counted = 0;
    for (const auto& [around, down] : directions) {
        if (down.size() >= 2) {
            sum = sum + (down.front().diameter_mm - down.back().diameter_mm);
            ++counted;
        }
    }
    return counted > 0 ? std::optional(sum * (1.0 / counted)) : std::nullopt;
}

CylinderBore survey(int number, const Readings& readings, std::size_t places) {
    CylinderBore bore;
    bore.cylinder = number;
    bore.mean_mm = mean_diameter_mm(readings);
    const auto [least, greatest] =
        std::minmax_element(readings.begin(), readings.end(), [](const auto& a, const auto& b) {
            return a.diameter_mm.middle() < b.diameter_mm.middle();
        });
    bore.least_mm = least->diameter_mm;
    bore.greatest_mm = greatest->diameter_mm;
    bore.taper = taper_of(readings);
    bore.out_of_round = out_of_round_of(readings);
    bore.wider_above_mm = wider_above(readings);
    bore.missing = static_cast<int>(places - readings.size());
    return bore;
}

} // namespace

Result<std::vector<CylinderBore>> survey_bores(const std::vector<BoreReading>& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    std::map<int, Readings> cylinders;
    std::set<std::pair<int, int>> places;
    for (const BoreReading& each : readings) {
        cylinders[each.cylinder].push_back(each.reading);
        places.insert({each.reading.along, each.reading.around});
    }
    std::vector<CylinderBore> bores;
    bores.reserve(cylinders.size());
    for (const auto& [number, of_cylinder] : cylinders) {
        bores.push_back(survey(number, last_readings(of_cylinder), places.size()));
    }
    return bores;
}

} // namespace rodway
