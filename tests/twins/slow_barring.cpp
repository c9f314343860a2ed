#include "tests/twins/slow_barring.h"

#include <algorithm>
#include <cmath>

#include "core/barring/open_valves.h"
#include "tests/twins/slow_train.h"

namespace rodway::twins {

std::vector<SampledValve> sample_cycle(const Engine& engine) {
    std::vector<SampledValve> valves(engine.trains.size());
    for (int sample = 0; sample < samples_in_cycle; ++sample) {
        const auto standing = valves_at(engine, CrankAngle::deg(sample * sample_deg));
        for (std::size_t at = 0; at < standing.size(); ++at) {
            valves[at].position = standing[at].position;
            valves[at].lobe_lift_mm.push_back(standing[at].lobe_lift_mm);
            valves[at].valve_lift_mm.push_back(standing[at].valve_lift_mm);
            valves[at].off_heel.push_back(!standing[at].on_heel);
            valves[at].open.push_back(standing[at].open);
        }
    }
    return valves;
}

Vec3 slow_on_pivot_K(const Train& train, double adjuster_in_mm, double lobe_lift_mm,
                     double spring_N) {
    const auto pose = slow_pose(train, adjuster_in_mm, lobe_lift_mm);
    const Vec3 n = train.rocker.axis_K;
    const auto across = [&](const Vec3& arm) { return Vec3(arm - arm.dot(n) * n); };
    const Vec3 arm = pose->upper_ball_K - train.rocker.pivot_K;
    const Vec3 at_rest = across(train.rocker.ball_arm_K + adjuster_in_mm * train.adjuster.axis_K);
    const double turned = std::atan2(n.dot(at_rest.cross(across(arm))), at_rest.dot(across(arm)));
    const Vec3 tip_arm = Eigen::AngleAxisd(turned, n) * train.rocker.tip_arm_K;
    const Vec3 spring = spring_N * train.valve.axis_K;
    const Vec3 rod = (pose->upper_ball_K - pose->lower_ball_K).normalized();
    const double rod_N = -n.dot(tip_arm.cross(spring)) / n.dot(arm.cross(rod));
    return spring + rod_N * rod;
}

std::size_t slow_fewest(const std::vector<CrankArc>& arcs) {
    std::vector<double> ends{0.0, 720.0};
    for (const CrankArc& arc : arcs) {
        ends.push_back(arc.from.in_deg());
        ends.push_back(arc.to().in_deg());
    }
    std::sort(ends.begin(), ends.end());
    std::vector<double> angles = ends;
    for (std::size_t at = 1; at < ends.size(); ++at) {
        angles.push_back((ends[at - 1] + ends[at]) / 2.0);
    }
    const std::size_t all = (std::size_t{1} << arcs.size()) - 1;
    std::vector<std::size_t> fewest(all + 1, arcs.size() + 1);
    fewest[0] = 0;
    for (std::size_t met = 0; met < all; ++met) {
        for (const double angle : angles) {
            std::size_t then = met;
            for (std::size_t arc = 0; arc < arcs.size(); ++arc) {
                if (arcs[arc].holds(CrankAngle::deg(angle))) {
                    then |= std::size_t{1} << arc;
                }
            }
            fewest[then] = std::min(fewest[then], fewest[met] + 1);
        }
    }
    return fewest[all];
}

} // namespace rodway::twins
