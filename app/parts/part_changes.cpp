#include "app/parts/part_changes.h"

#include <QCoreApplication>
#include <algorithm>

#include "app/work/temporary_parts.h"
#include "core/build/part_check.h"
#include "core/build/word_list.h"
#include "db/build_records.h"
#include "db/edits.h"

namespace rodway {
namespace {

struct PartChanges {
    Q_DECLARE_TR_FUNCTIONS(PartChanges)
};

void append(std::vector<Edit>& all, const std::vector<Edit>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

Result<PartRecord> marked(const PartRecord& part, PartMark mark,
                          const std::optional<std::string>& text) {
    FieldTexts texts = fields_of(part);
    texts.erase(part_mark_word(mark));
    if (text) {
        texts.emplace(part_mark_word(mark), *text);
    }
    return record_from<PartRecord>(part.id, texts);
}

/// The edits from one to the other, with what goes along in the open items.
Result<std::vector<Edit>> edits_with_items(ShopSession& session, const PartRecord& before,
                                           const PartRecord& after) {
    std::vector<Edit> edits = edits_to_change(before, after);
    const auto items =
        edits.empty() ? Result(std::vector<Edit>()) : temporary_part_edits(session, before, after);
    if (!items) {
        return items.error();
    }
    append(edits, *items);
    return edits;
}

Result<Done> act(ShopSession& session, std::vector<Edit> edits, const QString& what) {
    if (edits.empty()) {
        return Done{};
    }
    const auto done = session.act(std::move(edits), what);
    return done ? Result<Done>(Done{}) : Result<Done>(done.error());
}

QString name_of_act(const std::vector<PartRecord>& parts, PartMark mark) {
    const QString word = QString::fromStdString(part_mark_word(mark)).replace('_', ' ');
    return parts.size() == 1
               ? PartChanges::tr("%1: %2").arg(QString::fromStdString(parts.front().item), word)
               : PartChanges::tr("%1 parts: %2").arg(parts.size()).arg(word);
}

} // namespace

PartRecord fresh_part(std::int64_t build_id, const std::string& today) {
    PartRecord part;
    part.build_id = build_id;
    part.needed = today;
    return part;
}

PartRecord replacement_of(const PartRecord& part, const std::string& today) {
    PartRecord next = fresh_part(part.build_id, today);
    next.replaces_id = part.id;
    next.step_id = part.step_id;
    next.item = part.item;
    next.size = part.size;
    next.count = part.count;
    next.position = part.position;
    next.role = part.role;
    next.thread = part.thread;
    next.length = part.length;
    next.drive = part.drive;
    next.lubricant = part.lubricant;
    next.tightening = part.tightening;
    return next;
}

Result<Done> mark_parts(ShopSession& session, const std::vector<PartRecord>& parts, PartMark mark,
                        const std::optional<std::string>& text, const std::string& today) {
    if (text && without_blanks(*text).empty()) {
        return Error{ErrorCode::empty_text, part_mark_word(mark), {}, {}, {}, {}};
    }
    std::vector<Edit> edits;
    for (const PartRecord& part : parts) {
        const auto typed = marked(part, mark, text);
        const auto after = typed ? with_checked_days(*typed, today) : typed;
        if (!after) {
            return after.error();
        }
        const auto more = edits_with_items(session, part, *after);
        if (!more) {
            return more.error();
        }
        append(edits, *more);
    }
    return act(session, std::move(edits), name_of_act(parts, mark));
}

Result<Done> mark_failed(ShopSession& session, const PartRecord& part, const std::string& how,
                         const std::string& kept_until, const std::string& today) {
    const auto line = kept_line(how, "failed");
    if (!line || line->empty()) {
        return line ? Error{ErrorCode::empty_text, "failed", {}, {}, {}, {}} : line.error();
    }
    PartRecord typed = part;
    typed.failed = *line;
    typed.kept_until = without_blanks(kept_until);
    const auto after = with_checked_days(std::move(typed), today);
    if (!after) {
        return after.error();
    }
    return act(session, edits_to_change(part, *after), name_of_act({part}, PartMark::failed));
}

Result<Done> remove_part(ShopSession& session, const PartRecord& part) {
    const auto items = load_records<OpenItem>(session.shop(), part.build_id);
    if (!items) {
        return items.error();
    }
    std::vector<Edit> edits;
    for (const OpenItem& item : *items) {
        if (item.kind != OpenItemKind::temporary_part || item.part_id != part.id) {
            continue;
        }
        const auto removal = edits_to_remove(session.shop(), {RecordKind::open_item, item.id});
        if (!removal) {
            return removal.error();
        }
        append(edits, *removal);
    }
    const auto reopened = temporary_part_edits(session, part, std::nullopt);
    const auto removal = edits_to_remove(session.shop(), {RecordKind::part, part.id});
    if (!reopened || !removal) {
        return !reopened ? reopened.error() : removal.error();
    }
    append(edits, *reopened);
    append(edits, *removal);
    return act(session, std::move(edits),
               PartChanges::tr("removal of “%1”").arg(QString::fromStdString(part.item)));
}

} // namespace rodway
