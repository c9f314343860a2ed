#pragma once

#include <compare>

namespace rodway {

/// A power. Held in kilowatts; a horsepower is 550 foot-pounds-force a second, a metric one (PS) 75
/// kilogram-force metres a second (NIST SP 811, App. B).
class Power {
  public:
    constexpr Power() = default;
    static constexpr Power kW(double value) { return Power(value); }
    static constexpr Power hp(double value) { return Power(value * kW_per_hp); }
    /// PS
    static constexpr Power metric_hp(double value) { return Power(value * kW_per_metric_hp); }

    [[nodiscard]] constexpr double in_kW() const { return kW_; }
    [[nodiscard]] constexpr double in_hp() const { return kW_ / kW_per_hp; }
    [[nodiscard]] constexpr double in_metric_hp() const { return kW_ / kW_per_metric_hp; }

    constexpr Power operator-() const { return Power(-kW_); }
    constexpr Power operator+(Power other) const { return Power(kW_ + other.kW_); }
    constexpr Power operator-(Power other) const { return Power(kW_ - other.kW_); }
    constexpr Power operator*(double factor) const { return Power(kW_ * factor); }
    constexpr Power operator/(double divisor) const { return Power(kW_ / divisor); }
    constexpr auto operator<=>(const Power&) const = default;

    static constexpr double kW_per_hp = 550.0 * 0.3048 * 4.4482216152605 / 1000.0;
    static constexpr double kW_per_metric_hp = 0.73549875;

  private:
    explicit constexpr Power(double value_kW) : kW_(value_kW) {}
    double kW_ = 0.0;
};

} // namespace rodway
