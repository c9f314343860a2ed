#pragma once

#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/units/angle.h"

namespace rodway {

/// The order in which the cylinders fire, and the crank angle at which each reaches its firing top
/// dead centre. Cylinder 1 is at 0.
class FiringOrder {
  public:
    /// Reads "18436572", "1-8-4-3-6-5-7-2", "1 8 4 3 6 5 7 2", also with LH or RH behind it. Every
    /// one of `cylinders` must stand there once. The hand says nothing of the order, and depends on
    /// the end that the engine is seen from: which way the crank turns is a field of its own.
    /// Errors: not_a_firing_order, cylinder_twice, cylinder_missing, cylinder_unknown.
    static Result<FiringOrder> parse(std::string_view text, int cylinders);

    [[nodiscard]] const std::vector<int>& cylinders() const { return cylinders_; }

    /// Firing top dead centre of a cylinder, for evenly spaced firing: 720° shared equally, counted
    /// from cylinder 1.
    [[nodiscard]] CrankAngle firing_angle(int cylinder) const;

  private:
    explicit FiringOrder(std::vector<int> cylinders) : cylinders_(std::move(cylinders)) {}
    std::vector<int> cylinders_;
};

} // namespace rodway
