#pragma once

#include <Eigen/Core>
#include <Eigen/Geometry>

namespace rodway {

/// A point or vector, millimetres (or a pure direction). A name's suffix says its frame:
/// `_E` block frame, `_K` frame of one bank.
using Vec3 = Eigen::Vector3d;
using Vec2 = Eigen::Vector2d;

/// Block frame E: right-handed; origin on the crank axis at the front face of the block; `x` from
/// front to rear; `z` up in the engine's plane of symmetry; `y = z × x`.
///
/// Bank frame K: E's origin and `x`; `z` along that bank's cylinders, away from the crank;
/// `y = z × x`. On a bank that leans to +y, +y is outboard; on one that leans to -y it is inboard.
class BankFrame {
  public:
    /// `lean_rad`: from E's `z` towards E's `+y`, -π to π.
    explicit BankFrame(double lean_rad);

    [[nodiscard]] Vec3 to_block(const Vec3& vector_K) const { return R_EK_ * vector_K; }
    [[nodiscard]] Vec3 from_block(const Vec3& vector_E) const {
        return R_EK_.transpose() * vector_E;
    }
    [[nodiscard]] const Eigen::Matrix3d& R_EK() const { return R_EK_; }

  private:
    Eigen::Matrix3d R_EK_;
};

} // namespace rodway
