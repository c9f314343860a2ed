#pragma once

#include <compare>

namespace rodway {

/// A volume. Held in cubic centimetres; a cubic inch is 16.387064 cc exactly, a US quart a quarter
/// of 231 cubic inches (NIST SP 811, App. B).
class Volume {
  public:
    constexpr Volume() = default;
    static constexpr Volume cc(double value) { return Volume(value); }
    static constexpr Volume litres(double value) { return Volume(value * cc_per_litre); }
    static constexpr Volume cubic_inches(double value) { return Volume(value * cc_per_cubic_inch); }
    static constexpr Volume us_quarts(double value) { return Volume(value * cc_per_us_quart); }

    [[nodiscard]] constexpr double in_cc() const { return cc_; }
    [[nodiscard]] constexpr double in_litres() const { return cc_ / cc_per_litre; }
    [[nodiscard]] constexpr double in_cubic_inches() const { return cc_ / cc_per_cubic_inch; }
    [[nodiscard]] constexpr double in_us_quarts() const { return cc_ / cc_per_us_quart; }

    constexpr Volume operator-() const { return Volume(-cc_); }
    constexpr Volume operator+(Volume other) const { return Volume(cc_ + other.cc_); }
    constexpr Volume operator-(Volume other) const { return Volume(cc_ - other.cc_); }
    constexpr Volume operator*(double factor) const { return Volume(cc_ * factor); }
    constexpr Volume operator/(double divisor) const { return Volume(cc_ / divisor); }
    constexpr auto operator<=>(const Volume&) const = default;

    static constexpr double cc_per_litre = 1000.0;
    static constexpr double cc_per_cubic_inch = 16.387064;
    static constexpr double cc_per_us_quart = 231.0 / 4.0 * cc_per_cubic_inch;

  private:
    explicit constexpr Volume(double value_cc) : cc_(value_cc) {}
    double cc_ = 0.0;
};

} // namespace rodway
