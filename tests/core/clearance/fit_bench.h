#pragma once

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "core/clearance/reading_fit.h"
#include "tests/core/demo_set_ups.h"
#include "tests/twins/slow_gap.h"
#include "tests/twins/slow_train.h"

namespace rodway {

constexpr double thou = 0.0254;

inline std::optional<RodInTube> closed(const twins::RandomTrain& random) {
    const auto closing = Linkage::close(random.train);
    if (!closing.linkage) {
        return std::nullopt;
    }
    return RodInTube{*closing.linkage, random.train.tube.bore, random.train.rod.diameter_mm / 2.0,
                     random.full_lift_mm, 1.0};
}

inline RodInTube demo_rod(const std::string& name, std::size_t train) {
    const Engine engine = demo_engine(name);
    return *rod_in_tube(engine, engine.trains[train])->rod;
}

inline RodPlace rod_at(const RodInTube& rod, double lift) {
    const auto pose = rod.linkage.at(lift);
    return {pose->lower_ball_K, pose->upper_ball_K, rod.rod_radius_mm};
}

/// An engine with its passage really at a pose, a round and sharp-edged one with a straight rod,
/// and gauges tried in it. Gaps are by the slow twins.
class FitBench {
  public:
    FitBench(const RodInTube& rod, const PassagePose& planted) : rod_(rod) {
        rod_.tube = twins::moved_by_its_ends(rod.tube, planted);
    }
    [[nodiscard]] double gap(double lift, BoreEnd end, std::optional<double> hours) const {
        return hours ? twins::round_gap(rod_.tube, rod_at(rod_, lift), end, *hours)
                     : twins::tightest_round_gap(rod_.tube, rod_at(rod_, lift), end);
    }
    /// A ladder of gauges, a step apart: the last that goes and the first that doesn't, the gap
    /// felt being `off` by gauge and hand.
    [[nodiscard]] GapAtLift felt(double lift, BoreEnd end, std::optional<double> hours,
                                 double off = 0.0, double step = thou) const {
        const double gap_felt = std::max(0.0, gap(lift, end, hours) + off);
        const double low = std::floor(gap_felt / step) * step;
        return {{}, lift, end, hours, low, low + step};
    }
    [[nodiscard]] std::optional<double> minimum() const {
        const auto found = certified_minimum(rod_);
        return found.minimum ? std::optional(found.minimum->clearance_mm) : std::nullopt;
    }

  private:
    RodInTube rod_;
};

inline void give_names(std::vector<GapAtLift>& readings) {
    for (std::size_t at = 0; at < readings.size(); ++at) {
        readings[at].name = std::to_string(at + 1);
    }
}

/// Four clock directions at both ends, on the heel and at full lift.
inline std::vector<GapAtLift> all_round(const FitBench& bench, const RodInTube& rod) {
    std::vector<GapAtLift> readings;
    for (const double lift : {0.0, rod.full_lift_mm}) {
        for (const BoreEnd end : {BoreEnd::top, BoreEnd::bottom}) {
            for (const double hours : {3.0, 6.0, 9.0, 12.0}) {
                readings.push_back(bench.felt(lift, end, hours));
            }
        }
    }
    give_names(readings);
    return readings;
}

/// How far a planted pose lies from one that was found, by the covariance of that.
inline double distance_in_u(const PassagePose& found, const PoseMatrix& covariance,
                            const PassagePose& planted) {
    const PoseVector off = as_vector(found) - as_vector(planted);
    return std::sqrt(off.dot(covariance.inverse() * off));
}
inline double distance_in_u(const FittedPose& fitted, const PassagePose& planted) {
    return distance_in_u(fitted.pose, fitted.covariance, planted);
}

} // namespace rodway
