#include "app/words/history_words.h"

#include <QCoreApplication>
#include <map>
#include <utility>

#include "db/record_tables.h"

namespace rodway::words {
namespace {

struct History {
    Q_DECLARE_TR_FUNCTIONS(History)
};

QString plain(const std::string& word) {
    return QString::fromStdString(word).replace('_', ' ');
}

QString name_of(const RecordRef& record) {
    return QStringLiteral("%1 %2").arg(plain(std::string(table_of(record.kind).word)),
                                       QString::number(record.id));
}

QString value(const std::optional<std::string>& text) {
    return text ? QStringLiteral("“%1”").arg(QString::fromStdString(*text))
                : History::tr("nothing");
}

/// A field of a record that is told of above: it has one text only.
QString field_line(const Edit& edit) {
    const QString field = plain(edit.field);
    if (edit.erased) {
        return History::tr("      %1: erased").arg(field);
    }
    return History::tr("      %1: %2").arg(field, value(edit.after ? edit.after : edit.before));
}

QString change_line(const Edit& edit) {
    const QString what = QStringLiteral("%1, %2").arg(name_of(edit.record), plain(edit.field));
    if (edit.erased) {
        return History::tr("   %1: erased").arg(what);
    }
    return History::tr("   %1: %2 → %3").arg(what, value(edit.before), value(edit.after));
}

QString heading(const Act& act) {
    const QString line = QStringLiteral("%1  %2  %3")
                             .arg(QString::number(act.number), QString::fromStdString(act.when_utc),
                                  QString::fromStdString(act.who));
    return act.undoes ? History::tr("%1  takes back %2").arg(line).arg(*act.undoes) : line;
}

} // namespace

QStringList act_lines(const Act& act) {
    QStringList lines(heading(act));
    // A record made or removed stands where the act first names it, with all of its fields.
    std::map<std::pair<RecordKind, std::int64_t>, QStringList> whole;
    for (const Edit& edit : act.edits) {
        if (edit.field != "exists") {
            continue;
        }
        const QString name = name_of(edit.record);
        whole[{edit.record.kind, edit.record.id}]
            << (edit.after ? History::tr("   %1 made").arg(name)
                           : History::tr("   %1 removed").arg(name));
    }
    for (const Edit& edit : act.edits) {
        const auto record = whole.find({edit.record.kind, edit.record.id});
        if (record != whole.end() && edit.field != "exists") {
            record->second << field_line(edit);
        }
    }
    for (const Edit& edit : act.edits) {
        const auto record = whole.find({edit.record.kind, edit.record.id});
        if (record == whole.end()) {
            lines << change_line(edit);
        } else {
            lines << std::exchange(record->second, {});
        }
    }
    return lines;
}

} // namespace rodway::words
