#include "app/words/waiting_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QStringList>
#include <algorithm>

#include "app/words/error_text.h"
#include "db/record_tables.h"

namespace rodway::words {
namespace {

struct Waiting {
    Q_DECLARE_TR_FUNCTIONS(Waiting)
};

QString reason(const Error& trouble) {
    if (trouble.code == ErrorCode::locked_file) {
        return Waiting::tr("another program holds the shop file");
    }
    if (trouble.code == ErrorCode::cannot_read) {
        return trouble.value == "replaced"
                   ? Waiting::tr("another file stands where the shop file was; put it back")
                   : Waiting::tr("the shop file is no longer where it was; put it back");
    }
    return trouble.value == "disk_full"
               ? Waiting::tr("the disk is full; make room on it")
               : Waiting::tr("the shop file can't be written; check its disk and its permissions");
}

QString plain(const std::string& word) {
    return QString::fromStdString(word).replace('_', ' ');
}

QString place(const Edit& edit) {
    const std::string kind(table_of(edit.record.kind).word);
    return Waiting::tr("%1 %2, %3").arg(plain(kind)).arg(edit.record.id).arg(plain(edit.field));
}

/// As this computer's clock has it.
QString local_time(const std::string& utc) {
    const QDateTime time = QDateTime::fromString(QString::fromStdString(utc), Qt::ISODate);
    return time.toLocalTime().toString(QStringLiteral("yyyy-MM-dd hh:mm"));
}

/// Not what the heading says, nor ids and times, which nobody typed.
bool was_typed(const Edit& edit) {
    const RecordField* field = find_field(table_of(edit.record.kind), edit.field);
    return edit.field != "exists" && (field == nullptr || (field->form != FieldForm::reference &&
                                                           field->form != FieldForm::utc));
}

QString value(const std::optional<std::string>& text) {
    return text ? Waiting::tr("“%1”").arg(QString::fromStdString(*text)) : Waiting::tr("nothing");
}

} // namespace

QString waiting_bar(const std::vector<WaitingAct>& waiting) {
    QStringList parts;
    const auto refused = static_cast<int>(std::count_if(
        waiting.begin(), waiting.end(), [](const WaitingAct& act) { return act.refused; }));
    const int left = static_cast<int>(waiting.size()) - refused;
    if (left > 0) {
        const auto first = std::find_if(waiting.begin(), waiting.end(),
                                        [](const WaitingAct& act) { return !act.refused; });
        parts << (left == 1 ? Waiting::tr("One entry is not saved yet: %1. Trying again…")
                            : Waiting::tr("%n entries are not saved yet: %1. Trying again…",
                                          nullptr, left))
                     .arg(reason(first->trouble));
    }
    if (refused > 0) {
        parts << (refused == 1
                      ? Waiting::tr("One entry could not be saved, for what it changes was changed "
                                    "meanwhile: look at it and decide.")
                      : Waiting::tr("%n entries could not be saved, for what they change was "
                                    "changed meanwhile: look at them and decide.",
                                    nullptr, refused));
    }
    return parts.join(' ');
}

QString waiting_entry(const WaitingAct& act) {
    QStringList lines(
        Waiting::tr("%1 (%2, %3)")
            .arg(act.what, QString::fromStdString(act.who), local_time(act.when_utc)));
    for (const Edit& edit : act.edits) {
        if (!was_typed(edit)) {
            continue;
        }
        // A new record has no number yet that would mean anything.
        const QString where = act.creates ? plain(edit.field) : place(edit);
        lines << (edit.before ? Waiting::tr("    %1: %2 → %3")
                                    .arg(where, value(edit.before), value(edit.after))
                              : Waiting::tr("    %1: %2").arg(where, value(edit.after)));
    }
    if (act.refused) {
        lines << Waiting::tr("    Not saved: %1").arg(error_text(act.trouble));
    }
    return lines.join('\n');
}

QString waiting_as_text(const std::vector<WaitingAct>& waiting) {
    QStringList entries(Waiting::tr("Not saved in the shop file:"));
    for (const WaitingAct& act : waiting) {
        entries << waiting_entry(act);
    }
    return entries.join("\n\n") + '\n';
}

QString waiting_against_stored(const std::vector<Edit>& edits) {
    QStringList lines;
    for (const Edit& edit : edits) {
        lines << Waiting::tr("%1\n    yours: %2\n    stored: %3")
                     .arg(place(edit), value(edit.after), value(edit.before));
    }
    return lines.join('\n');
}

} // namespace rodway::words
