#pragma once

#include <compare>

namespace rodway {

/// A mass. Held in grams; a pound is 453.59237 g exactly, an ounce its sixteenth (NIST SP 811,
/// App. B).
class Mass {
  public:
    constexpr Mass() = default;
    static constexpr Mass g(double value) { return Mass(value); }
    static constexpr Mass kg(double value) { return Mass(value * g_per_kg); }
    static constexpr Mass lb(double value) { return Mass(value * g_per_lb); }
    static constexpr Mass oz(double value) { return Mass(value * g_per_oz); }

    [[nodiscard]] constexpr double in_g() const { return g_; }
    [[nodiscard]] constexpr double in_kg() const { return g_ / g_per_kg; }
    [[nodiscard]] constexpr double in_lb() const { return g_ / g_per_lb; }
    [[nodiscard]] constexpr double in_oz() const { return g_ / g_per_oz; }

    constexpr Mass operator-() const { return Mass(-g_); }
    constexpr Mass operator+(Mass other) const { return Mass(g_ + other.g_); }
    constexpr Mass operator-(Mass other) const { return Mass(g_ - other.g_); }
    constexpr Mass operator*(double factor) const { return Mass(g_ * factor); }
    constexpr Mass operator/(double divisor) const { return Mass(g_ / divisor); }
    constexpr auto operator<=>(const Mass&) const = default;

    static constexpr double g_per_kg = 1000.0;
    static constexpr double g_per_lb = 453.59237;
    static constexpr double g_per_oz = g_per_lb / 16.0;

  private:
    explicit constexpr Mass(double value_g) : g_(value_g) {}
    double g_ = 0.0;
};

} // namespace rodway
