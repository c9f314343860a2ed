#pragma once

#include <compare>
#include <numbers>

namespace rodway {

constexpr double radians(double degrees) {
    return degrees * std::numbers::pi / 180.0;
}
constexpr double degrees(double radians) {
    return radians * 180.0 / std::numbers::pi;
}

/// An angle of the camshaft. A cycle is 360 of these degrees.
class CamAngle {
  public:
    constexpr CamAngle() = default;
    static constexpr CamAngle deg(double value) { return CamAngle(value); }
    [[nodiscard]] constexpr double in_deg() const { return deg_; }
    [[nodiscard]] constexpr double in_rad() const { return radians(deg_); }
    constexpr CamAngle operator-() const { return CamAngle(-deg_); }
    constexpr CamAngle operator+(CamAngle other) const { return CamAngle(deg_ + other.deg_); }
    constexpr CamAngle operator-(CamAngle other) const { return CamAngle(deg_ - other.deg_); }
    constexpr auto operator<=>(const CamAngle&) const = default;

  private:
    explicit constexpr CamAngle(double value) : deg_(value) {}
    double deg_ = 0.0;
};

/// An angle of the crankshaft. 0 is cylinder 1 at top dead centre, firing; a cycle is 720 degrees.
class CrankAngle {
  public:
    constexpr CrankAngle() = default;
    static constexpr CrankAngle deg(double value) { return CrankAngle(value); }
    [[nodiscard]] constexpr double in_deg() const { return deg_; }
    constexpr CrankAngle operator-() const { return CrankAngle(-deg_); }
    constexpr CrankAngle operator+(CrankAngle other) const { return CrankAngle(deg_ + other.deg_); }
    constexpr CrankAngle operator-(CrankAngle other) const { return CrankAngle(deg_ - other.deg_); }
    constexpr auto operator<=>(const CrankAngle&) const = default;

    /// The same angle in [0, 720).
    [[nodiscard]] CrankAngle in_cycle() const;

  private:
    explicit constexpr CrankAngle(double value) : deg_(value) {}
    double deg_ = 0.0;
};

/// The cam of a four-stroke engine turns half as far as its crank. This is the only conversion.
constexpr CamAngle cam_angle(CrankAngle crank) {
    return CamAngle::deg(crank.in_deg() / 2.0);
}
constexpr CrankAngle crank_angle(CamAngle cam) {
    return CrankAngle::deg(cam.in_deg() * 2.0);
}

} // namespace rodway
