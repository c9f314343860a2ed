#pragma once

#include <compare>

namespace rodway {

/// A length. Held in millimetres, so that an inch is 25.4 mm exactly (NIST SP 811, App. B).
class Length {
  public:
    constexpr Length() = default;
    static constexpr Length mm(double value) { return Length(value); }
    static constexpr Length inches(double value) { return Length(value * mm_per_inch); }
    /// Thousandths of an inch.
    static constexpr Length thou(double value) { return Length(value * mm_per_inch / 1000.0); }

    [[nodiscard]] constexpr double in_mm() const { return mm_; }
    [[nodiscard]] constexpr double in_inches() const { return mm_ / mm_per_inch; }
    [[nodiscard]] constexpr double in_thou() const { return 1000.0 * mm_ / mm_per_inch; }

    constexpr Length operator-() const { return Length(-mm_); }
    constexpr Length operator+(Length other) const { return Length(mm_ + other.mm_); }
    constexpr Length operator-(Length other) const { return Length(mm_ - other.mm_); }
    constexpr Length operator*(double factor) const { return Length(mm_ * factor); }
    constexpr Length operator/(double divisor) const { return Length(mm_ / divisor); }
    constexpr auto operator<=>(const Length&) const = default;

    static constexpr double mm_per_inch = 25.4;

  private:
    explicit constexpr Length(double value_mm) : mm_(value_mm) {}
    double mm_ = 0.0;
};

} // namespace rodway
