#include "core/clearance/next_reading.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double told_apart_u = 4.0; // 2 on either side
constexpr double least_apart_u = 0.5;

struct GaugeTry {
    GaugePlace at;
    FeltGap gap; ///< nothing felt yet
};

std::vector<GaugeTry> tries(const std::vector<RodAtPlace>& rods) {
    std::vector<GaugeTry> all;
    for (const RodAtPlace& rod : rods) {
        for (int hour = 1; hour <= 12; ++hour) {
            const double hours = hour;
            all.push_back({{rod.place, rod.end, hours}, {rod.rod, rod.end, hours, {}, {}}});
        }
    }
    return all;
}

double reading_variance(const Gauges& gauges) {
    return gauges.u_mm * gauges.u_mm + gauges.step_mm * gauges.step_mm / 12.0;
}

} // namespace

Result<Done> check_gauges(const Gauges& gauges) {
    if (auto error = outside("gauges/u", gauges.u_mm, {0.0001, 1.0, "mm"})) {
        return *error;
    }
    if (auto error = outside("gauges/step", gauges.step_mm, {0.0, 5.0, "mm"})) {
        return *error;
    }
    return Done{};
}

std::optional<DecidingReading> deciding_reading(const PoseSearch& search,
                                                const std::vector<Spread>& poses,
                                                const std::vector<RodAtPlace>& rods,
                                                const Gauges& gauges) {
    std::optional<DecidingReading> best;
    double best_score = 0.0;
    for (const GaugeTry& each : tries(rods)) {
        DecidingReading found;
        found.at = each.at;
        std::vector<double> variances;
        for (const Spread& pose : poses) {
            const auto gap = search.gap_slope(each.gap, pose.mean);
            found.expected_mm.push_back(std::max(0.0, gap.gap_mm));
            variances.push_back(gap.slope.dot(pose.covariance * gap.slope));
        }
        double score = 0.0;
        found.apart_u = std::numeric_limits<double>::infinity();
        for (std::size_t a = 0; a < poses.size(); ++a) {
            for (std::size_t b = a + 1; b < poses.size(); ++b) {
                const double apart =
                    std::abs(found.expected_mm[a] - found.expected_mm[b]) /
                    std::sqrt(variances[a] + variances[b] + reading_variance(gauges));
                found.apart_u = std::min(found.apart_u, apart);
                score += std::min(apart, 2.0 * told_apart_u); // more is no use: others count too
            }
        }
        // Between places that tell apart as many, the one with the clearest difference.
        score += 0.01 * std::min(found.apart_u, 100.0);
        if (poses.size() > 1 && score > best_score) {
            best_score = score;
            best = found;
        }
    }
    if (!best || best_score < least_apart_u) {
        return std::nullopt;
    }
    best->decides = best->apart_u >= told_apart_u;
    return best;
}

std::vector<HelpfulReading> helpful_readings(const PoseSearch& search, const Spread& pose,
                                             const DoubtByCovariance& doubt_mm,
                                             const std::vector<RodAtPlace>& rods,
                                             const Gauges& gauges) {
    std::vector<HelpfulReading> found;
    for (const GaugeTry& each : tries(rods)) {
        const auto gap = search.gap_slope(each.gap, pose.mean);
        if (gap.gap_mm < 0.0) {
            continue; // no gauge goes in there
        }
        // A normal reading of known variance.
        const PoseVector shared = pose.covariance * gap.slope;
        const PoseMatrix left =
            pose.covariance -
            shared * shared.transpose() / (gap.slope.dot(shared) + reading_variance(gauges));
        if (const auto after = doubt_mm(left)) {
            found.push_back({each.at, gap.gap_mm, *after});
        }
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const HelpfulReading& a, const HelpfulReading& b) {
                         return a.doubt_after_mm < b.doubt_after_mm;
                     });
    return found;
}

} // namespace rodway
