#pragma once

#include <compare>

namespace rodway {

/// A torque. Held in newton metres; a pound-foot is 0.3048 m times 4.4482216152605 N, a
/// kilogram-force metre 9.80665 N m, both exactly (NIST SP 811, App. B).
class Torque {
  public:
    constexpr Torque() = default;
    static constexpr Torque Nm(double value) { return Torque(value); }
    static constexpr Torque lbf_ft(double value) { return Torque(value * Nm_per_lbf_ft); }
    static constexpr Torque lbf_in(double value) { return Torque(value * Nm_per_lbf_in); }
    static constexpr Torque kgf_m(double value) { return Torque(value * Nm_per_kgf_m); }

    [[nodiscard]] constexpr double in_Nm() const { return Nm_; }
    [[nodiscard]] constexpr double in_lbf_ft() const { return Nm_ / Nm_per_lbf_ft; }
    [[nodiscard]] constexpr double in_lbf_in() const { return Nm_ / Nm_per_lbf_in; }
    [[nodiscard]] constexpr double in_kgf_m() const { return Nm_ / Nm_per_kgf_m; }

    constexpr Torque operator-() const { return Torque(-Nm_); }
    constexpr Torque operator+(Torque other) const { return Torque(Nm_ + other.Nm_); }
    constexpr Torque operator-(Torque other) const { return Torque(Nm_ - other.Nm_); }
    constexpr Torque operator*(double factor) const { return Torque(Nm_ * factor); }
    constexpr Torque operator/(double divisor) const { return Torque(Nm_ / divisor); }
    constexpr auto operator<=>(const Torque&) const = default;

    static constexpr double Nm_per_lbf_ft = 0.3048 * 4.4482216152605;
    static constexpr double Nm_per_lbf_in = Nm_per_lbf_ft / 12.0;
    static constexpr double Nm_per_kgf_m = 9.80665;

  private:
    explicit constexpr Torque(double value_Nm) : Nm_(value_Nm) {}
    double Nm_ = 0.0;
};

} // namespace rodway
