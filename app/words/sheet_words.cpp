#include "app/words/sheet_words.h"

#include <QCoreApplication>
#include <QFile>
#include <QJsonDocument>
#include <QJsonObject>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/words/gap_words.h"
#include "core/base/assert.h"
#include "core/sheets/rod_gap_position.h"
#include "core/sheets/sheet_kinds.h"

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

/// A limit in inches to a tenth of a thousandth: usual ones are worked out and have no last digit.
QString limit_amount(double value, const Quantity& quantity) {
    if (quantity.unit != "in") {
        return amount(value, quantity);
    }
    QString number = fixed(shown(Interval::exactly(value), quantity).value, 4);
    if (number.endsWith('0')) {
        number.chop(1);
    }
    return with_unit(number, QStringLiteral("in"));
}

QString positions_text(const SheetFinding& finding, const Quantity& quantity) {
    QStringList names;
    for (const std::string& position : finding.positions) {
        names << sheet_position(position, quantity.place);
    }
    return names.join(", ");
}

/// One of a finding's numbers that is of its second quantity.
QString of_other(const SheetFinding& finding, std::size_t which) {
    const Quantity* other = find_quantity(finding.other);
    return other == nullptr || which >= finding.numbers.size()
               ? QString(u'\u2013')
               : amount(finding.numbers[which], *other);
}

QString out_of_reach_text(const SheetFinding& finding, const QString& nearest, const QString& low,
                          const QString& high) {
    const QString text = Sheets::tr("%2 to %3 is wanted. %1 is the nearest that can be had.")
                             .arg(nearest, low, high);
    return finding.other.empty()
               ? text
               : Sheets::tr("%1 What stands in the way: %2.").arg(text, sheet_title(finding.other));
}

/// The standard that a pull's correction names.
QString standard_name(const std::string& word) {
    if (word == "j607") {
        return QStringLiteral("SAE J607");
    }
    if (word == "j1349") {
        return QStringLiteral("SAE J1349");
    }
    if (word == "iso_1585") {
        return QStringLiteral("ISO 1585");
    }
    if (word == "din_70020") {
        return QStringLiteral("DIN 70020");
    }
    return word == "none" ? Sheets::tr("no correction") : QString::fromStdString(word);
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

/// What a finding says after naming its quantity and positions.
QString finding_text(const SheetFinding& finding, const Quantity& quantity) {
    const auto number = [&](std::size_t which) {
        return which < finding.numbers.size() ? amount(finding.numbers[which], quantity)
                                              : QString(u'\u2013');
    };
    switch (finding.what) {
        case PointedOut::stated_differs:
            return Sheets::tr(
                       "%1 is written down, but the readings make it %2 to %3. Check the "
                       "sum, or measure again.")
                .arg(number(0), number(1), number(2));
        case PointedOut::misread_by_a_turn:
            return Sheets::tr(
                       "%1 where %2 was to be expected: that is off by %3, one turn or mark of "
                       "the micrometer. Measure it again.")
                .arg(number(0), number(1), number(2));
        case PointedOut::methods_differ:
            return Sheets::tr(
                       "One way of measuring says %1, the other %2 to %3. Both are kept; "
                       "find out which is right before assembly.")
                .arg(number(0), number(1), number(2));
        case PointedOut::odd_one_out:
            return Sheets::tr("%1 stands apart from the row, whose middle is %2. Measure it again.")
                .arg(number(0), number(1));
        case PointedOut::columns_contradict:
            return finding.numbers.size() > 2
                       ? Sheets::tr(
                             "%1 and %2 are given for the same thing. %3 goes with the rest.")
                             .arg(number(0), number(1), number(2))
                       : Sheets::tr("%1 and %2 are given for the same thing. One of them is wrong.")
                             .arg(number(0), number(1));
        case PointedOut::factor_not_of_standard:
            return Sheets::tr(
                       "%1 is written down for %2, which gives %3 in this weather. It is "
                       "not that standard's factor.")
                .arg(number(0), standard_name(finding.other), number(1));
        case PointedOut::factor_outside_standard:
            return Sheets::tr(
                       "%1 lies outside what %2 allows a correction for: the corrected "
                       "figures are not to be compared.")
                .arg(number(0), standard_name(finding.other));
        case PointedOut::bolts_missed:
            return Sheets::tr("Not done (%1). Go back to them before going on.")
                .arg(sheet_title(finding.other));
        case PointedOut::bolts_twice:
            return Sheets::tr("Written down twice (%1). Was it done twice?")
                .arg(sheet_title(finding.other));
        case PointedOut::torque_off_step:
            return Sheets::tr("%1, where the step is %2.").arg(number(0), number(1));
        case PointedOut::needs_reading:
            return Sheets::tr("Needs what isn't written down yet: %1.")
                .arg(sheet_title(finding.other));
        case PointedOut::stop_rule:
            if (finding.numbers.empty()) {
                return Sheets::tr(
                    "Stop the engine and find out why. The maker's instructions go before this "
                    "rule.");
            }
            return Sheets::tr(
                       "%1, where the rule is %2: stop the engine and find out why. The "
                       "maker's instructions go before this rule.")
                .arg(number(0), number(1));
        case PointedOut::out_of_range:
            return Sheets::tr(
                       "Can't be worked out with %1 for \"%2\": it should be from %3 to %4. Check "
                       "the number and its unit.")
                .arg(of_other(finding, 0), sheet_title(finding.other), of_other(finding, 1),
                     of_other(finding, 2));
        case PointedOut::too_small_beside:
            return Sheets::tr("%1, where \"%2\" is %3: it must not be the smaller. Check both.")
                .arg(number(0), sheet_title(finding.other), of_other(finding, 1));
        case PointedOut::likely_slip:
            return Sheets::tr(
                       "%1 may be a slip for %2: then the figure given for \"%3\" would be right. "
                       "Look it up where it was first written.")
                .arg(number(0), number(1), sheet_title(finding.other));
        case PointedOut::out_of_reach:
            return out_of_reach_text(finding, number(0), number(1), number(2));
        case PointedOut::least_at_end:
            return Sheets::tr(
                       "%1 is the least of the row and stands at its end. Take more readings "
                       "beyond it: the true least may be smaller.")
                .arg(number(0));
        case PointedOut::worse_than_before:
            return Sheets::tr("%1 before the work, %2 after it: the work has opened something.")
                .arg(number(0), number(1));
        case PointedOut::low_together:
            return Sheets::tr("Neighbours are low together: look at the gasket between them.");
        case PointedOut::cannot_be:
            return Sheets::tr("\u201c%1\u201d can't be so. Each cylinder must stand there once.")
                .arg(QString::fromStdString(finding.other));
        case PointedOut::differs_from_set_up:
            return Sheets::tr("The set-up says %1. Find out which is right.")
                .arg(QString::fromStdString(finding.other));
        case PointedOut::not_understood:
            return Sheets::tr(
                       "\u201c%1\u201d can't be used: it can't be read, or could mean two things. "
                       "Write it with its units.")
                .arg(QString::fromStdString(finding.other));
    }
    return {};
}

} // namespace

