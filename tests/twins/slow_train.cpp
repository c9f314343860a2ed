#include "tests/twins/slow_train.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <vector>

#include "tests/twins/slow_distance.h"

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
    return SlowPose{P, upper((low + high) / 2.0), (low + high) / 2.0};
}

namespace {

using OfAngle = std::function<double(double)>;

/// Root of a function nearest to zero, by walking outwards in steps and halving.
std::optional<double> nearest_root(const OfAngle& value, double step, double reach) {
    double ahead = value(0.0);
    double behind = ahead;
    if (ahead == 0.0) {
        return 0.0;
    }
    for (double x = step; x <= reach; x += step) {
        for (const double side : {1.0, -1.0}) {
            double& last = side > 0.0 ? ahead : behind;
            const double now = value(side * x);
            if ((now > 0.0) != (last > 0.0)) {
                double low = side * (x - step);
                double high = side * x;
                const bool low_positive = last > 0.0;
                for (int halving = 0; halving < 100; ++halving) {
                    const double middle = (low + high) / 2.0;
                    ((value(middle) > 0.0) == low_positive ? low : high) = middle;
                }
                return (low + high) / 2.0;
            }
            last = now;
        }
    }
    return std::nullopt;
}

struct StudPlace {
    Vec3 pivot_K;
    Vec3 ball_arm_K;
    Vec3 tip_arm_K;
};

std::optional<StudPlace> slow_stud(const Train& train, double in_mm) {
    const Rocker& rocker = train.rocker;
    const Vec3 pivot = rocker.pivot_K + in_mm * train.adjuster.axis_K;
    const Vec3& v = train.valve.axis_K;
    const auto angle = nearest_root(
        [&](double turned) {
            const Vec3 tip = pivot + Eigen::AngleAxisd(turned, rocker.axis_K) * rocker.tip_arm_K;
            return v.dot(tip - rocker.pivot_K - rocker.tip_arm_K);
        },
        0.01, 0.6);
    if (!angle) {
        return std::nullopt;
    }
    const Eigen::AngleAxisd turn(*angle, rocker.axis_K);
    return StudPlace{pivot, turn * rocker.ball_arm_K, turn * rocker.tip_arm_K};
}

} // namespace

std::optional<double> slow_nut(const Train& train) {
    return nearest_root(
        [&](double in_mm) {
            const auto stud = slow_stud(train, in_mm);
            return stud ? (stud->pivot_K + stud->ball_arm_K - train.lifter.lower_ball_K()).norm() -
                              train.rod.length_mm
                        : std::numeric_limits<double>::quiet_NaN();
        },
        0.05, 8.0);
}

std::optional<double> slow_lash_after_turn(const Train& train, double in_mm) {
    const Vec3 lower = train.lifter.lower_ball_K();
    const bool nut = train.adjuster.kind == AdjusterKind::nut;
    const auto set = nut ? slow_nut(train)
                         : nearest_root(
                               [&](double x) {
                                   return (train.rocker.pivot_K + train.rocker.ball_arm_K +
                                           x * train.adjuster.axis_K - lower)
                                              .norm() -
                                          train.rod.length_mm;
                               },
                               0.05, 8.0);
    if (!set) {
        return std::nullopt;
    }
    const double in = *set + in_mm;
    StudPlace place{train.rocker.pivot_K, train.rocker.ball_arm_K, train.rocker.tip_arm_K};
    if (nut) {
        const auto stud = slow_stud(train, in);
        if (!stud) {
            return std::nullopt;
        }
        place = *stud;
    } else {
        place.ball_arm_K += in * train.adjuster.axis_K;
    }
    const auto laid = nearest_root(
        [&](double turned) {
            const Eigen::AngleAxisd turn(turned, train.rocker.axis_K);
            return (place.pivot_K + turn * place.ball_arm_K - lower).norm() - train.rod.length_mm;
        },
        0.001, 0.3);
    if (!laid) {
        return std::nullopt;
    }
    const Vec3 tip =
        place.pivot_K + Eigen::AngleAxisd(*laid, train.rocker.axis_K) * place.tip_arm_K;
    const Vec3 found = train.rocker.pivot_K + train.rocker.tip_arm_K;
    return train.valve.lash_mm + train.valve.axis_K.dot(tip - found);
}

double slow_clearance(const Bore& tube, const Vec3& lower_K, const Vec3& upper_K,
                      double rod_radius_mm) {
    constexpr int looks = 2000;
    const auto distance = [&](double fraction) {
        return slow_distance(tube, lower_K + fraction * (upper_K - lower_K));
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

RandomTrain skew_train(std::mt19937_64& random) {
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    RandomTrain made = random_train(random);
    for (Vec3* axis :
         {&made.train.rocker.axis_K, &made.train.lifter.axis_K, &made.train.adjuster.axis_K}) {
        const double x = between(-0.3, 0.3);
        const double y = between(-0.3, 0.3);
        *axis = (*axis + Vec3(x, y, between(-0.3, 0.3))).normalized();
    }
    made.train.rod.length_mm += between(-2.0, 2.0);
    return made;
}

} // namespace rodway::twins
