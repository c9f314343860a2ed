#include "core/found/leakdown.h"

#include <set>
#include <string>

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const std::vector<CylinderLeak>& readings,
                                    const LeakdownBands& bands) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "cylinder", "0", "1", {}, {}};
    }
    const Limits percents{0.0, 100.0, "%"};
    std::set<int> seen;
    int line = 0;
    for (const CylinderLeak& reading : readings) {
        if (auto bad = first_outside({{"percent", reading.percent, percents, ++line}})) {
            return bad;
        }
        if (!seen.insert(reading.cylinder).second) {
            return Error{ErrorCode::duplicate_field,
                         "cylinder",
                         std::to_string(reading.cylinder),
                         {},
                         line,
                         {}};
        }
    }
    return first_outside({{"bands/fresh", Interval::exactly(bands.fresh_percent), percents},
                          {"bands/usable",
                           Interval::exactly(bands.usable_percent),
                           {bands.fresh_percent, percents.high, "%"}}});
}

LeakdownClass class_of(const Interval& percent, const LeakdownBands& bands) {
    const BandStanding fresh = standing(percent, {{}, bands.fresh_percent, bands.source});
    const BandStanding usable = standing(percent, {{}, bands.usable_percent, bands.source});
    if (fresh == BandStanding::inside) {
        return LeakdownClass::fresh;
    }
    if (usable == BandStanding::above) {
        return LeakdownClass::worn;
    }
    if (usable != BandStanding::inside) {
        return LeakdownClass::usable_or_worn;
    }
    return fresh == BandStanding::above ? LeakdownClass::usable : LeakdownClass::fresh_or_usable;
}

} // namespace

Result<Leakdown> leakdown(const std::vector<CylinderLeak>& readings, const LeakdownBands& bands) {
    if (const auto bad = wrong_readings(readings, bands)) {
        return *bad;
    }
    Leakdown found;
    std::vector<Interval> all;
    all.reserve(readings.size());
    for (const CylinderLeak& reading : readings) {
        all.push_back(reading.percent);
    }
    found.least_percent = least_of(all);
    found.greatest_percent = greatest_of(all);
    found.mean_percent = mean_of(all);
    found.spread_percent = spread_of(all);
    for (std::size_t at = 0; at < readings.size(); ++at) {
        std::vector<Interval> others;
        for (std::size_t other = 0; other < all.size(); ++other) {
            if (other != at) {
                others.push_back(all[other]);
            }
        }
        found.cylinders.push_back(
            {readings[at].cylinder, all[at], class_of(all[at], bands),
             others.empty() ? Interval::exactly(0.0) : all[at] - least_of(others)});
    }
    return found;
}

} // namespace rodway
