#include "app/words/hold_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include "app/words/part_words.h"
#include "app/words/place_words.h"
#include "app/words/set_up_words.h"
#include "core/sheets/sheet_kinds.h"
#include "core/units/length.h"

namespace rodway::words {
namespace {

struct HoldWords {
    Q_DECLARE_TR_FUNCTIONS(HoldWords)
};

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString shown(const std::optional<std::string>& value) {
    return value ? text(*value) : HoldWords::tr("nothing");
}

QDateTime local(const std::string& utc) {
    return QDateTime::fromString(text(utc), Qt::ISODate).toLocalTime();
}

/// "3I, 5E": each place readable by itself; many of them in few words.
QString places(const Hold& hold) {
    if (const QString many = many_places(hold.positions); !many.isEmpty()) {
        return many;
    }
    const Quantity* quantity = hold.quantity.empty() ? nullptr : find_quantity(hold.quantity);
    QStringList all;
    for (const std::string& position : hold.positions) {
        const bool whole = position.empty();
        all << (quantity != nullptr ? sheet_position(position, quantity->place)
                : whole             ? HoldWords::tr("engine")
                                    : text(position));
    }
    return all.join(QStringLiteral(", "));
}

QString with_places(const QString& what, const Hold& hold) {
    const QString where = places(hold);
    return where.isEmpty() ? what : HoldWords::tr("%1, %2").arg(what, where);
}

/// What is checked: "Pushrod clearance", of a sheet its line.
QString check(const Hold& hold, const OwnTitles& own) {
    if (hold.subject == clearance_check) {
        return HoldWords::tr("Clearance worked out from the set-up");
    }
    return sheet_title(hold.quantity.empty() ? hold.subject : hold.quantity, own);
}

/// Numbers in mm, as checks have them, behind their inches.
QString in_both_units(const std::string& value) {
    static const QString unit = QStringLiteral(" mm");
    const QString said = text(value);
    if (!said.endsWith(unit)) {
        return said;
    }
    const QString bare = said.chopped(unit.size());
    const bool at_least = bare.startsWith(QStringLiteral(">= "));
    const bool at_most = bare.startsWith(QStringLiteral("<= "));
    const QString figures = bare.mid(at_least || at_most ? 3 : 0);
    QStringList numbers = figures.split(QStringLiteral(".."));
    for (QString& number : numbers) {
        bool is_number = false;
        const double mm = number.toDouble(&is_number);
        if (!is_number) {
            return said;
        }
        number = QString::number(Length::mm(mm).in_inches(), 'f', 4);
    }
    const QString both =
        HoldWords::tr("%1 in (%2 mm)").arg(numbers.join(QStringLiteral("..")), figures);
    return at_least  ? HoldWords::tr("at least %1").arg(both)
           : at_most ? HoldWords::tr("at most %1").arg(both)
                     : both;
}

QString judged(const Hold& hold) {
    if (hold.value.empty()) {
        return {};
    }
    return hold.limit.empty() ? HoldWords::tr(": %1").arg(in_both_units(hold.value))
                              : HoldWords::tr(": %1, limit %2")
                                    .arg(in_both_units(hold.value), in_both_units(hold.limit));
}

QString at_by(const QString& what, const StaleCause& cause) {
    return HoldWords::tr("%1 on %2 by %3").arg(what, day_of(cause.since), text(cause.who));
}

QString changed(const QString& what, const StaleCause& cause) {
    return HoldWords::tr("%1 changed from %2 to %3")
        .arg(what, shown(cause.before), shown(cause.now));
}

/// Whether two causes are one thing done at several places of a set-up.
bool done_alike(const StaleCause& a, const StaleCause& b) {
    return a.record.kind == RecordKind::set_up && b.record.kind == RecordKind::set_up &&
           a.reason == b.reason && a.before == b.before && a.now == b.now && a.act == b.act &&
           set_up_field(a.field).what == set_up_field(b.field).what;
}

QString all_owners(const std::vector<std::string>& names, const QStringList& owners) {
    const QString many = many_places(names);
    return many.isEmpty() ? joined_by_and(owners) : many;
}

/// Causes from one on that are done alike, in one: "intake gasket, left bank and right bank,
/// changed from …". Moves `next` behind them.
QString cause_from(const std::vector<StaleCause>& causes, std::size_t& next, const OwnTitles& own) {
    const StaleCause& first = causes[next++];
    std::vector<std::string> names;
    QStringList owners;
    const auto add = [&](const StaleCause& cause) {
        const QString where = set_up_field(cause.field).where;
        if (!where.isEmpty() && !owners.contains(where)) {
            owners << where;
            names.push_back(where.toStdString());
        }
    };
    add(first);
    for (; next < causes.size() && done_alike(first, causes[next]); ++next) {
        add(causes[next]);
    }
    if (owners.size() < 2) {
        return stale_cause(first, own);
    }
    return at_by(changed(HoldWords::tr("%1, %2,").arg(set_up_field(first.field).what,
                                                      all_owners(names, owners)),
                         first),
                 first);
}

/// Each reason once, behind what it is the reason of.
QString stale(const Hold& hold, const OwnTitles& own) {
    QStringList all;
    QStringList alike;
    for (std::size_t next = 0; next < hold.causes.size();) {
        const DependenceReason why = hold.causes[next].reason;
        alike << cause_from(hold.causes, next, own);
        if (next == hold.causes.size() || hold.causes[next].reason != why) {
            all << HoldWords::tr("%1 (%2)").arg(alike.join(QStringLiteral("; ")), reason(why));
            alike.clear();
        }
    }
    return HoldWords::tr("Check again: %1. Since it was checked: %2")
        .arg(with_places(check(hold, own), hold), all.join(QStringLiteral("; ")));
}

QString awaited(const Hold& hold) {
    const QString what =
        hold.wait == PartWait::not_listed ? part_role(hold.subject) : text(hold.subject);
    return HoldWords::tr("Part: %1, %2")
        .arg(with_places(what, hold), part_wait(*hold.wait, hold.until));
}

QString drying(const Hold& hold) {
    return hold.until
               ? HoldWords::tr("Cures: %1, until %2").arg(text(hold.subject), time_of(*hold.until))
               : HoldWords::tr("Cures: %1; how long it must isn't known").arg(text(hold.subject));
}

QString size_or_state(const StaleCause& cause, const QString& name) {
    if (cause.field == "fitted" && cause.now) {
        return cause.before ? HoldWords::tr("%1 was fitted again").arg(name)
                            : HoldWords::tr("%1 was fitted").arg(name);
    }
    if (cause.field == "fitted" || (cause.field == "exists" && !cause.now)) {
        return HoldWords::tr("%1 was taken out").arg(name);
    }
    if (cause.field == "exists") {
        return HoldWords::tr("%1 took the place of another").arg(name);
    }
    if (cause.field == "returned") {
        return HoldWords::tr("%1 was given back").arg(name);
    }
    return changed(name, cause);
}

} // namespace

QString day(const std::string& iso_day) {
    const QDate date = QDate::fromString(text(iso_day), Qt::ISODate);
    return date.isValid() ? QLocale().toString(date, QStringLiteral("d MMMM yyyy")) : text(iso_day);
}

QString day_of(const std::string& utc) {
    return day(local(utc).date().toString(Qt::ISODate).toStdString());
}

QString time_of(const std::string& utc) {
    return HoldWords::tr("%1, %2").arg(day_of(utc), local(utc).toString(QStringLiteral("hh:mm")));
}

QString hold(const Hold& hold, const OwnTitles& own) {
    switch (hold.kind) {
        case HoldKind::contact:
            return HoldWords::tr("Contact: %1%2. It must be cured and checked again")
                .arg(with_places(check(hold, own), hold), judged(hold));
        case HoldKind::check_failed:
            return HoldWords::tr("Failed: %1%2")
                .arg(with_places(check(hold, own), hold), judged(hold));
        case HoldKind::check_too_close:
            return HoldWords::tr("Too close to call: %1%2")
                .arg(with_places(check(hold, own), hold), judged(hold));
        case HoldKind::check_stale:
            return stale(hold, own);
        case HoldKind::clearance_no_answer:
            return HoldWords::tr("No clearance can be worked out: %1").arg(places(hold));
        case HoldKind::clearance_no_doubt:
            return HoldWords::tr("No pass without a doubt: state the set-up's, for %1")
                .arg(places(hold));
        case HoldKind::clearance_not_known:
            return HoldWords::tr(
                "The clearance isn't worked out: the set-up is missing or "
                "incomplete");
        case HoldKind::sheet_missing:
            return HoldWords::tr("Sheet not begun: %1").arg(sheet_title(hold.subject, own));
        case HoldKind::sheet_incomplete:
            return HoldWords::tr("Sheet not complete: %1")
                .arg(with_places(sheet_title(hold.subject, own), hold));
        case HoldKind::part_awaited:
            return awaited(hold);
        case HoldKind::cure_running:
            return drying(hold);
        case HoldKind::open_item:
            return HoldWords::tr("Open: %1").arg(with_places(text(hold.subject), hold));
        case HoldKind::decision_pending:
            return HoldWords::tr("The customer is asked: %1").arg(text(hold.subject));
        case HoldKind::step_open:
            return HoldWords::tr("To do: %1").arg(text(hold.subject));
        case HoldKind::needs_not_readable:
            return HoldWords::tr("Nobody can say what the gate waits for: “%1”")
                .arg(text(hold.subject));
    }
    return {};
}

QString waived(const HoldWaiver& waiver) {
    const QString who =
        waiver.until ? HoldWords::tr("waived by %1 on %2 until %3")
                           .arg(text(waiver.by), day_of(waiver.at), day(*waiver.until))
                     : HoldWords::tr("waived by %1 on %2").arg(text(waiver.by), day_of(waiver.at));
    return HoldWords::tr("%1: %2").arg(who, text(waiver.reason));
}

QString neglect(WaiverNeglect why) {
    switch (why) {
        case WaiverNeglect::of_contact:
            return HoldWords::tr("it would waive contact, which is never waived");
        case WaiverNeglect::expired:
            return HoldWords::tr("its last day has passed");
        case WaiverNeglect::holds_nothing:
            return HoldWords::tr("what it waived doesn't hold the build up now");
    }
    return {};
}

QString stale_cause(const StaleCause& cause, const OwnTitles& own) {
    if (cause.record.kind == RecordKind::part) {
        return at_by(size_or_state(cause, text(cause.name)), cause);
    }
    if (cause.record.kind == RecordKind::set_up) {
        const SetUpField field = set_up_field(cause.field);
        return at_by(
            changed(field.where.isEmpty() ? field.what
                                          : HoldWords::tr("%1, %2,").arg(field.what, field.where),
                    cause),
            cause);
    }
    const QString title = sheet_title(cause.field, own);
    return at_by(
        changed(cause.name.empty() ? title : HoldWords::tr("%1, %2,").arg(title, text(cause.name)),
                cause),
        cause);
}

QString reason(DependenceReason reason) {
    switch (reason) {
        case DependenceReason::bolt_end_near_rod:
            return HoldWords::tr("a longer bolt reaches into the pushrod's hole");
        case DependenceReason::moves_head:
            return HoldWords::tr("it sets how high the head stands");
        case DependenceReason::moves_intake:
            return HoldWords::tr("it sets where the intake stands between the heads");
        case DependenceReason::moves_rod_foot:
            return HoldWords::tr("it sets where the pushrod's lower end stands");
        case DependenceReason::moves_rod_top:
            return HoldWords::tr("it sets where the pushrod's upper end stands");
        case DependenceReason::is_the_rod:
            return HoldWords::tr("it is the pushrod itself");
        case DependenceReason::is_the_passage:
            return HoldWords::tr("the pushrod runs through it");
        case DependenceReason::lifts_further:
            return HoldWords::tr("it sets how far and when the valve opens");
        case DependenceReason::moves_valve:
            return HoldWords::tr("it sets where the valve stands in its head");
        case DependenceReason::moves_piston:
            return HoldWords::tr("it sets how high the piston comes");
        case DependenceReason::changes_chamber:
            return HoldWords::tr("it is a wall of the chamber");
        case DependenceReason::changes_fit:
            return HoldWords::tr("the gap lies beside it");
        case DependenceReason::changes_clamping:
            return HoldWords::tr("its joint is taken apart for it");
        case DependenceReason::changes_spring:
            return HoldWords::tr("it sets the spring's load or height");
        case DependenceReason::drags:
            return HoldWords::tr("it rubs when the engine is turned");
        case DependenceReason::swings_near:
            return HoldWords::tr("it turns past what it must clear");
        case DependenceReason::sets_mesh:
            return HoldWords::tr("it sets where the gear stands in its mate");
        case DependenceReason::shifts_timing:
            return HoldWords::tr("it sets where the cam stands to the crank");
        case DependenceReason::changes_balance:
            return HoldWords::tr("its mass turns or goes up and down");
        case DependenceReason::carries_oil:
            return HoldWords::tr("oil comes, or is kept in, through it");
        case DependenceReason::judged_by:
            return HoldWords::tr("the check is judged by it");
    }
    return {};
}

QString part_wait(PartWait wait, const std::optional<std::string>& promised) {
    switch (wait) {
        case PartWait::not_listed:
            return HoldWords::tr("not on the build's list of parts");
        case PartWait::needed:
            return HoldWords::tr("to be ordered");
        case PartWait::ordered:
            return HoldWords::tr("ordered, no day promised");
        case PartWait::promised:
            return HoldWords::tr("promised for %1").arg(promised ? day(*promised) : QString());
        case PartWait::overdue:
            return HoldWords::tr("overdue, was promised for %1")
                .arg(promised ? day(*promised) : QString());
        case PartWait::not_measured:
            return HoldWords::tr("has come, not measured yet");
        case PartWait::not_fitted:
            return HoldWords::tr("measured, not fitted yet");
        case PartWait::temporary:
            return HoldWords::tr("stands in for another that must replace it");
        case PartWait::failed:
            return HoldWords::tr("failed, must be replaced");
    }
    return {};
}

QString cure(const CureState& state) {
    switch (state.stage) {
        case CureStage::wet:
            return state.full_at ? HoldWords::tr("wet; may be handled in %1 min; fully cured on %2")
                                       .arg(*state.minutes_to_handling)
                                       .arg(time_of(*state.full_at))
                                 : HoldWords::tr(
                                       "wet; may be handled in %1 min; when it has cured fully "
                                       "isn't known")
                                       .arg(*state.minutes_to_handling);
        case CureStage::may_be_handled:
            return state.full_at
                       ? HoldWords::tr("may be handled; fully cured on %1")
                             .arg(time_of(*state.full_at))
                       : HoldWords::tr("may be handled; when it has cured fully isn't known");
        case CureStage::cured:
            return HoldWords::tr("cured since %1").arg(time_of(*state.full_at));
        case CureStage::not_known:
            return state.full_at
                       ? HoldWords::tr("when it may be handled isn't known; fully cured on %1")
                             .arg(time_of(*state.full_at))
                       : HoldWords::tr("the label's times aren't known");
        case CureStage::ended:
            return state.ended_early == true ? HoldWords::tr("ended, before the label's time")
                                             : HoldWords::tr("ended");
    }
    return {};
}

QString due(DueKind kind) {
    switch (kind) {
        case DueKind::promise_passed:
            return HoldWords::tr("promised to the customer, late");
        case DueKind::promise_near:
            return HoldWords::tr("promised to the customer");
        case DueKind::part_overdue:
            return HoldWords::tr("part overdue");
        case DueKind::part_due:
            return HoldWords::tr("part due");
        case DueKind::cure_handling:
            return HoldWords::tr("may be handled");
        case DueKind::cure_full:
            return HoldWords::tr("fully cured");
        case DueKind::cure_not_known:
            return HoldWords::tr("cures, how long isn't known");
        case DueKind::item_due:
            return HoldWords::tr("open item due");
        case DueKind::service_due:
            return HoldWords::tr("service due");
        case DueKind::visit_due:
            return HoldWords::tr("engine expected back");
        case DueKind::keep_ended:
            return HoldWords::tr("need not be kept any longer");
    }
    return {};
}

} // namespace rodway::words
