#include "tests/twins/slow_train.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace rodway::twins {

std::optional<SlowPose> slow_pose(const Train& train, double adjuster_in_mm, double s_mm) {
    const Vec3 P = train.lifter.foot_K + (train.lifter.seat_height_mm + s_mm) * train.lifter.axis_K;
    const Vec3 r = train.rocker.ball_arm_K + adjuster_in_mm * train.adjuster.axis_K;
    const auto upper = [&](double turned) -> Vec3 {
        return train.rocker.pivot_K + Eigen::AngleAxisd(turned, train.rocker.axis_K) * r;
    };
    const auto gap = [&](double turned) {
        return (upper(turned) - P).norm() - train.rod.length_mm;
    };
    // The lifter pushes the rod against the ball: turn the rocker the way that lengthens the gap.
    const double way = gap(1e-6) > gap(-1e-6) ? 1.0 : -1.0;
    double low = -0.1 * way;
    double high = 0.0;
    while (gap(high) < 0.0 && std::abs(high) < 1.5) {
        high += way * 0.01;
    }
    if (gap(low) > 0.0 || gap(high) < 0.0) {
        return std::nullopt;
    }
    for (int halving = 0; halving < 200; ++halving) {
        const double middle = (low + high) / 2.0;
        (gap(middle) < 0.0 ? low : high) = middle;
    }
    return SlowPose{P, upper((low + high) / 2.0)};
}

double slow_clearance(const RoundTube& tube, const Vec3& lower_K, const Vec3& upper_K,
                      double rod_radius_mm) {
    constexpr int looks = 2000;
    const auto distance = [&](double fraction) {
        return signed_distance_to_wall(tube, lower_K + fraction * (upper_K - lower_K));
    };
    std::vector<double> values(looks + 1);
    for (int look = 0; look <= looks; ++look) {
        values[static_cast<std::size_t>(look)] = distance(static_cast<double>(look) / looks);
    }
    double least = *std::min_element(values.begin(), values.end());
    constexpr double golden = 0.6180339887498949;
    for (int look = 0; look <= looks; ++look) {
        const auto at = static_cast<std::size_t>(look);
        const bool dip = (look == 0 || values[at] <= values[at - 1]) &&
                         (look == looks || values[at] <= values[at + 1]);
        if (!dip || values[at] > least + 0.5) {
            continue;
        }
        double low = std::max(0, look - 1) / static_cast<double>(looks);
        double high = std::min(looks, look + 1) / static_cast<double>(looks);
        for (int step = 0; step < 80; ++step) {
            const double a = high - golden * (high - low);
            const double b = low + golden * (high - low);
            (distance(a) < distance(b) ? high : low) = distance(a) < distance(b) ? b : a;
        }
        least = std::min(least, distance((low + high) / 2.0));
    }
    return least - rod_radius_mm;
}

RandomTrain random_train(std::mt19937_64& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    const auto about = [&](const Vec3& middle, double spread) {
        return Vec3(middle + Vec3(between(-spread, spread), between(-spread, spread),
                                  between(-spread, spread)));
    };
    RandomTrain made;
    made.full_lift_mm = between(6.0, 12.0);
    Train& train = made.train;
    train.position = {1, ValveKind::intake, 1};
    train.lifter.axis_K = about(Vec3(0, 0, 1), 0.12).normalized();
    train.lifter.seat_height_mm = between(35.0, 50.0);
    train.lifter.foot_K = about(Vec3(0, -89.8, 104.0), 6.0);
    train.rocker.pivot_K = about(Vec3(6.0, -31.75, 374.65), 10.0);
    train.rocker.axis_K = about(Vec3(1, 0, 0), 0.15).normalized();
    const double arm = between(18.0, 28.0);
    train.rocker.ball_arm_K = about(Vec3(0, -arm, between(-6.0, 6.0)), 3.0);
    train.rocker.tip_arm_K = about(Vec3(0, 34.0, 17.5), 3.0);
    train.valve.axis_K = about(Vec3(0, -0.26, 0.97), 0.05).normalized();
    const Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
    const Vec3 rod = upper - train.lifter.lower_ball_K();
    train.rod.length_mm = rod.norm();
    train.rod.diameter_mm = between(7.0, 11.2);
    train.adjuster.axis_K = -about(rod.normalized(), 0.1).normalized();
    train.adjuster.can_go_in_mm = 8.0;
    train.adjuster.can_go_out_mm = 8.0;
    train.valve.lash_mm = between(0.2, 0.8);
    train.tube.bore.axis_K = about(rod.normalized(), 0.04).normalized();
    train.tube.bore.length_mm = between(20.0, 110.0);
    train.tube.bore.bore_radius_mm = train.rod.diameter_mm / 2.0 + between(0.3, 5.0);
    train.tube.bore.centre_K = about(train.lifter.lower_ball_K() + between(0.4, 0.65) * rod, 2.5);
    return made;
}

} // namespace rodway::twins
