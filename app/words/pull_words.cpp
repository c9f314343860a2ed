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

} // namespace rodway::words
