#pragma once

#include <compare>

#include "core/units/length.h"

namespace rodway {

/// A force. Held in newtons; a pound-force is 4.4482216152605 N exactly (NIST SP 811, App. B). What
/// the trade calls "pounds on the seat", or "psi" of a spring's load, is pounds-force.
class Force {
  public:
    constexpr Force() = default;
    static constexpr Force N(double value) { return Force(value); }
    static constexpr Force lbf(double value) { return Force(value * N_per_lbf); }

    [[nodiscard]] constexpr double in_N() const { return N_; }
    [[nodiscard]] constexpr double in_lbf() const { return N_ / N_per_lbf; }

    constexpr Force operator-() const { return Force(-N_); }
    constexpr Force operator+(Force other) const { return Force(N_ + other.N_); }
    constexpr Force operator-(Force other) const { return Force(N_ - other.N_); }
    constexpr Force operator*(double factor) const { return Force(N_ * factor); }
    constexpr Force operator/(double divisor) const { return Force(N_ / divisor); }
    constexpr auto operator<=>(const Force&) const = default;

    static constexpr double N_per_lbf = 4.4482216152605;

  private:
    explicit constexpr Force(double value_N) : N_(value_N) {}
    double N_ = 0.0;
};

/// A spring's rate, from pounds-force per inch. Source: NIST SP 811, App. B.
constexpr double spring_rate_N_per_mm(double lbf_per_inch) {
    return lbf_per_inch * Force::N_per_lbf / Length::mm_per_inch;
}
/// A spring's rate, from newtons per millimetre.
constexpr double spring_rate_lbf_per_inch(double N_per_mm) {
    return N_per_mm * Length::mm_per_inch / Force::N_per_lbf;
}

} // namespace rodway
