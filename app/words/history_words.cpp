#include "app/words/history_words.h"

#include <QCoreApplication>
#include <map>
#include <optional>
#include <string_view>
#include <utility>

#include "app/words/hold_words.h"
#include "app/words/record_words.h"
#include "app/words/set_up_words.h"
#include "app/words/sheet_words.h"
#include "db/record_tables.h"

namespace rodway::words {
namespace {

struct History {
    Q_DECLARE_TR_FUNCTIONS(History)
};

QString quoted(const QString& text) {
    return History::tr("“%1”").arg(text);
}

/// What an act did, told with the names of the records it touched.
class ActTeller {
  public:
    ActTeller(const Act& act, const RecordTexts& now);

    [[nodiscard]] QString name_of(const RecordRef& record) const;
    [[nodiscard]] QString change_line(const Edit& edit) const;
    /// Of a field of a record that is told of above: it has one text only. Empty for what only the
    /// file needs.
    [[nodiscard]] QString field_line(const Edit& edit) const;

  private:
    [[nodiscard]] QString title_of(const RecordRef& record) const;
    [[nodiscard]] QString value(const RecordField* field, const Edit& edit,
                                const std::optional<std::string>& text) const;

    const RecordTexts& now_;
    std::map<RecordRef, QString, ByKindAndId> titles_; ///< of what the act touched
};

ActTeller::ActTeller(const Act& act, const RecordTexts& now) : now_(now) {
    RecordTexts written; // by the act, or taken away by it
    for (const Edit& edit : act.edits) {
        if (const auto& text = edit.after ? edit.after : edit.before) {
            written[edit.record][edit.field] = *text;
        }
    }
    for (const auto& [record, fields] : written) {
        FieldTexts all = fields;
        if (const auto stored = now_.find(record); stored != now_.end()) {
            all.insert(stored->second.begin(), stored->second.end());
        }
        titles_[record] = record_title(record.kind, all);
    }
}

const RecordField* field_of(const Edit& edit) {
    return find_field(table_of(edit.record.kind), edit.field);
}

QString field_title_of(const Edit& edit) {
    const RecordField* field = field_of(edit);
    if (field == nullptr && edit.record.kind == RecordKind::set_up) {
        return set_up_field_text(edit.field);
    }
    static constexpr std::string_view id = "_id";
    const bool refers = field != nullptr && field->refers_to && edit.field.ends_with(id);
    return field_name(refers ? edit.field.substr(0, edit.field.size() - id.size()) : edit.field);
}

QString ActTeller::title_of(const RecordRef& record) const {
    if (const auto touched = titles_.find(record); touched != titles_.end()) {
        return touched->second;
    }
    const auto stored = now_.find(record);
    return stored == now_.end() ? QString() : record_title(record.kind, stored->second);
}

QString ActTeller::name_of(const RecordRef& record) const {
    const QString title = title_of(record);
    return QStringLiteral("%1 %2").arg(
        record_kind(record.kind), title.isEmpty() ? QString::number(record.id) : quoted(title));
}

QString ActTeller::value(const RecordField* field, const Edit& edit,
                         const std::optional<std::string>& text) const {
    const FieldForm form = field == nullptr ? FieldForm::text : field->form;
    if (form == FieldForm::flag) {
        return text ? History::tr("yes") : History::tr("no");
    }
    if (!text) {
        return History::tr("nothing");
    }
    if (form == FieldForm::reference && field->refers_to) {
        const RecordRef record{*field->refers_to, QString::fromStdString(*text).toLongLong()};
        const QString title = title_of(record);
        return title.isEmpty() ? name_of(record) : quoted(title);
    }
    switch (form) {
        case FieldForm::date:
            return day(*text);
        case FieldForm::utc:
            return time_of(*text);
        case FieldForm::choice:
            return quoted(field_name(*text));
        default:
            return quoted(edit.field == "quantity" ? sheet_title(*text)
                                                   : QString::fromStdString(*text));
    }
}

QString ActTeller::field_line(const Edit& edit) const {
    const RecordField* field = field_of(edit);
    const bool of_file = field != nullptr && (field == owner_field(table_of(edit.record.kind)) ||
                                              edit.field == "ordinal");
    if (of_file) {
        return {};
    }
    const QString title = field_title_of(edit);
    if (edit.erased) {
        return History::tr("      %1: erased").arg(title);
    }
    return History::tr("      %1: %2")
        .arg(title, value(field, edit, edit.after ? edit.after : edit.before));
}

QString ActTeller::change_line(const Edit& edit) const {
    const QString what = QStringLiteral("%1, %2").arg(name_of(edit.record), field_title_of(edit));
    if (edit.erased) {
        return History::tr("   %1: erased").arg(what);
    }
    const RecordField* field = field_of(edit);
    return History::tr("   %1: %2 → %3")
        .arg(what, value(field, edit, edit.before), value(field, edit, edit.after));
}

QString heading(const Act& act) {
    const QString line = History::tr("Act %1, %2, %3")
                             .arg(QString::number(act.number), time_of(act.when_utc),
                                  QString::fromStdString(act.who));
    return act.undoes ? History::tr("%1, takes back act %2").arg(line).arg(*act.undoes) : line;
}

} // namespace

QStringList act_lines(const Act& act, const RecordTexts& now) {
    const ActTeller teller(act, now);
    QStringList lines(heading(act));
    // A record made or removed stands where the act first names it, with all of its fields.
    std::map<std::pair<RecordKind, std::int64_t>, QStringList> whole;
    for (const Edit& edit : act.edits) {
        if (edit.field != "exists") {
            continue;
        }
        const QString name = teller.name_of(edit.record);
        whole[{edit.record.kind, edit.record.id}]
            << (edit.after ? History::tr("   %1 made").arg(name)
                           : History::tr("   %1 removed").arg(name));
    }
    for (const Edit& edit : act.edits) {
        const auto record = whole.find({edit.record.kind, edit.record.id});
        if (record == whole.end() || edit.field == "exists") {
            continue;
        }
        if (const QString line = teller.field_line(edit); !line.isEmpty()) {
            record->second << line;
        }
    }
    for (const Edit& edit : act.edits) {
        const auto record = whole.find({edit.record.kind, edit.record.id});
        if (record == whole.end()) {
            lines << teller.change_line(edit);
        } else {
            lines << std::exchange(record->second, {});
        }
    }
    return lines;
}

} // namespace rodway::words
