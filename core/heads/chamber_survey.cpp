#include "core/heads/chamber_survey.h"

#include <set>
#include <string>

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const std::vector<ChamberReading>& readings) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "chamber", "0", "1", {}, {}};
    }
    std::set<int> seen;
    int line = 0;
    for (const ChamberReading& reading : readings) {
        if (auto bad =
                first_outside({{"volume", reading.volume_cc, {1.0, 2000.0, "cc"}, ++line}})) {
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
    return std::nullopt;
}

std::vector<Interval> all_but(const std::vector<Interval>& values, std::size_t left_out) {
    std::vector<Interval> others;
    for (std::size_t at = 0; at < values.size(); ++at) {
        if (at != left_out) {
            others.push_back(values[at]);
        }
    }
    return others;
}

} // namespace

Result<ChamberSurvey> survey_chambers(const std::vector<ChamberReading>& readings) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    std::vector<Interval> volumes_cc;
    volumes_cc.reserve(readings.size());
    for (const ChamberReading& reading : readings) {
        volumes_cc.push_back(reading.volume_cc);
    }
    ChamberSurvey survey;
    survey.least_cc = least_of(volumes_cc);
    survey.greatest_cc = greatest_of(volumes_cc);
    survey.mean_cc = mean_of(volumes_cc);
    survey.spread_cc = spread_of(volumes_cc);
    const auto count = static_cast<double>(volumes_cc.size());
    for (std::size_t at = 0; at < readings.size(); ++at) {
        SurveyedChamber chamber{readings[at].cylinder, volumes_cc[at], Interval::exactly(0.0),
                                Interval::exactly(0.0)};
        // A chamber counts in the mean itself: v - (v + others)/n, so that it is written once.
        if (const auto others = all_but(volumes_cc, at); !others.empty()) {
            chamber.from_mean_cc = (volumes_cc[at] - mean_of(others)) * ((count - 1.0) / count);
            chamber.below_largest_cc = not_below_zero(greatest_of(others) - volumes_cc[at]);
        }
        survey.chambers.push_back(chamber);
    }
    return survey;
}

} // namespace rodway
