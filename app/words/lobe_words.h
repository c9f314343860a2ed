#pragma once

#include <QString>

#include "app/work/lobe_report.h"

namespace rodway::words {

/// "from a lift table", or that it is made from card numbers.
[[nodiscard]] QString lobe_source(LobeSource source);
/// "45.2° before full lift"; cam degrees.
[[nodiscard]] QString about_full_lift(CamAngle from_full_lift);
/// 0.00012 in: what smoothing is judged by.
[[nodiscard]] QString fine_inches(double mm);
/// The same, with its sign.
[[nodiscard]] QString signed_fine_inches(double mm);

// By the cam's own degree, as cams are spoken of; from mm by powers of a radian.
/// "0.00703 in/deg".
[[nodiscard]] QString lobe_velocity(double mm_per_rad);
/// "-0.000212 in/deg²".
[[nodiscard]] QString lobe_acceleration(double mm_per_rad2);
/// "0.0000310 in/deg³".
[[nodiscard]] QString lobe_jerk(double mm_per_rad3);

/// How far the contact stays inside a flat face's edge, or that it runs on the edge.
[[nodiscard]] QString edge_margin(double margin_mm);
/// How tightly the lobe is curved under a flat face, or that it can't be ground.
[[nodiscard]] QString flat_face_curvature(const FlatFaceSurvey& survey);
/// The same under a roller, and where a grinding wheel must fit.
[[nodiscard]] QString roller_curvature(const RollerSurvey& survey);

/// How closely the curve follows its lift table, and where it doesn't.
[[nodiscard]] QString smoothing(const SmoothingReport& report);
/// What stands under a lobe's figures, by where they come from.
[[nodiscard]] QString lobe_caution(LobeSource source);

// The words of `--json`: never translated.
[[nodiscard]] QString token(LobeSource source);
[[nodiscard]] QString token(FollowerKind kind);

} // namespace rodway::words
