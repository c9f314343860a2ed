#include "app/words/part_state_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/words/counted.h"
#include "app/words/hold_words.h"
#include "core/build/utc_time.h"

namespace rodway::words {
namespace {

struct PartStates {
    Q_DECLARE_TR_FUNCTIONS(PartStates)
};

QString text(const std::optional<std::string>& utf8) {
    return QString::fromStdString(utf8.value_or(std::string()));
}

/// "in 4 days", "today", "10 days ago".
QString how_far(const std::string& day, const std::string& today) {
    const auto days = days_between(today, day);
    if (!days) {
        return {};
    }
    const int count = static_cast<int>(*days < 0 ? -*days : *days);
    const QString far = counted(count, PartStates::tr("1 day"), PartStates::tr("%1 days"));
    return *days == 0  ? PartStates::tr("today")
           : *days > 0 ? PartStates::tr("in %1").arg(far)
                       : PartStates::tr("%1 ago").arg(far);
}

QString day_of_mark(const std::optional<std::string>& iso_day) {
    return iso_day ? day(*iso_day) : QString();
}

QString dated(const QString& what, const std::optional<std::string>& day) {
    return day ? PartStates::tr("%1 %2").arg(what, words::day(*day)) : what;
}

QString failed_day(const PartRecord& part) {
    return part.kept_until ? PartStates::tr("%1; kept until %2")
                                 .arg(text(part.failed), day_of_mark(part.kept_until))
                           : text(part.failed);
}

} // namespace

QString part_state(const PartRecord& part, const std::string& today) {
    const auto wait = part_wait(part, today);
    if (!wait) {
        return part.returned ? PartStates::tr("Given back") : PartStates::tr("Fitted");
    }
    switch (*wait) {
        case PartWait::not_listed:
        case PartWait::needed:
            return PartStates::tr("Needed");
        case PartWait::ordered:
            return PartStates::tr("Ordered");
        case PartWait::promised:
            return PartStates::tr("Promised");
        case PartWait::overdue:
            return PartStates::tr("Late");
        case PartWait::not_measured:
            return PartStates::tr("Received");
        case PartWait::not_fitted:
            return PartStates::tr("Measured");
        case PartWait::temporary:
            return PartStates::tr("Temporary");
        case PartWait::failed:
            return PartStates::tr("Failed");
    }
    return {};
}

QString part_day(const PartRecord& part, const std::string& today) {
    const auto wait = part_wait(part, today);
    if (!wait) {
        return part.returned ? dated(PartStates::tr("given back"), part.returned)
                             : dated(PartStates::tr("fitted"), part.fitted);
    }
    switch (*wait) {
        case PartWait::not_listed:
        case PartWait::needed:
            return part.needed ? dated(PartStates::tr("needed since"), part.needed)
                               : PartStates::tr("not ordered");
        case PartWait::ordered:
            return PartStates::tr("ordered %1, no day promised").arg(day_of_mark(part.ordered));
        case PartWait::promised:
        case PartWait::overdue:
            return PartStates::tr("promised %1, %2")
                .arg(day_of_mark(part.promised), how_far(*part.promised, today));
        case PartWait::not_measured:
            return PartStates::tr("received %1, not measured").arg(day_of_mark(part.received));
        case PartWait::not_fitted:
            return PartStates::tr("measured %1, not fitted").arg(day_of_mark(part.measured));
        case PartWait::temporary:
            return PartStates::tr("fitted %1, to be replaced").arg(day_of_mark(part.fitted));
        case PartWait::failed:
            return failed_day(part);
    }
    return {};
}

QString part_standing(const PartRecord& part, const std::string& today) {
    const QString state = part_state(part, today);
    const QString day = part_day(part, today);
    // "Ordered: ordered 20 November 2026" says it twice.
    return day.startsWith(state, Qt::CaseInsensitive) ? state.left(1) + day.mid(1)
                                                      : PartStates::tr("%1: %2").arg(state, day);
}

QString part_title(const PartRecord& part) {
    QStringList words(QString::fromStdString(part.item));
    if (part.count && *part.count > 1) {
        words << PartStates::tr("%1 pieces").arg(*part.count);
    }
    if (part.thread || part.length) {
        words << (part.thread && part.length
                      ? PartStates::tr("%1 x %2").arg(text(part.thread), text(part.length))
                      : text(part.thread ? part.thread : part.length));
    }
    if (part.size) {
        words << text(part.size);
    }
    return words.join(QStringLiteral(", "));
}

} // namespace rodway::words
