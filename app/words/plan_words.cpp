#include "app/words/plan_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "app/words/part_words.h"

namespace rodway::words {
namespace {

struct Plans {
    Q_DECLARE_TR_FUNCTIONS(Plans)
};

QString sheets_needed(const Need& need, const OwnTitles& own) {
    QStringList titles;
    for (const std::string& sheet : need.sheets) {
        titles << sheet_title(sheet, own);
    }
    return Plans::tr("sheets complete and within limits: %1").arg(titles.join(", "));
}

QString parts_needed(const Need& need) {
    QStringList names;
    for (const std::string& role : need.roles) {
        names << part_role(role);
    }
    return Plans::tr("parts fitted: %1").arg(names.join(", "));
}

QString closed_needed(const Need& need) {
    QStringList names;
    for (const OpenItemKind kind : need.items) {
        names << open_item_kind(kind);
    }
    return Plans::tr("no open item of these kinds: %1").arg(names.join(", "));
}

QString one_need(const Need& need, const OwnTitles& own) {
    switch (need.kind) {
        case NeedKind::steps:
            return Plans::tr("every step of this stage ticked or not needed");
        case NeedKind::sheet:
            return sheets_needed(need, own);
        case NeedKind::parts:
            return parts_needed(need);
        case NeedKind::cures:
            return Plans::tr("everything of this stage that cures cured fully");
        case NeedKind::clearance:
            return Plans::tr("every pushrod's clearance passed");
        case NeedKind::closed:
            return closed_needed(need);
        case NeedKind::approvals:
            return Plans::tr("every question to the customer answered");
    }
    return {};
}

QString with_kind(const PlanChange& change, const QString& stage, const QString& step,
                  const QString& gate) {
    return (change.item == RecordKind::stage  ? stage
            : change.item == RecordKind::step ? step
                                              : gate)
        .arg(QString::fromStdString(change.title));
}

QString field_name(const std::string& field) {
    if (field == "title") {
        return Plans::tr("Title");
    }
    if (field == "detail") {
        return Plans::tr("Detail");
    }
    if (field == "caution") {
        return Plans::tr("Caution");
    }
    if (field == "sheet_kind") {
        return Plans::tr("Sheet");
    }
    if (field == "part_roles") {
        return Plans::tr("Parts");
    }
    return Plans::tr("Needs");
}

} // namespace

QString needs(const std::vector<Need>& needs, const OwnTitles& own) {
    QStringList all;
    for (const Need& need : needs) {
        all << one_need(need, own);
    }
    return all.join("; ");
}

QString open_item_kind(OpenItemKind kind) {
    switch (kind) {
        case OpenItemKind::temporary_part:
            return Plans::tr("Temporary part");
        case OpenItemKind::watch:
            return Plans::tr("To watch");
        case OpenItemKind::decision:
            return Plans::tr("Decision");
        case OpenItemKind::risk:
            return Plans::tr("Risk");
        case OpenItemKind::question:
            return Plans::tr("Question");
        case OpenItemKind::other:
            return Plans::tr("Other");
    }
    return {};
}

QString plan_change(const PlanChange& change) {
    switch (change.kind) {
        case PlanChangeKind::added:
            return with_kind(change, Plans::tr("New stage “%1”"), Plans::tr("New step “%1”"),
                             Plans::tr("New gate “%1”"));
        case PlanChangeKind::changed:
            return with_kind(change, Plans::tr("Changed stage “%1”"),
                             Plans::tr("Changed step “%1”"), Plans::tr("Changed gate “%1”"));
        case PlanChangeKind::gone:
            return with_kind(change, Plans::tr("Stage “%1” is gone from the plan"),
                             Plans::tr("Step “%1” is gone from the plan"),
                             Plans::tr("Gate “%1” is gone from the plan"));
    }
    return {};
}

QStringList plan_field_changes(const PlanChange& change) {
    const auto text = [](const std::optional<std::string>& value) {
        return QString::fromStdString(value.value_or(Plans::tr("nothing").toStdString()));
    };
    QStringList lines;
    for (const PlanFieldChange& field : change.fields) {
        if (field.field == "after") {
            lines << (field.now ? Plans::tr("Stands behind “%1” now").arg(text(field.now))
                                : Plans::tr("Stands first now"));
        } else {
            lines << Plans::tr("%1: was “%2”, is now “%3”")
                         .arg(field_name(field.field), text(field.before), text(field.now));
        }
    }
    return lines;
}

QString token(PlanChangeKind kind) {
    switch (kind) {
        case PlanChangeKind::added:
            return QStringLiteral("added");
        case PlanChangeKind::changed:
            return QStringLiteral("changed");
        case PlanChangeKind::gone:
            return QStringLiteral("gone");
    }
    return {};
}

} // namespace rodway::words
