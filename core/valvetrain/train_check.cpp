#include "core/valvetrain/train_check.h"

#include <array>
#include <cmath>

#include "core/units/typed_text.h"

namespace rodway {
namespace {

constexpr double anywhere_mm = 2000.0;
constexpr double unit_length_tolerance = 1e-6;

struct NamedPoint {
    const char* field;
    const Vec3& point;
};
struct NamedLength {
    const char* field;
    double value;
    double low;
    double high;
};

std::array<NamedPoint, 4> places(const Train& train) {
    return {{{"lifter/foot", train.lifter.foot_K},
             {"rocker/pivot", train.rocker.pivot_K},
             {"rocker/ball_arm", train.rocker.ball_arm_K},
             {"rocker/tip_arm", train.rocker.tip_arm_K}}};
}

std::array<NamedPoint, 4> axes(const Train& train) {
    return {{{"lifter/axis", train.lifter.axis_K},
             {"rocker/axis", train.rocker.axis_K},
             {"adjuster/axis", train.adjuster.axis_K},
             {"valve/axis", train.valve.axis_K}}};
}

std::array<NamedLength, 7> lengths(const Train& train) {
    constexpr double most_travel = 50.0;
    return {{{"rod/length", train.rod.length_mm, 25.0, 1000.0},
             {"lifter/seat_height", train.lifter.seat_height_mm, 0.0, 150.0},
             {"lifter/preload", train.lifter.preload_mm, 0.0, most_travel},
             {"lifter/plunger_travel", train.lifter.plunger_travel_mm, 0.0, most_travel},
             {"valve/lash", train.valve.lash_mm, 0.0, 3.0},
             {"adjuster/thread_towards_rod", train.adjuster.can_go_in_mm, 0.0, most_travel},
             {"adjuster/thread_away_from_rod", train.adjuster.can_go_out_mm, 0.0, most_travel}}};
}

Error fault(ErrorCode code, const char* field, double value, Limits limits) {
    return {code, field, exact_text(value), {}, {}, limits};
}

bool is_unit(const Vec3& axis) {
    return std::abs(axis.norm() - 1.0) <= unit_length_tolerance;
}

/// From `axis` through the origin, square to it.
double across(const Vec3& vector, const Vec3& axis) {
    return (vector - vector.dot(axis) * axis).norm();
}

} // namespace

Result<Done> check_train(const Train& train) {
    for (const auto& [field, point] : places(train)) {
        for (const double coordinate : point) {
            if (!(std::abs(coordinate) <= anywhere_mm)) {
                return fault(ErrorCode::out_of_range, field, coordinate,
                             {-anywhere_mm, anywhere_mm, "mm"});
            }
        }
    }
    for (const auto& [field, axis] : axes(train)) {
        if (!is_unit(axis)) {
            return fault(ErrorCode::not_a_direction, field, axis.norm(), {1.0, 1.0, {}});
        }
    }
    for (const auto& [field, value, low, high] : lengths(train)) {
        if (!(value >= low && value <= high)) {
            return fault(ErrorCode::out_of_range, field, value, {low, high, "mm"});
        }
    }
    const Vec3& axis = train.rocker.axis_K;
    const std::array<NamedLength, 2> arms{
        {{"rocker/ball_arm", across(train.rocker.ball_arm_K, axis), 5.0, 300.0},
         {"lifter/foot", across(train.lifter.lower_ball_K() - train.rocker.pivot_K, axis), 5.0,
          1000.0}}};
    for (const auto& [field, value, low, high] : arms) {
        if (!(value >= low && value <= high)) {
            return fault(ErrorCode::out_of_range, field, value, {low, high, "mm"});
        }
    }
    return Done{};
}

bool can_be_worked_out(const Train& train) {
    for (const auto& [field, point] : places(train)) {
        if (!(point.cwiseAbs().maxCoeff() <= anywhere_mm) || !point.allFinite()) {
            return false;
        }
    }
    for (const auto& [field, axis] : axes(train)) {
        if (!axis.allFinite() || !is_unit(axis)) {
            return false;
        }
    }
    for (const auto& [field, value, low, high] : lengths(train)) {
        if (!(std::abs(value) <= anywhere_mm)) {
            return false;
        }
    }
    return train.rod.length_mm > 0.0;
}

} // namespace rodway
