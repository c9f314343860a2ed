#include "app/words/pull_words.h"

#include <QCoreApplication>
#include <cmath>

namespace rodway::words {
namespace {

struct Pulls {
    Q_DECLARE_TR_FUNCTIONS(Pulls)
};

QString tenths(double value, bool signed_number) {
    const double rounded = std::round(value * 10.0) / 10.0;
    const QString number = QString::number(rounded == 0.0 ? 0.0 : rounded, 'f', 1);
    return signed_number && rounded > 0.0 ? "+" + number : number;
}

} // namespace

QString standard_title(std::string_view name) {
    if (name == "j607") {
        return QStringLiteral("SAE J607");
    }
    if (name == "j1349") {
        return QStringLiteral("SAE J1349");
    }
    if (name == "iso_1585") {
        return QStringLiteral("ISO 1585");
    }
    if (name == "din_70020") {
        return QStringLiteral("DIN 70020");
    }
    if (name == "iso_1585_ci") {
        return Pulls::tr("ISO 1585, compression ignition");
    }
    return name == "none" ? Pulls::tr("no correction")
                          : QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString standard_title(PowerStandard standard) {
    return standard_title(standard_name(standard));
}

QString pull_torque(Torque torque) {
    return Pulls::tr("%1 lb-ft").arg(tenths(torque.in_lbf_ft(), false));
}

QString pull_power(Power power) {
    return Pulls::tr("%1 hp").arg(tenths(power.in_hp(), false));
}

QString pull_torque_gained(Torque torque) {
    return Pulls::tr("%1 lb-ft").arg(tenths(torque.in_lbf_ft(), true));
}

QString pull_power_gained(Power power) {
    return Pulls::tr("%1 hp").arg(tenths(power.in_hp(), true));
}

QString pull_peaks(const PullFigures& figures, double factor) {
    return Pulls::tr("%1 at %2 rpm, %3 at %4 rpm")
        .arg(pull_torque(figures.peak_torque.torque * factor))
        .arg(figures.peak_torque.speed_rpm)
        .arg(pull_power(figures.peak_power.power * factor))
        .arg(figures.peak_power.speed_rpm);
}

QStringList pull_read(const PullToKeep& pull) {
    const SpeedBand band = whole_band(pull.raw);
    QStringList understood;
    for (const PullColumn& column : pull.table.columns) {
        understood << QString::fromStdString(column.written);
    }
    QStringList lines{
        Pulls::tr("Pull %1: %2 rows, %3 to %4 rpm.")
            .arg(pull.number)
            .arg(pull.table.rows.size())
            .arg(band.low_rpm)
            .arg(band.high_rpm),
        Pulls::tr("As the brake read it: %1.").arg(pull_peaks(*pull_figures(pull.raw))),
        Pulls::tr("Columns understood: %1.").arg(understood.join(", "))};
    QStringList leftovers;
    for (const std::string& heading : pull.table.leftovers) {
        leftovers << QString::fromStdString(heading);
    }
    if (!leftovers.isEmpty()) {
        lines << Pulls::tr("Kept in the note of each row: %1.").arg(leftovers.join(", "));
    }
    for (const PowerContradiction& one : pull.table.contradictions) {
        lines << Pulls::tr("! Line %1: %2 is not torque times speed, which is %3.")
                     .arg(one.line)
                     .arg(pull_power(one.stated), pull_power(one.own));
    }
    return lines;
}

} // namespace rodway::words
