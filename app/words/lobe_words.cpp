#include "app/words/lobe_words.h"

#include <QCoreApplication>
#include <cmath>

#include "app/words/lengths.h"
#include "core/units/length.h"

namespace rodway::words {
namespace {

struct LobeWords {
    Q_DECLARE_TR_FUNCTIONS(LobeWords)
};

/// Rounded first, so that a hair below zero doesn't read -0.000.
QString digits(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double rounded = std::round(value * scale) / scale;
    return QString::number(rounded == 0.0 ? 0.0 : rounded, 'f', decimals);
}

QString shown_inches(double mm, int decimals) {
    return digits(Length::mm(mm).in_inches(), decimals);
}

QString radius_at(const AtCamAngle& radius) {
    return LobeWords::tr("%1 at %2").arg(inches(radius.value), about_full_lift(radius.at));
}

} // namespace

QString lobe_source(LobeSource source) {
    switch (source) {
        case LobeSource::table:
            return LobeWords::tr("from a lift table, smoothed");
        case LobeSource::card:
            return LobeWords::tr("ESTIMATED, made from card numbers");
        case LobeSource::law:
            return LobeWords::tr("from a law of motion");
    }
    return {};
}

QString about_full_lift(CamAngle from_full_lift) {
    const double tenths = std::round(from_full_lift.in_deg() * 10.0) / 10.0;
    if (tenths == 0.0) {
        return LobeWords::tr("full lift");
    }
    const QString size = crank_degrees(std::abs(tenths));
    return tenths < 0.0 ? LobeWords::tr("%1 before full lift").arg(size)
                        : LobeWords::tr("%1 after full lift").arg(size);
}

QString fine_inches(double mm) {
    return LobeWords::tr("%1 in").arg(shown_inches(mm, 5));
}

QString signed_fine_inches(double mm) {
    const QString number = shown_inches(mm, 5);
    return LobeWords::tr("%1 in").arg(number.startsWith('-') ? number : "+" + number);
}

QString lobe_velocity(double mm_per_rad) {
    return LobeWords::tr("%1 in/deg").arg(shown_inches(mm_per_rad * radians(1.0), 5));
}

QString lobe_acceleration(double mm_per_rad2) {
    return LobeWords::tr("%1 in/deg²")
        .arg(shown_inches(mm_per_rad2 * std::pow(radians(1.0), 2), 6));
}

QString lobe_jerk(double mm_per_rad3) {
    return LobeWords::tr("%1 in/deg³")
        .arg(shown_inches(mm_per_rad3 * std::pow(radians(1.0), 3), 7));
}

QString edge_margin(double margin_mm) {
    return margin_mm < 0.0 ? LobeWords::tr("RUNS ON THE EDGE of the face, by %1 beyond it")
                                 .arg(inches(-margin_mm))
                           : LobeWords::tr(
                                 "stays %1 inside the face's edge, if the contact is a "
                                 "line: the width of its patch comes off that")
                                 .arg(inches(margin_mm));
}

QString flat_face_curvature(const FlatFaceSurvey& survey) {
    return survey.undercut() ? LobeWords::tr(
                                   "UNDERCUT: no lobe gives a flat face this lift; the radius of "
                                   "curvature falls to %1")
                                   .arg(radius_at(survey.least_radius_mm))
                             : LobeWords::tr("least radius of curvature of the lobe %1")
                                   .arg(radius_at(survey.least_radius_mm));
}

QString roller_curvature(const RollerSurvey& survey) {
    const AtCamAngle least{survey.least_lobe_radius_mm(), survey.least_pitch_radius_mm.at};
    const QString lobe =
        survey.undercut()
            ? LobeWords::tr(
                  "UNDERCUT: no lobe gives this roller this lift; the radius of "
                  "curvature falls to %1")
                  .arg(radius_at(least))
            : LobeWords::tr("least radius of curvature of the lobe %1").arg(radius_at(least));
    return survey.least_hollow_radius_mm
               ? LobeWords::tr(
                     "%1; its flank is hollow, and can be ground by a wheel of no more "
                     "than %2 radius")
                     .arg(lobe, radius_at(*survey.least_hollow_radius_mm))
               : LobeWords::tr("%1; nowhere hollow").arg(lobe);
}

QString smoothing(const SmoothingReport& report) {
    return LobeWords::tr(
               "Rows off the curve by %1 (root mean square of %2), at most %3 in row %4, "
               "%5; what the table was taken to scatter by: %6.")
        .arg(fine_inches(report.residual_rms_mm))
        .arg(report.rows)
        .arg(signed_fine_inches(report.worst_residual_mm))
        .arg(report.worst_row)
        .arg(about_full_lift(report.worst_at), fine_inches(report.noise_mm));
}

QString lobe_caution(LobeSource source) {
    switch (source) {
        case LobeSource::table:
            return LobeWords::tr(
                "Velocity and what follows from it are good to a few per cent, peaks of "
                "acceleration to some 3 to 25 per cent, by how finely the lobe was measured; jerk "
                "is a guide only.");
        case LobeSource::card:
            return LobeWords::tr(
                "All but the peak is an ESTIMATE, the ramps above all: measure the lobe before "
                "anything is decided by these figures.");
        case LobeSource::law:
            return {};
    }
    return {};
}

QString token(LobeSource source) {
    switch (source) {
        case LobeSource::table:
            return "table";
        case LobeSource::card:
            return "card";
        case LobeSource::law:
            return "law";
    }
    return {};
}

QString token(FollowerKind kind) {
    return kind == FollowerKind::flat ? "flat" : "roller";
}

} // namespace rodway::words
