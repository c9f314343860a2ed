#include "core/engine/crank_slider.h"

#include <cmath>
#include <numbers>

#include "core/units/within.h"

namespace rodway {
namespace {

constexpr double least_stroke_mm = 10.0;
constexpr double greatest_stroke_mm = 1000.0;
constexpr double least_rod_strokes = 0.75;
constexpr double greatest_rod_mm = 3000.0;
constexpr double greatest_offset_rods = 0.2;

} // namespace

double rad_per_s(double rpm) {
    return rpm * 2.0 * std::numbers::pi / 60.0;
}

Result<CrankSlider> CrankSlider::make(double stroke_mm, double connecting_rod_mm,
                                      double pin_offset_mm) {
    if (const auto bad =
            outside("stroke", stroke_mm, {least_stroke_mm, greatest_stroke_mm, "mm"})) {
        return *bad;
    }
    if (const auto bad = outside("connecting_rod", connecting_rod_mm,
                                 {least_rod_strokes * stroke_mm, greatest_rod_mm, "mm"})) {
        return *bad;
    }
    const double most_offset_mm = greatest_offset_rods * connecting_rod_mm;
    if (const auto bad =
            outside("pin_offset", pin_offset_mm, {-most_offset_mm, most_offset_mm, "mm"})) {
        return *bad;
    }
    CrankSlider slider;
    slider.r_mm_ = stroke_mm / 2.0;
    slider.l_mm_ = connecting_rod_mm;
    slider.e_mm_ = pin_offset_mm;
    slider.top_rad_ = std::asin(pin_offset_mm / (slider.l_mm_ + slider.r_mm_));
    return slider;
}

double CrankSlider::turned_rad(CrankAngle after_top) const {
    return top_rad_ + radians(after_top.in_deg());
}

// l·sin φ = r·sin θ - e, differentiated twice by θ:
//   φ'  = r·cos θ / (l·cos φ),   φ'' = (l·sin φ·φ'² - r·sin θ) / (l·cos φ).
RodMotion CrankSlider::rod(CrankAngle after_top) const {
    const double theta = turned_rad(after_top);
    const double across_mm = r_mm_ * std::sin(theta) - e_mm_;                     // l·sin φ
    const double along_mm = std::sqrt((l_mm_ - across_mm) * (l_mm_ + across_mm)); // l·cos φ
    RodMotion motion;
    motion.angle_rad = std::atan2(across_mm, along_mm);
    motion.velocity_rad_per_rad = r_mm_ * std::cos(theta) / along_mm;
    motion.acceleration_rad_per_rad2 =
        (across_mm * motion.velocity_rad_per_rad * motion.velocity_rad_per_rad -
         r_mm_ * std::sin(theta)) /
        along_mm;
    return motion;
}

RodPointMotion CrankSlider::on_rod(CrankAngle after_top, double share) const {
    const double theta = turned_rad(after_top);
    const RodMotion turning = rod(after_top);
    const double turned = turning.velocity_rad_per_rad;
    const Vec2 throw_mm(r_mm_ * std::sin(theta), r_mm_ * std::cos(theta));
    const Vec2 throw_turned_mm(throw_mm.y(), -throw_mm.x()); // its derivative
    const double reach_mm = share * l_mm_;
    const Vec2 rod_mm(-reach_mm * std::sin(turning.angle_rad),
                      reach_mm * std::cos(turning.angle_rad));
    const Vec2 rod_turned_mm(-rod_mm.y(), rod_mm.x()); // its derivative by φ
    RodPointMotion point;
    point.place_mm = throw_mm + rod_mm;
    point.velocity_mm_per_rad = throw_turned_mm + turned * rod_turned_mm;
    point.acceleration_mm_per_rad2 =
        -throw_mm + turning.acceleration_rad_per_rad2 * rod_turned_mm - turned * turned * rod_mm;
    return point;
}

PistonMotion CrankSlider::piston(CrankAngle after_top) const {
    const RodPointMotion pin = on_rod(after_top, 1.0);
    return {top_height_mm() - pin.place_mm.y(), -pin.velocity_mm_per_rad.y(),
            -pin.acceleration_mm_per_rad2.y()};
}

CrankAngle CrankSlider::bottom() const {
    const double bottom_rad = std::numbers::pi + std::asin(e_mm_ / (l_mm_ - r_mm_));
    return CrankAngle::deg(degrees(bottom_rad - top_rad_));
}

// The acceleration changes sign once between the dead centres, so halving finds it to the last bit.
CrankAngle CrankSlider::acceleration_root(CrankAngle rising_from, CrankAngle to) const {
    double above = rising_from.in_deg();
    double below = to.in_deg();
    for (int halving = 0; halving < 60; ++halving) {
        const double middle = (above + below) / 2.0;
        const bool still_above = piston(CrankAngle::deg(middle)).acceleration_mm_per_rad2 > 0.0;
        (still_above ? above : below) = middle;
    }
    return CrankAngle::deg((above + below) / 2.0);
}

CrankAngle CrankSlider::fastest_going_down() const {
    return acceleration_root(CrankAngle::deg(0.0), bottom());
}

CrankAngle CrankSlider::fastest_going_up() const {
    return acceleration_root(CrankAngle::deg(360.0), bottom());
}

double CrankSlider::top_height_mm() const {
    return std::sqrt((l_mm_ + r_mm_) * (l_mm_ + r_mm_) - e_mm_ * e_mm_);
}

double CrankSlider::travel_mm() const {
    return top_height_mm() - std::sqrt((l_mm_ - r_mm_) * (l_mm_ - r_mm_) - e_mm_ * e_mm_);
}

double CrankSlider::mean_piston_speed_mm_per_s(double rpm) const {
    return 2.0 * travel_mm() * rpm / 60.0;
}

} // namespace rodway
