#include "app/words/act_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <map>
#include <vector>

#include "app/words/counted.h"
#include "app/words/record_words.h"

namespace rodway::words {
namespace {

struct Acts {
    Q_DECLARE_TR_FUNCTIONS(Acts)
};

constexpr int most_phrases = 4;
constexpr int most_fields = 2;
constexpr int longest_value = 60;

/// What one act did to one record.
struct Touched {
    RecordRef record;
    std::vector<const Edit*> edits;
    bool made = false;
    bool removed = false;
};

QString shortened(const std::string& text) {
    const QString line = QString::fromStdString(text).simplified();
    return line.size() <= longest_value ? line : line.left(longest_value) + u'…';
}

QString value(const std::optional<std::string>& text) {
    return text ? Acts::tr("“%1”").arg(shortened(*text)) : Acts::tr("nothing");
}

/// Records in the order in which the act names them.
std::vector<Touched> touched_by(const Act& act) {
    std::vector<Touched> all;
    std::map<RecordRef, std::size_t, ByKindAndId> at;
    for (const Edit& edit : act.edits) {
        const auto [place, fresh] = at.emplace(edit.record, all.size());
        if (fresh) all.push_back({edit.record, {}, false, false});
        Touched& record = all[place->second];
        record.edits.push_back(&edit);
        if (edit.field == "exists") (edit.after ? record.made : record.removed) = true;
    }
    return all;
}

/// By the texts that the act itself wrote or took away, then by what is stored now.
QString title_of(const Touched& record, const RecordTexts& now) {
    FieldTexts fields;
    if (const auto stored = now.find(record.record); stored != now.end()) fields = stored->second;
    for (const Edit* edit : record.edits) {
        const auto& text = record.removed ? edit->before : edit->after;
        if (text) fields[edit->field] = *text;
    }
    const QString title = record_title(record.record.kind, fields);
    return title.isEmpty() ? QString::number(record.record.id)
                           : Acts::tr("“%1”").arg(shortened(title.toStdString()));
}

QString tick_phrase(const Touched& record, const QString& title) {
    for (const Edit* edit : record.edits) {
        if (record.record.kind == RecordKind::step && edit->field == "ticked_at") {
            return edit->after ? Acts::tr("ticked %1").arg(title)
                               : Acts::tr("tick taken back from %1").arg(title);
        }
    }
    return {};
}

QString change_phrase(const Touched& record, const QString& title) {
    if (const QString tick = tick_phrase(record, title); !tick.isEmpty()) return tick;
    QStringList fields;
    for (const Edit* edit : record.edits) {
        if (fields.size() == most_fields) {
            fields << counted(static_cast<int>(record.edits.size()) - most_fields,
                              Acts::tr("1 more field"), Acts::tr("%1 more fields"));
            break;
        }
        const QString name = field_name(edit->field);
        fields
            << (edit->erased
                    ? Acts::tr("%1 erased").arg(name)
                    : Acts::tr("%1, %2 → %3").arg(name, value(edit->before), value(edit->after)));
    }
    return Acts::tr("%1 %2: %3").arg(record_kind(record.record.kind), title, fields.join("; "));
}

} // namespace

QString act_summary(const Act& act, const RecordTexts& now) {
    const std::vector<Touched> all = touched_by(act);
    // A plan's steps are told as a number, not one by one.
    std::map<std::pair<RecordKind, bool>, int> whole;
    for (const Touched& record : all) {
        if (record.made || record.removed) ++whole[{record.record.kind, record.made}];
    }
    QStringList phrases;
    for (const Touched& record : all) {
        const QString kind = record_kind(record.record.kind);
        if (!record.made && !record.removed) {
            phrases << change_phrase(record, title_of(record, now));
            continue;
        }
        int& count = whole[{record.record.kind, record.made}];
        if (count == 0) continue; // told with the first of them
        if (count == 1) {
            phrases << (record.made ? Acts::tr("new %1 %2") : Acts::tr("%1 %2 removed"))
                           .arg(kind, title_of(record, now));
        } else {
            phrases << (record.made ? Acts::tr("new: %1, %2 of them")
                                    : Acts::tr("removed: %1, %2 of them"))
                           .arg(kind)
                           .arg(count);
        }
        count = 0;
    }
    if (phrases.size() > most_phrases) {
        const int more = static_cast<int>(phrases.size()) - most_phrases;
        phrases = phrases.mid(0, most_phrases);
        phrases << Acts::tr("and %n more", nullptr, more);
    }
    const QString what = phrases.join("; ");
    return act.undoes ? Acts::tr("took back act %1: %2").arg(*act.undoes).arg(what) : what;
}

} // namespace rodway::words
