#pragma once

#include <compare>

namespace rodway {

/// A pressure. Held in kilopascals. A pound-force per square inch is 4.4482216152605 N on the
/// square of 25.4 mm; an inch of mercury is the conventional one, 3.386389 kPa (NIST SP 811, App.
/// B).
class Pressure {
  public:
    constexpr Pressure() = default;
    static constexpr Pressure kPa(double value) { return Pressure(value); }
    static constexpr Pressure bar(double value) { return Pressure(value * kPa_per_bar); }
    static constexpr Pressure psi(double value) { return Pressure(value * kPa_per_psi); }
    static constexpr Pressure inHg(double value) { return Pressure(value * kPa_per_inHg); }

    [[nodiscard]] constexpr double in_kPa() const { return kPa_; }
    [[nodiscard]] constexpr double in_bar() const { return kPa_ / kPa_per_bar; }
    [[nodiscard]] constexpr double in_psi() const { return kPa_ / kPa_per_psi; }
    [[nodiscard]] constexpr double in_inHg() const { return kPa_ / kPa_per_inHg; }

    constexpr Pressure operator-() const { return Pressure(-kPa_); }
    constexpr Pressure operator+(Pressure other) const { return Pressure(kPa_ + other.kPa_); }
    constexpr Pressure operator-(Pressure other) const { return Pressure(kPa_ - other.kPa_); }
    constexpr Pressure operator*(double factor) const { return Pressure(kPa_ * factor); }
    constexpr Pressure operator/(double divisor) const { return Pressure(kPa_ / divisor); }
    constexpr auto operator<=>(const Pressure&) const = default;

    static constexpr double kPa_per_bar = 100.0;
    static constexpr double kPa_per_psi = 4.4482216152605 / (25.4 * 25.4) * 1000.0;
    static constexpr double kPa_per_inHg = 3.386389;

  private:
    explicit constexpr Pressure(double value_kPa) : kPa_(value_kPa) {}
    double kPa_ = 0.0;
};

} // namespace rodway
