#pragma once

#include <array>
#include <vector>

namespace rodway {

/// Value of a curve and its first three derivatives by its own argument.
using CurveValue = std::array<double, 4>;

/// A curve of quintic B-splines on evenly spaced knots, four times continuously differentiable,
/// and zero, with its first four derivatives, at both ends of its span and beyond.
/// Source of the basis: de Boor, A Practical Guide to Splines (from memory).
class QuinticSpline {
  public:
    /// The splines' pieces: coefficient j reaches from knot j to knot j + 6.
    static constexpr int pieces = 6;

    QuinticSpline() = default;
    QuinticSpline(double first_knot, double step, std::vector<double> coefficients);

    [[nodiscard]] CurveValue at(double x) const;
    [[nodiscard]] double first() const { return first_knot_; }
    [[nodiscard]] double last() const;
    [[nodiscard]] double step() const { return step_; }
    [[nodiscard]] const std::vector<double>& coefficients() const { return coefficients_; }

    /// Weights of coefficients k-5 … k on the values, and derivatives by knot steps, at fraction
    /// `u` (0 to 1) of the interval from knot k to knot k + 1.
    [[nodiscard]] static std::array<std::array<double, pieces>, 4> weights(double u);

  private:
    double first_knot_ = 0.0;
    double step_ = 1.0;
    std::vector<double> coefficients_;
};

} // namespace rodway
