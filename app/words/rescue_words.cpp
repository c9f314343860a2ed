#include "app/words/rescue_words.h"

#include <QCoreApplication>

#include "app/words/counted.h"
#include "db/record_tables.h"

namespace rodway::words {
namespace {

struct Rescues {
    Q_DECLARE_TR_FUNCTIONS(Rescues)
};

/// The word that the history has for it: "open item 12".
QString name_of(const RecordRef& record) {
    const std::string word(table_of(record.kind).word);
    return Rescues::tr("%1 %2").arg(QString::fromStdString(word).replace('_', ' '),
                                    QString::number(record.id));
}

constexpr int most_numbers = 20;

QString numbers_text(const std::vector<std::int64_t>& numbers) {
    QStringList texts;
    for (const std::int64_t number : numbers) {
        if (texts.size() == most_numbers) {
            texts << Rescues::tr("…");
            break;
        }
        texts << QString::number(number);
    }
    return texts.join(QStringLiteral(", "));
}

} // namespace

QString rescue_note_text(const RescueNote& note) {
    const QString name = name_of(note.record);
    const QString field = QString::fromStdString(note.field).replace('_', ' ');
    switch (note.code) {
        case RescueCode::replayed:
            return Rescues::tr("%1 was put together again from its history.").arg(name);
        case RescueCode::differs:
            return Rescues::tr("%1 was kept as it stood, but its history is damaged: look it over.")
                .arg(name);
        case RescueCode::unlinked:
            return Rescues::tr("%1 no longer says its %2: that is lost.").arg(name, field);
        case RescueCode::left_out:
            return Rescues::tr("%1 was left out: its %2 is lost.").arg(name, field);
        case RescueCode::without_history:
            return Rescues::tr("%1 was left out: the history knows of no such record.").arg(name);
        case RescueCode::no_row:
            return Rescues::tr(
                       "%1 was left out: its damaged history tells of it, but it no longer stood "
                       "in the file. It may have been removed.")
                .arg(name);
        case RescueCode::lost:
            return Rescues::tr("%1 is lost.").arg(name);
    }
    return {};
}

QStringList rescue_summary(const RescueReport& report) {
    int as_stored = 0;
    int replayed = 0;
    int lost = 0;
    for (const auto& [kind, count] : report.records) {
        as_stored += count.as_stored;
        replayed += count.replayed;
        lost += count.lost;
    }
    QStringList lines;
    lines << Rescues::tr("Records: %1 as they stood, %2 put together from the history, %3 lost.")
                 .arg(as_stored)
                 .arg(replayed)
                 .arg(lost);
    lines << Rescues::tr("Acts of the history: %1 kept.").arg(report.acts);
    if (!report.lost_acts.empty()) {
        lines << Rescues::tr("Acts that are lost: %1.").arg(numbers_text(report.lost_acts));
    }
    if (report.acts_missing_at_end > 0) {
        lines << counted(
            static_cast<int>(report.acts_missing_at_end),
            Rescues::tr("The newest act is lost: enter again what was done last."),
            Rescues::tr("The newest %1 acts are lost: enter again what was done last."));
    }
    lines << Rescues::tr("Photos: %n copied.", nullptr, report.photos_copied);
    for (const std::string& path : report.photos_altered) {
        lines << Rescues::tr("A photo's file is no longer what it was, and stays behind: %1")
                     .arg(QString::fromStdString(path));
    }
    return lines;
}

} // namespace rodway::words
