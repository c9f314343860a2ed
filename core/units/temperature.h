#pragma once

#include <compare>

namespace rodway {

/// A temperature, not a difference of two. Held in degrees Celsius; 0 degC is 273.15 K, and
/// t_F = 1.8 t_C + 32 (NIST SP 811, App. B).
class Temperature {
  public:
    constexpr Temperature() = default;
    static constexpr Temperature degC(double value) { return Temperature(value); }
    static constexpr Temperature degF(double value) {
        return Temperature((value - degF_at_freezing) / degF_per_degC);
    }
    static constexpr Temperature K(double value) { return Temperature(value - K_at_freezing); }

    [[nodiscard]] constexpr double in_degC() const { return degC_; }
    [[nodiscard]] constexpr double in_degF() const {
        return degC_ * degF_per_degC + degF_at_freezing;
    }
    [[nodiscard]] constexpr double in_K() const { return degC_ + K_at_freezing; }

    constexpr auto operator<=>(const Temperature&) const = default;

    static constexpr double degF_per_degC = 1.8;
    static constexpr double degF_at_freezing = 32.0;
    static constexpr double K_at_freezing = 273.15;

  private:
    explicit constexpr Temperature(double value_degC) : degC_(value_degC) {}
    double degC_ = 0.0;
};

} // namespace rodway
