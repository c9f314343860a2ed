#include "app/words/box_words.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/words/sheet_words.h"
#include "core/units/other_unit.h"

namespace rodway::words {
namespace {

struct Boxes {
    Q_DECLARE_TR_FUNCTIONS(Boxes)
};

QString unit_word(const MeasureUnit& unit) {
    QString id = QString::fromUtf8(unit.id.data(), static_cast<int>(unit.id.size()));
    id.replace('-', QChar(0x2011)); // a line doesn't end within "lb-ft"
    return id == "degF" || id == "degC" ? QChar(0x00b0) + id.right(1) : id;
}

QString in_unit(const ReadingValue& value, const MeasureUnit& unit) {
    const int digits = other_unit_digits(value.finest, unit);
    const auto number = [&](double held) {
        return QString::fromStdString(number_in_unit(held, unit, digits));
    };
    const QString range = value.low == value.high
                              ? number(value.low)
                              : Boxes::tr("%1 to %2").arg(number(value.low), number(value.high));
    return range + QChar(0x00a0) + unit_word(unit);
}

/// A row's number to the finest step of its readings, a mean with a digit more.
QString row_number(double held, const SheetRow& row, const Quantity& quantity, int more_digits) {
    const MeasureUnit* unit = find_unit(dimension_of(quantity.form), quantity.unit);
    double width = 0.0;
    for (const RowReading& one : row.readings) {
        const double here = one.value.width();
        width = here > 0.0 && (width == 0.0 || here < width) ? here : width;
    }
    if (unit == nullptr || width == 0.0) {
        return amount(held, quantity);
    }
    const double step = width / std::abs(unit->factor);
    const int digits = std::clamp(static_cast<int>(std::ceil(-std::log10(step * 1.0001))), 0, 6);
    const QString number =
        QString::fromStdString(number_in_unit(held, *unit, digits + more_digits));
    return number + QChar(0x00a0) + unit_word(*unit);
}

} // namespace

QString both_units(const ReadingValue& value, const Quantity& quantity) {
    const Dimension dimension = dimension_of(quantity.form);
    const MeasureUnit* own = find_unit(dimension, quantity.unit);
    const MeasureUnit* other = own != nullptr ? other_unit(dimension, quantity.unit) : nullptr;
    if (!value.is_number() || other == nullptr || value.finest <= 0.0) {
        return {};
    }
    return Boxes::tr("%1 = %2").arg(in_unit(value, *own), in_unit(value, *other));
}

QString bare_amount(const Interval& value, const Quantity& quantity) {
    return amount(value, quantity).section(QRegularExpression("[ \u00a0]"), 0, 0);
}

QString row_title(const std::string& name) {
    QString title = QString::fromStdString(name);
    static const QRegularExpression valves("^([IE])(\\d*)( |$)");
    const auto found = valves.match(title);
    if (found.hasMatch()) {
        QString kind = found.captured(1) == "I" ? Boxes::tr("Intake") : Boxes::tr("Exhaust");
        kind += found.captured(2).isEmpty() ? QString() : " " + found.captured(2);
        const QString rest = title.mid(found.capturedLength());
        return rest.isEmpty() ? kind : Boxes::tr("%1, %2").arg(kind, rest);
    }
    if (title.isEmpty()) {
        return Boxes::tr("All");
    }
    title[0] = title[0].toUpper();
    return title;
}

QString row_text(const SheetRow& row, const Quantity& quantity) {
    const RowStatistics& found = row.statistics;
    const auto at = [&](std::size_t which) {
        return sheet_position(row.readings[which].position, quantity.place);
    };
    const auto number = [&](double held, int more_digits = 0) {
        return row_number(held, row, quantity, more_digits);
    };
    // A spread is a difference: what the scale begins at stands in neither of its ends.
    const MeasureUnit* unit = find_unit(dimension_of(quantity.form), quantity.unit);
    const QString spread =
        number(found.spread.value_or(0.0) + (unit != nullptr ? unit->offset : 0.0));
    QString text = Boxes::tr("%1 read: least %2 (%3), most %4 (%5), spread %6, mean %7.")
                       .arg(found.count)
                       .arg(number(row.readings[found.least].value.middle()), at(found.least),
                            number(row.readings[found.greatest].value.middle()), at(found.greatest),
                            spread, number(found.mean, 1));
    QStringList odd;
    for (const OddReading& one : found.odd) {
        odd << at(one.index);
    }
    if (!odd.isEmpty()) {
        text += ' ' + Boxes::tr("Stands apart: %1.").arg(odd.join(", "));
    }
    return text;
}

QString progress(const AssessedSheet& sheet) {
    QStringList parts;
    if (sheet.boxes_filled > 0) {
        parts << (sheet.boxes_to_fill > 0
                      ? Boxes::tr("%1 of %2").arg(sheet.boxes_filled).arg(sheet.boxes_to_fill)
                      : Boxes::tr("begun"));
    }
    if (sheet.failed > 0) {
        parts << Boxes::tr("%n outside", "", sheet.failed);
    }
    if (sheet.too_close > 0) {
        parts << Boxes::tr("%n too close", "", sheet.too_close);
    }
    if (!sheet.findings.empty()) {
        parts << Boxes::tr("%n to see", "", static_cast<int>(sheet.findings.size()));
    }
    return parts.join(", ");
}

QString limit_record(const LimitRecord& record, const Quantity& quantity) {
    const auto read = read_limit(record, quantity);
    const QString range = read ? limit_range(*read, quantity)
                               : Boxes::tr("“%1” to “%2”, which can't be read")
                                     .arg(QString::fromStdString(record.low.value_or("")),
                                          QString::fromStdString(record.high.value_or("")));
    const QString where = record.position ? sheet_position(*record.position, quantity.place)
                                          : Boxes::tr("everywhere");
    return Boxes::tr("%1, %2, %3, %4 (%5)")
        .arg(range, record.serviceable ? Boxes::tr("used parts") : Boxes::tr("new parts"), where,
             record.build_id ? Boxes::tr("this build") : Boxes::tr("every build"),
             QString::fromStdString(record.source));
}

} // namespace rodway::words
