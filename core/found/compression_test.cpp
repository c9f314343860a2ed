#include "core/found/compression_test.h"

#include <algorithm>
#include <map>
#include <string>

namespace rodway {
namespace {

std::optional<Error> wrong_readings(const std::vector<CrankingPressure>& readings) {
    if (readings.empty()) {
        return Error{ErrorCode::too_few_rows, "cylinder", "0", "1", {}, {}};
    }
    const Limits pressures{1.0, 5000.0, "kPa"};
    std::map<int, int> seen;
    int line = 0;
    for (const CrankingPressure& reading : readings) {
        ++line;
        if (auto bad = first_outside(
                {{"dry", reading.dry_kPa, pressures, line},
                 {"wet", reading.wet_kPa.value_or(reading.dry_kPa), pressures, line}})) {
            return bad;
        }
        if (!seen.emplace(reading.cylinder, line).second) {
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

std::optional<Error> wrong_limits(const CompressionLimits& limits) {
    const Limits shares{0.0, 1.0, {}};
    return first_outside({{"limits/least_share", Interval::exactly(limits.least_share), shares},
                          {"limits/wet_gain", Interval::exactly(limits.wet_gain), shares}});
}

Interval share_of_highest(const std::vector<CrankingPressure>& readings, std::size_t at) {
    std::vector<Interval> others;
    for (std::size_t other = 0; other < readings.size(); ++other) {
        if (other != at) {
            others.push_back(readings[other].dry_kPa);
        }
    }
    return others.empty() ? Interval::exactly(1.0)
                          : *quotient(readings[at].dry_kPa, greatest_of(others));
}

WetFinding wet_finding(const std::optional<Interval>& gain, const CompressionLimits& limits) {
    if (!gain) {
        return WetFinding::not_tested;
    }
    switch (standing(*gain, {{}, limits.wet_gain, limits.source})) {
        case BandStanding::inside:
            return WetFinding::oil_is_no_help;
        case BandStanding::above:
            return WetFinding::oil_helps;
        default:
            return WetFinding::undecided;
    }
}

CylinderCompression judged(const std::vector<CrankingPressure>& readings, std::size_t at,
                           const CompressionLimits& limits) {
    CylinderCompression found;
    found.cylinder = readings[at].cylinder;
    found.share_of_highest = share_of_highest(readings, at);
    switch (standing(found.share_of_highest, {limits.least_share, {}, limits.source})) {
        case BandStanding::inside:
            found.standing = CompressionStanding::even;
            break;
        case BandStanding::below:
            found.standing = CompressionStanding::low;
            break;
        default:
            found.standing = CompressionStanding::undecided;
            break;
    }
    if (readings[at].wet_kPa) {
        found.wet_gain =
            *quotient(*readings[at].wet_kPa, readings[at].dry_kPa) - Interval::exactly(1.0);
    }
    found.wet = wet_finding(found.wet_gain, limits);
    return found;
}

const CylinderCompression* find(const CompressionTest& test, int cylinder) {
    const auto found =
        std::find_if(test.cylinders.begin(), test.cylinders.end(),
                     [&](const CylinderCompression& each) { return each.cylinder == cylinder; });
    return found == test.cylinders.end() ? nullptr : &*found;
}

bool may_be_gasket(const CylinderCompression& cylinder) {
    return cylinder.standing == CompressionStanding::low && cylinder.wet != WetFinding::oil_helps;
}

} // namespace

Result<CompressionTest> compression_test(const std::vector<CrankingPressure>& readings,
                                         const std::vector<std::pair<int, int>>& neighbours,
                                         const CompressionLimits& limits) {
    if (const auto bad = wrong_readings(readings)) {
        return *bad;
    }
    if (const auto bad = wrong_limits(limits)) {
        return *bad;
    }
    CompressionTest test;
    std::vector<Interval> all_kPa;
    for (std::size_t at = 0; at < readings.size(); ++at) {
        all_kPa.push_back(readings[at].dry_kPa);
        test.cylinders.push_back(judged(readings, at, limits));
    }
    test.highest_kPa = greatest_of(all_kPa);
    test.lowest_kPa = least_of(all_kPa);
    test.spread_kPa = spread_of(all_kPa);
    for (const auto& [one, other] : neighbours) {
        const CylinderCompression* first = find(test, one);
        const CylinderCompression* second = find(test, other);
        if (first == nullptr || second == nullptr) {
            return Error{ErrorCode::cylinder_unknown,
                         "neighbours",
                         std::to_string(first == nullptr ? one : other),
                         {},
                         {},
                         {}};
        }
        if (may_be_gasket(*first) && may_be_gasket(*second)) {
            test.low_neighbours.emplace_back(one, other);
        }
    }
    return test;
}

} // namespace rodway
