#include "app/words/sheet_words.h"

#include <QCoreApplication>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <mutex>

#include "app/words/gap_words.h"
#include "core/base/assert.h"
#include "core/sheets/rod_gap_position.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/other_unit.h"

namespace rodway::words {
namespace {

struct Sheets {
    Q_DECLARE_TR_FUNCTIONS(Sheets)
};

SheetText load_text(const std::string& kind) {
    QFile file(QStringLiteral(":/rodway/sheets/%1.json").arg(QString::fromStdString(kind)));
    RODWAY_ASSERT(file.open(QIODevice::ReadOnly));
    const QJsonObject root = QJsonDocument::fromJson(file.readAll()).object();
    SheetText text{root["title"].toString(), root["about"].toString(), {}};
    const QJsonObject quantities = root["quantities"].toObject();
    for (auto one = quantities.begin(); one != quantities.end(); ++one) {
        const QJsonObject words = one->toObject();
        text.quantities[one.key().toStdString()] = {
            words["title"].toString(), words["meaning"].toString(), words["measured"].toString()};
    }
    return text;
}

/// A number in the unit that a quantity is shown in.
struct Shown {
    double value = 0.0;
    double half_width = 0.0;
    QString unit;
};

Shown shown(const Interval& value, const Quantity& quantity) {
    const MeasureUnit* unit = find_unit(dimension_of(quantity.form), quantity.unit);
    if (unit == nullptr) {
        return {value.middle(), value.half_width(), QString::fromStdString(quantity.unit)};
    }
    const QString name =
        unit->from_dead_centre
            ? QString::fromUtf8(unit->id.data(), static_cast<int>(unit->id.size())).toUpper()
            : QString::fromStdString(quantity.unit);
    return {(value.middle() - unit->offset) / unit->factor,
            std::abs(value.half_width() / unit->factor), name};
}

QString with_unit(const QString& number, const QString& unit) {
    if (unit == "deg") {
        return number + QChar(0x00b0);
    }
    if (unit == "degF" || unit == "degC") {
        return number + QChar(0x00a0) + QChar(0x00b0) + unit.right(1);
    }
    return unit.isEmpty() ? number : number + QChar(0x00a0) + unit;
}

QString fixed(double value, int decimals) {
    const double scale = std::pow(10.0, decimals);
    const double rounded = std::round(value * scale) / scale;
    return QString::number(rounded == 0.0 ? 0.0 : rounded, 'f', decimals);
}

/// Without a doubt to go by: five significant digits, trailing zeros left out.
QString short_number(double value) {
    return QString::number(value, 'g', 5);
}

/// An inch to a tenth of a thousandth: what is worked out has no last digit.
QString exact_amount(double value, const Quantity& quantity) {
    const Shown there = shown(Interval::exactly(value), quantity);
    if (quantity.unit != "in") {
        return with_unit(short_number(there.value), there.unit);
    }
    QString number = fixed(there.value, 4);
    if (number.endsWith('0')) {
        number.chop(1);
    }
    return with_unit(number, QStringLiteral("in"));
}

/// "3I, rocker end, 3 o'clock, at full lift"; as kept if it isn't one.
QString gap_position(const std::string& position) {
    const auto gap = parse_rod_gap_position(position);
    if (!gap) {
        return QString::fromStdString(position);
    }
    GapReading reading;
    reading.end = gap->end;
    reading.place = gap->place;
    reading.crank = gap->crank;
    if (gap->clock_minutes) {
        reading.clock_hours = *gap->clock_minutes / 60.0;
    }
    const QString valve = QString::fromStdString(position_name(gap->valve));
    const QString where = gap_place(reading);
    return gap->passage == "tube"
               ? Sheets::tr("%1, %2").arg(valve, where)
               : Sheets::tr("%1, %2, %3").arg(valve, QString::fromStdString(gap->passage), where);
}

} // namespace

const SheetText& sheet_text(const std::string& kind) {
    // Asked for on several threads; what is in it stays where it is.
    static std::mutex filling;
    static std::map<std::string, SheetText> texts;
    const std::lock_guard<std::mutex> lock(filling);
    auto found = texts.find(kind);
    if (found == texts.end()) {
        found = texts.emplace(kind, load_text(kind)).first;
    }
    return found->second;
}

QString sheet_title(const std::string& id, const OwnTitles& own) {
    if (find_sheet_kind(id) != nullptr) {
        return sheet_text(id).title;
    }
    if (const SheetKind* kind = sheet_of_quantity(id)) {
        return sheet_text(kind->id).quantities.at(id).title;
    }
    const auto found = own.find(id);
    return QString::fromStdString(found == own.end() ? id : found->second);
}

QString place_heading(Place place) {
    switch (place) {
        case Place::engine:
            return Sheets::tr("Once");
        case Place::bank:
            return Sheets::tr("Each bank");
        case Place::spot:
            return Sheets::tr("Corners and spots");
        case Place::cylinder:
            return Sheets::tr("Each cylinder");
        case Place::bore:
            return Sheets::tr("Each bore, by height and direction");
        case Place::cylinder_side:
            return Sheets::tr("Each cylinder, by side");
        case Place::ring:
            return Sheets::tr("Each ring");
        case Place::rod_pin:
            return Sheets::tr("Each crank pin");
        case Place::valve:
            return Sheets::tr("Each valve");
        case Place::valve_tube:
            return Sheets::tr("Each tube, by depth and direction");
        case Place::valve_lift:
            return Sheets::tr("Each valve, at lifts");
        case Place::valve_angle:
            return Sheets::tr("Each valve, at crank angles");
        case Place::spring_height:
            return Sheets::tr("Each spring, at heights");
        case Place::rod_gap:
            return Sheets::tr("Gaps felt");
        case Place::lobe:
            return Sheets::tr("Each lobe");
        case Place::lobe_angle:
            return Sheets::tr("Each lobe, at crank angles");
        case Place::lobe_event:
            return Sheets::tr("Opening and closing");
        case Place::lobe_rise:
            return Sheets::tr("Each lobe, at lifter rises");
        case Place::card_lobe:
            return Sheets::tr("Cam card, by kind of lobe");
        case Place::card_height:
            return Sheets::tr("Cam card, at lifter rises");
        case Place::main_journal:
            return Sheets::tr("Each main journal");
        case Place::cam_journal:
            return Sheets::tr("Each cam journal");
        case Place::bolt:
            return Sheets::tr("Each bolt");
        case Place::bolt_pass:
            return Sheets::tr("Each bolt, pass by pass");
        case Place::hole:
            return Sheets::tr("Each hole");
        case Place::plug:
            return Sheets::tr("Each plug");
        case Place::series:
            return Sheets::tr("Day by day");
        case Place::pull:
            return Sheets::tr("Each pull");
        case Place::pull_speed:
            return Sheets::tr("Each pull, by speed");
        case Place::pull_cylinder:
            return Sheets::tr("Each pull, by cylinder");
        case Place::stop_side:
            return Sheets::tr("Against the stop");
        case Place::joint:
            return Sheets::tr("Each joint");
    }
    return {};
}

QString sheet_position(const std::string& position, Place place) {
    const QString kept = QString::fromStdString(position);
    switch (place) {
        case Place::engine:
            return Sheets::tr("Engine");
        case Place::bank:
            return position.empty() ? Sheets::tr("Engine") : kept;
        case Place::joint:
            return position.empty() ? Sheets::tr("Joint") : kept;
        case Place::cylinder:
        case Place::bore:
        case Place::cylinder_side:
        case Place::ring:
        case Place::rod_pin:
            return Sheets::tr("Cylinder %1").arg(kept);
        case Place::rod_gap:
            return gap_position(position);
        default:
            return kept;
    }
}

QString amount(const Interval& value, const Quantity& quantity) {
    const Shown number = shown(value, quantity);
    const bool counted = quantity.form == Form::count;
    if (counted || number.half_width <= 1e-12 * std::max(1.0, std::abs(number.value))) {
        return exact_amount(value.middle(), quantity);
    }
    // One digit of the doubt stands: ± 0.00005 shows five places, ± 0.002 three.
    const int decimals =
        std::clamp(static_cast<int>(std::ceil(-std::log10(number.half_width * 1.0001))), 0, 6);
    return Sheets::tr("%1 \u00b1 %2")
        .arg(with_unit(fixed(number.value, decimals), number.unit),
             fixed(number.half_width, decimals));
}

QString amount(double value, const Quantity& quantity) {
    return exact_amount(value, quantity);
}

QString in_other_unit(const ReadingValue& value, const Quantity& quantity) {
    const MeasureUnit* unit = other_unit(dimension_of(quantity.form), quantity.unit);
    if (unit == nullptr || !value.is_number() || value.finest <= 0.0) {
        return {};
    }
    const int digits = other_unit_digits(value.finest, *unit);
    const QString name =
        QString::fromUtf8(unit->id.data(), static_cast<qsizetype>(unit->id.size()));
    const QString low = QString::fromStdString(number_in_unit(value.low, *unit, digits));
    const QString high = QString::fromStdString(number_in_unit(value.high, *unit, digits));
    return with_unit(low == high ? low : Sheets::tr("%1 to %2").arg(low, high), name);
}

QString sheet_verdict(SheetVerdict verdict) {
    switch (verdict) {
        case SheetVerdict::no_limit:
            return Sheets::tr("No limit set");
        case SheetVerdict::no_number:
            return {};
        case SheetVerdict::passed:
            return Sheets::tr("Within the limit");
        case SheetVerdict::serviceable:
            return Sheets::tr("Worn, but serviceable");
        case SheetVerdict::too_close:
            return Sheets::tr("Too close to call");
        case SheetVerdict::failed:
            return Sheets::tr("Outside the limit");
    }
    return {};
}

CheckState check_state(SheetVerdict verdict) {
    switch (verdict) {
        case SheetVerdict::passed:
            return CheckState::passed;
        case SheetVerdict::serviceable:
            return CheckState::serviceable;
        case SheetVerdict::too_close:
            return CheckState::too_close;
        case SheetVerdict::failed:
            return CheckState::failed;
        default:
            return CheckState::not_yet;
    }
}

QString check_state_text(CheckState state) {
    for (const SheetVerdict verdict : {SheetVerdict::passed, SheetVerdict::serviceable,
                                       SheetVerdict::too_close, SheetVerdict::failed}) {
        if (check_state(verdict) == state) {
            return sheet_verdict(verdict);
        }
    }
    return {};
}

QString limit_range(const SheetLimit& limit, const Quantity& quantity) {
    if (limit.low && limit.high) {
        return Sheets::tr("%1 to %2")
            .arg(exact_amount(*limit.low, quantity), exact_amount(*limit.high, quantity));
    }
    if (limit.low) {
        return Sheets::tr("%1 or more").arg(exact_amount(*limit.low, quantity));
    }
    return limit.high ? Sheets::tr("%1 or less").arg(exact_amount(*limit.high, quantity))
                      : QString();
}

QString limit(const SheetLimit& limit, const Quantity& quantity) {
    const QString range = limit_range(limit, quantity);
    const QString source = limit.usual == UsualSource::common_practice
                               ? Sheets::tr("common practice; the maker's figure goes before it")
                               : QString::fromStdString(limit.source);
    return limit.holds_for == LimitFor::serviceable
               ? Sheets::tr("%1 for used parts (%2)").arg(range, source)
               : Sheets::tr("%1 (%2)").arg(range, source);
}

QString token(SheetVerdict verdict) {
    switch (verdict) {
        case SheetVerdict::no_limit:
            return "no_limit";
        case SheetVerdict::no_number:
            return "no_number";
        case SheetVerdict::passed:
            return "passed";
        case SheetVerdict::serviceable:
            return "serviceable";
        case SheetVerdict::too_close:
            return "too_close";
        case SheetVerdict::failed:
            return "failed";
    }
    return {};
}

} // namespace rodway::words
