#pragma once

#include <cmath>

#include "core/units/angle.h"
#include "core/valvetrain/linkage.h"

namespace rodway {

/// A slider-crank or four-bar laid into space: the paper's plane with its x and y turned into the
/// bank frame by a fixed skew rotation and moved off its origin, so that nothing is axis-aligned.
/// An angle on paper counts from x towards y, which is right-handed about the shaft.
class Paper {
  public:
    Paper() { turn_ = Eigen::AngleAxisd(0.7, Vec3(1.0, 2.0, 3.0).normalized()).toRotationMatrix(); }
    [[nodiscard]] Vec3 point(double x, double y) const { return origin_ + direction(x, y); }
    [[nodiscard]] Vec3 direction(double x, double y) const { return turn_ * Vec3(0.0, x, y); }
    [[nodiscard]] Vec3 shaft() const { return turn_ * Vec3::UnitX(); }
    [[nodiscard]] double x_of(const Vec3& vector) const { return (turn_.transpose() * vector).y(); }
    [[nodiscard]] double y_of(const Vec3& vector) const { return (turn_.transpose() * vector).z(); }
    /// Angle on paper of a vector, degrees, -180 to 180.
    [[nodiscard]] double angle_deg(const Vec3& vector) const {
        return degrees(std::atan2(y_of(vector), x_of(vector)));
    }

  private:
    Eigen::Matrix3d turn_;
    Vec3 origin_{31.0, -17.0, 205.0};
};

/// What a plane mechanism needs: the rocker is the crank, the lifter the slider.
struct PlanarTrain {
    double pivot_x = 0.0, pivot_y = 0.0; ///< of the crank, paper, mm
    double crank_mm = 0.0;
    double rod_mm = 0.0;
    double crank_at_start_deg = 0.0;
    double slider_x = 0.0, slider_y = 0.0; ///< where the slider starts, paper, mm
    double slider_way_deg = 0.0;           ///< which way it moves, paper
};

inline Train train_of(const PlanarTrain& plane) {
    const Paper paper;
    const double start = radians(plane.crank_at_start_deg);
    const double way = radians(plane.slider_way_deg);
    Train train;
    train.lifter.foot_K = paper.point(plane.slider_x, plane.slider_y);
    train.lifter.axis_K = paper.direction(std::cos(way), std::sin(way));
    train.rocker.pivot_K = paper.point(plane.pivot_x, plane.pivot_y);
    train.rocker.axis_K = paper.shaft();
    train.rocker.ball_arm_K = plane.crank_mm * paper.direction(std::cos(start), std::sin(start));
    train.rocker.tip_arm_K = -train.rocker.ball_arm_K;
    train.rod.length_mm = plane.rod_mm;
    const Vec3 upper = train.rocker.pivot_K + train.rocker.ball_arm_K;
    train.adjuster.axis_K = (train.lifter.foot_K - upper).normalized();
    // Only rounding is left to the adjuster: the start closes by itself.
    train.adjuster.can_go_in_mm = 1e-6;
    train.adjuster.can_go_out_mm = 1e-6;
    return train;
}

/// Angle of the crank on paper at a pose, degrees.
inline double crank_deg(const PlanarTrain& plane, const Pose& pose) {
    return plane.crank_at_start_deg + degrees(std::atan2(pose.sin_turned, pose.cos_turned));
}

} // namespace rodway
