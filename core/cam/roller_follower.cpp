#include "core/cam/roller_follower.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace rodway {
namespace {

constexpr double least_radius_mm = 1.0;
constexpr double greatest_radius_mm = 200.0;

double pressure_angle(double height_mm, const LobeMotion& motion) {
    return std::atan2(motion.velocity, height_mm);
}

double pitch_curvature(double height_mm, const LobeMotion& motion) {
    const double square = height_mm * height_mm;
    const double speed = motion.velocity * motion.velocity;
    return (square + 2.0 * speed - height_mm * motion.acceleration) / std::pow(square + speed, 1.5);
}

} // namespace

RollerContact roller_contact(double base_circle_radius_mm, double roller_radius_mm,
                             const LobeMotion& motion, CamAngle theta) {
    const Vec2 outward(std::sin(theta.in_rad()), std::cos(theta.in_rad()));
    const Vec2 along(std::cos(theta.in_rad()), -std::sin(theta.in_rad()));
    const double height = base_circle_radius_mm + roller_radius_mm + motion.lift;
    RollerContact contact;
    contact.pressure_angle_rad = pressure_angle(height, motion);
    contact.pitch_curvature_per_mm = pitch_curvature(height, motion);
    contact.centre_mm = height * outward;
    // The path runs along s'·outward + height·along; the lobe lies on the inner side of it.
    const Vec2 inward =
        (motion.velocity * along - height * outward) / std::hypot(height, motion.velocity);
    contact.profile_mm = contact.centre_mm + roller_radius_mm * inward;
    return contact;
}

Result<RollerSurvey> survey_roller(const Lobe& lobe, double base_circle_radius_mm,
                                   double roller_radius_mm) {
    for (const auto& [field, radius] : {std::pair{"base_circle_radius", base_circle_radius_mm},
                                        std::pair{"roller_radius", roller_radius_mm}}) {
        if (!(radius >= least_radius_mm && radius <= greatest_radius_mm)) {
            return Error{ErrorCode::out_of_range,
                         field,
                         std::to_string(radius),
                         {},
                         {},
                         Limits{least_radius_mm, greatest_radius_mm, "mm"}};
        }
    }
    const double heel = base_circle_radius_mm + roller_radius_mm;
    const auto angle = [&](const LobeMotion& motion) {
        return pressure_angle(heel + motion.lift, motion);
    };
    const auto curvature = [&](const LobeMotion& motion) {
        return pitch_curvature(heel + motion.lift, motion);
    };
    RollerSurvey survey;
    survey.roller_radius_mm = roller_radius_mm;
    const AtCamAngle opening =
        least_over_lobe(lobe, [&](const LobeMotion& motion) { return -angle(motion); });
    const AtCamAngle closing = least_over_lobe(lobe, angle);
    survey.opening_pressure_angle_rad = {std::max(0.0, -opening.value), opening.at};
    survey.closing_pressure_angle_rad = {std::max(0.0, -closing.value), closing.at};
    // On the heel the curvature is that of a circle, so the greatest is positive.
    const AtCamAngle tightest =
        least_over_lobe(lobe, [&](const LobeMotion& motion) { return -curvature(motion); });
    survey.least_pitch_radius_mm = {-1.0 / tightest.value, tightest.at};
    const AtCamAngle hollow = least_over_lobe(lobe, curvature);
    if (hollow.value < 0.0) {
        survey.least_hollow_radius_mm = {roller_radius_mm - 1.0 / hollow.value, hollow.at};
    }
    return survey;
}

} // namespace rodway