const SheetText& sheet_text(const std::string& kind) {
    static std::map<std::string, SheetText> texts;
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
    if (number.half_width <= 1e-12 * std::max(1.0, std::abs(number.value))) {
        return with_unit(short_number(number.value), number.unit);
    }
    // One digit of the doubt stands: ± 0.00005 shows five places, ± 0.002 three.
    const int decimals =
        std::clamp(static_cast<int>(std::ceil(-std::log10(number.half_width * 1.0001))), 0, 6);
    return Sheets::tr("%1 \u00b1 %2")
        .arg(with_unit(fixed(number.value, decimals), number.unit),
             fixed(number.half_width, decimals));
}

QString amount(double value, const Quantity& quantity) {
    const Shown number = shown(Interval::exactly(value), quantity);
    return with_unit(short_number(number.value), number.unit);
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
            .arg(limit_amount(*limit.low, quantity), limit_amount(*limit.high, quantity));
    }
    if (limit.low) {
        return Sheets::tr("%1 or more").arg(limit_amount(*limit.low, quantity));
    }
    return limit.high ? Sheets::tr("%1 or less").arg(limit_amount(*limit.high, quantity))
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

QString finding(const SheetFinding& finding, const Quantity& quantity, const OwnTitles& own) {
    const QString where = positions_text(finding, quantity);
    const QString title = sheet_title(quantity.id, own);
    const QString head = where.isEmpty() ? title : Sheets::tr("%1, %2").arg(title, where);
    return Sheets::tr("%1: %2").arg(head, finding_text(finding, quantity));
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

QString token(PointedOut what) {
    switch (what) {
        case PointedOut::stated_differs:
            return "stated_differs";
        case PointedOut::misread_by_a_turn:
            return "misread_by_a_turn";
        case PointedOut::methods_differ:
            return "methods_differ";
        case PointedOut::odd_one_out:
            return "odd_one_out";
        case PointedOut::columns_contradict:
            return "columns_contradict";
        case PointedOut::factor_not_of_standard:
            return "factor_not_of_standard";
        case PointedOut::factor_outside_standard:
            return "factor_outside_standard";
        case PointedOut::bolts_missed:
            return "bolts_missed";
        case PointedOut::bolts_twice:
            return "bolts_twice";
        case PointedOut::torque_off_step:
            return "torque_off_step";
        case PointedOut::needs_reading:
            return "needs_reading";
        case PointedOut::stop_rule:
            return "stop_rule";
        case PointedOut::out_of_range:
            return "out_of_range";
        case PointedOut::too_small_beside:
            return "too_small_beside";
        case PointedOut::likely_slip:
            return "likely_slip";
        case PointedOut::out_of_reach:
            return "out_of_reach";
        case PointedOut::least_at_end:
            return "least_at_end";
        case PointedOut::worse_than_before:
            return "worse_than_before";
        case PointedOut::low_together:
            return "low_together";
        case PointedOut::cannot_be:
            return "cannot_be";
        case PointedOut::differs_from_set_up:
            return "differs_from_set_up";
        case PointedOut::not_understood:
            return "not_understood";
    }
    return {};
}

} // namespace rodway::words
