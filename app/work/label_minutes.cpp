#include "app/work/label_minutes.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <algorithm>
#include <cmath>

#include "core/units/typed_amount.h"

namespace rodway {
namespace {

struct LabelMinutes {
    Q_DECLARE_TR_FUNCTIONS(LabelMinutes)
};

constexpr int minutes_in_hour = 60;
constexpr int minutes_in_day = 24 * 60;
constexpr const char* units = "min h days";

/// Days aren't among the units of a sheet's times; a label has them.
std::optional<double> days_in(const QString& part) {
    static const QRegularExpression form(
        QStringLiteral("^([0-9]+(?:[.,][0-9]+)?)\\s*(?:d|day|days)$"),
        QRegularExpression::CaseInsensitiveOption);
    const auto match = form.match(part);
    if (!match.hasMatch()) return std::nullopt;
    return match.captured(1).replace(',', '.').toDouble() * minutes_in_day;
}

Result<double> minutes_of(const QString& part) {
    if (const auto days = days_in(part)) return *days;
    // A label never leaves its unit out: a bare number could be minutes, hours or days.
    const bool bare = std::none_of(part.begin(), part.end(), [](QChar c) { return c.isLetter(); });
    const auto amount = parse_amount(part.toStdString(), Dimension::time, "min");
    if (!amount) return amount.error();
    if (bare || amount->low != amount->high || amount->firmness != Firmness::plain) {
        return Error{ErrorCode::not_an_amount, {}, part.toStdString(), units, {}, {}};
    }
    return amount->low / minutes_in_hour; // held in seconds
}

} // namespace

Result<int> parse_label_minutes(const std::string& text) {
    const QString typed = QString::fromStdString(text).simplified();
    if (typed.isEmpty()) return Error{ErrorCode::empty_text, {}, text, {}, {}, {}};
    // "1 h 30 min": each number begins a part.
    static const QRegularExpression gap(QStringLiteral("(?<=[A-Za-z])[ ,]*(?=[0-9])"));
    double minutes = 0.0;
    for (const QString& part : typed.split(gap)) {
        const auto found = minutes_of(part.trimmed());
        if (!found) return Error{ErrorCode::not_an_amount, {}, text, units, {}, {}};
        minutes += *found;
    }
    if (!(minutes >= 1.0 && minutes <= most_label_minutes)) {
        const Limits limits{1.0, static_cast<double>(most_label_minutes), "min"};
        return Error{ErrorCode::out_of_range, {}, text, {}, {}, limits};
    }
    if (std::abs(minutes - std::round(minutes)) > 1e-6) {
        return Error{ErrorCode::not_an_amount, {}, text, units, {}, {}};
    }
    return static_cast<int>(std::lround(minutes));
}

QString label_minutes_text(int minutes) {
    if (minutes % minutes_in_day == 0 && minutes >= 3 * minutes_in_day) {
        return LabelMinutes::tr("%1 days").arg(minutes / minutes_in_day);
    }
    const int hours = minutes / minutes_in_hour;
    const int rest = minutes % minutes_in_hour;
    if (rest == 0 && hours > 0) return LabelMinutes::tr("%1 h").arg(hours);
    if (hours < 2) return LabelMinutes::tr("%1 min").arg(minutes);
    return LabelMinutes::tr("%1 h %2 min").arg(hours).arg(rest);
}

} // namespace rodway
