#include "app/words/lengths.h"

#include <QCoreApplication>
#include <cmath>

namespace rodway::words {
namespace {

struct Lengths {
    Q_DECLARE_TR_FUNCTIONS(Lengths)
};

double to_inches(double mm) {
    return mm / 25.4;
}

/// Rounds first, so that a hair below zero doesn't read -0.000.
QString fixed(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double rounded = std::round(value * scale) / scale;
    return QString::number(rounded == 0.0 ? 0.0 : rounded, 'f', decimals);
}

} // namespace

QString inches(double mm) {
    return Lengths::tr("%1 in").arg(fixed(to_inches(mm), 3));
}

QString both_units(double mm) {
    return Lengths::tr("%1 in (%2 mm)").arg(fixed(to_inches(mm), 3), fixed(mm, 2));
}

QString size(double mm) {
    // A size is typed to a ten-thousandth at most: 0.3125, but 1.750.
    QString number = fixed(to_inches(mm), 4);
    if (number.endsWith('0')) {
        number.chop(1);
    }
    return Lengths::tr("%1 in").arg(number);
}

QString signed_inches(double mm) {
    const QString number = fixed(to_inches(mm), 3);
    return Lengths::tr("%1 in").arg(number.startsWith('-') ? number : "+" + number);
}

QString lift_table_unit(const std::string& unit) {
    const bool crank = unit.compare(0, 5, "crank") == 0;
    const bool inches = unit.size() > 2 && unit.compare(unit.size() - 2, 2, "in") == 0;
    return Lengths::tr("%1 and %2")
        .arg(crank ? Lengths::tr("crank degrees") : Lengths::tr("cam degrees"),
             inches ? Lengths::tr("inches") : Lengths::tr("millimetres"));
}

QString crank_degrees(double deg) {
    const double rounded = std::round(deg * 10.0) / 10.0;
    const bool whole = rounded == std::round(rounded);
    return Lengths::tr("%1\u00b0").arg(QString::number(rounded, 'f', whole ? 0 : 1));
}

} // namespace rodway::words
